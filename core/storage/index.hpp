// The derived columns and tables: interned ids, who is current, what is closed, words to search.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "core/evidence/registry.hpp"
#include "core/evidence/statement.hpp"
#include "core/storage/database.hpp"

namespace lathbook {

/// Never to be shown in public.
inline constexpr std::int64_t kClosedForEver = INT64_MAX;

/// Keeps everything derived from the statements up to date, one statement at a time or, for a large
/// restore, all at the end. Lives within one writing transaction.
class Index {
public:
  Index(const Database& database, const Registry& registry);

  std::int64_t chain_row(const ChainId& chain);
  std::int64_t record_row(const Uuid& id);
  std::optional<std::int64_t> known_record(const Uuid& id);

  /// The derived columns of a statement row about to be inserted.
  struct Columns {
    std::optional<std::int64_t> subject;
    std::optional<std::int64_t> object;
    std::int64_t closed = 0;
  };
  Columns columns(const Content& content);

  /// Adds links, citations and search words of a row just inserted.
  void add_rows(std::int64_t row, const Content& content);
  /// Takes them away again (its content is still at hand): before expunging.
  void remove_rows(std::int64_t row, const Content& content);

  /// Settles who is current after `row` (named `id`) came or went, and all that follows from it.
  void settle(std::int64_t row, const Digest& id, const Content& content);
  /// The same for the whole archive, after a restore without settle().
  void settle_all();
  /// Settles the records touched since; call before committing.
  void finish();

private:
  bool anything_against_it(const Digest& id);
  void set_current(std::int64_t row, bool current);
  /// What a withdrawal of these can make current or not: they, and what they replace or withdraw.
  std::vector<Digest> within_reach(std::vector<Digest> targets);
  void settle_chain_of(std::vector<Digest> targets);
  void settle_currentness();
  void refresh_record(std::int64_t record);
  void spread_closure(std::int64_t record);
  std::int64_t closed_by_references(std::int64_t row);
  std::int64_t own_closure(const Content& content) const;

  const Database& database_;
  const Registry& registry_;
  std::unordered_map<Uuid, std::int64_t> records_;
  std::unordered_map<std::string, std::int64_t> chains_;
  std::unordered_set<std::int64_t> touched_;
  Prepared find_record_;
  Prepared insert_record_;
  Prepared insert_link_;
  Prepared insert_citation_;
  Prepared insert_words_;
  Prepared insert_letters_;
  Prepared against_;
};

/// The words of a statement that search looks at (folded), and whether they are letters of a mark.
struct SearchText {
  std::string words;
  std::string letters;
};
SearchText search_text(const Content& content, const Registry& registry);

}  // namespace lathbook
