// Statements in plain words: what a reason, a remark or a contradiction says, without a full stop.
#pragma once

#include <string>
#include <vector>

#include "plugins/timeline/claims.hpp"

namespace lathbook::timeline {

class Words {
public:
  explicit Words(const Facts& facts) : facts_(facts) {}

  /// 'the ivory tile field (N-204)'; 'Chart Room (202)'. A name that looks like a proper one stays as it is.
  std::string name(const Uuid& record) const;
  /// The statement as a sentence: who or what, the registry's phrase, the details that dating leans on, and
  /// the words of the source where they are quoted.
  std::string of(const Fact& fact) const;
  /// The same with this record called 'it' or, by its name, 'they'.
  std::string of(const Fact& fact, const Uuid& it) const;
  /// The same, with the speaker in front when it is hearsay: 'Mrs H. Odell says that ...'.
  std::string said(const Fact& fact) const;
  /// 'all 4 statements that rest on the photograph (S-17) alone', for a source said to stand or fall as a
  /// whole.
  ReasonStep whole(const Fact& fact, std::size_t members) const;
  ReasonStep step(const Fact& fact) const { return {fact.statement.id, of(fact)}; }

private:
  bool is_several(const Uuid& record) const;
  std::string value_of(const Fact& fact, const Uuid& it) const;
  std::string details_of(const Fact& fact) const;

  const Facts& facts_;
};

/// 'no', 'one', ... 'twelve', '13'.
std::string number_words(Day number);

/// 'just short of ten years', 'about seven years', 'five months', 'less than a day'.
std::string span_words(Day days);

}  // namespace lathbook::timeline
