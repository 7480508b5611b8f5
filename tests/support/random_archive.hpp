// Random valid archives, driven by the registry, for property tests of whatever reads an archive.
//
//   for (unsigned seed = 1; seed <= 300; ++seed) {
//     INFO("seed " << seed);
//     const RandomArchive archive(seed);                    // or RandomArchive(seed, {.statements = 400})
//     exporter.write(Snapshot(archive), request, out, services);
//   }
//
// The same seed gives the same archive on every machine. Every content has passed validate(): all kinds of
// records, all properties, details, competing and replaced statements, withdrawals, grounds and doubtful
// dates come about sooner or later. Nothing about the house it describes makes sense.
#pragma once

#include <functional>
#include <map>
#include <random>
#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/evidence/reader.hpp"

namespace lathbook::test {

struct RandomOptions {
  std::size_t statements = 40;  ///< about so many besides kinds and codes
  bool hard_words = true;       ///< texts with what breaks formats: quotes, ]]>, formulas, right-to-left ...
  bool contradictions = true;   ///< further values where one is usual, relations both ways, loops of fabric
};

/// Draws values of the registry's types. Deterministic.
class RandomValues {
public:
  RandomValues(unsigned seed, bool hard_words) : random_(seed), hard_words_(hard_words) {}

  std::size_t below(std::size_t count);  ///< 0 to count - 1; 0 for 0
  bool chance(unsigned percent);
  template <typename List>
  const auto& one_of(const List& list) {
    return list[below(list.size())];
  }
  std::string text();
  std::string date();  ///< EDTF, or now and then words that complete() understands
  std::string edtf();
  /// A value of a type that needs no record or statement; `list` names the choices of a choice.
  std::string value(ValueType type, const std::string& list);

private:
  std::mt19937 random_;
  bool hard_words_;
};

/// An archive in memory that answers queries by maps. Statements are of two chains, in exchange order.
class RandomArchive : public StatementReader {
public:
  explicit RandomArchive(unsigned seed, RandomOptions options = {});

  Reading state;
  /// A room of the archive, for exports of a part.
  Uuid room;

  const std::vector<Statement>& statements() const { return statements_; }
  const std::vector<RecordInfo>& records() const { return records_; }

  Reading reading() const override { return state; }
  void each_statement(const Query& query, const OnStatement& on_statement) const override;
  void each_record(Kind kind, const OnRecord& on_record) const override;
  std::optional<RecordInfo> record(const Uuid& id) const override;
  std::optional<RecordInfo> record_by_code(std::string_view code) const override;
  std::optional<Statement> statement(const Digest& id) const override;

private:
  Uuid make(Kind kind);
  void make_records(std::size_t statements);
  void say_places();
  /// Adds one random statement when one can be made of the draw.
  void say_something();
  void take_back();
  std::optional<std::string> record_for(const Property& property, std::size_t subject);
  bool may_have_another(const Property& property, const Uuid& subject);
  void add_evidence(Content& content, const Property& property);
  void add(Content content);
  void finish();

  unsigned seed_;
  RandomOptions options_;
  RandomValues draw_;
  std::vector<RecordInfo> records_;
  std::vector<Statement> statements_;
  std::unordered_map<Uuid, std::size_t> record_at_;
  std::map<Digest, std::size_t> statement_at_;
  std::unordered_map<Uuid, std::vector<std::size_t>> about_, naming_;
  std::map<Kind, std::vector<std::size_t>> of_kind_;
};

}  // namespace lathbook::test
