// Makes sealed statements of the parts of an exchange document and checks that the document is whole. Knows
// no XML; the parser tells it elements in an order that the table allows. Internal to core/exchange.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "core/evidence/ledger.hpp"
#include "core/exchange/exchange_form.hpp"
#include "core/exchange/xml_in.hpp"

namespace lathbook {

/// Follows chains in exchange order: order, gaps, predecessors, and in the end the heads.
class ChainFollower {
public:
  /// Throws Error(invalid) for a wrong order, Error(corrupt) for a gap or an unknown predecessor.
  void follow(const Header& header, const Digest& id);
  /// Statements that no other names. To be called once, at the end.
  std::vector<Digest> heads();

private:
  struct Link {
    Digest id;
    bool named = false;
  };
  void close(std::vector<Link>& links);

  bool started_ = false;
  ChainId chain_{};
  std::uint64_t number_ = 0;
  std::vector<Link> before_;  ///< of the number before
  std::vector<Link> now_;     ///< of this number: more than one where a chain forks
  std::vector<Digest> ends_;
  std::set<Digest> seen_;
};

class ExchangeBuilder {
public:
  ExchangeBuilder(LedgerSink& sink, const ExchangeLimits& limits);

  /// An element opens; its attributes are those of the table and the required ones are there. Throws Error
  /// without a place.
  void start(Part part, const PartAttributes& attributes);
  /// An element closes, with all its words.
  void end(Part part, const std::string& words);
  ExchangeSummary finish();

private:
  void start_document(const PartAttributes& attributes);
  void start_statement(const PartAttributes& attributes);
  void start_says(const PartAttributes& attributes);
  void set_property(const PartAttributes& attributes);
  void start_media(const PartAttributes& attributes);
  void end_statement();
  void check_content();
  bool is_date(const std::string& text, std::string& why);
  std::string name() const;

  LedgerSink& sink_;
  const ExchangeLimits& limits_;
  const Registry& registry_;
  ExchangeSummary summary_;
  std::uint64_t count_stated_ = 0;
  ChainFollower chains_;
  Sealed sealed_;
  Digest id_stated_;
  Content content_;
  bool has_content_ = false;
  bool has_salt_ = false;
  std::unordered_set<std::string> dates_;
};

}  // namespace lathbook
