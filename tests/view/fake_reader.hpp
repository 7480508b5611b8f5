// An archive made of a list of statements, for tests of what reads through StatementReader.
#pragma once

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "core/base/text.hpp"
#include "core/evidence/reader.hpp"

namespace lathbook::test {

/// Answers every query by walking the list. Statements are numbered in one chain in the order in which
/// they are said, one second apart.
class FakeReader : public StatementReader {
public:
  Reading state;

  /// A record with a code; its id is made from the code.
  Uuid add(Kind kind, const std::string& code, const std::string& name = {}) {
    const Uuid id = uuid_from_name(code);
    records_.push_back({id, kind, code, name});
    return id;
  }
  /// Says something of a record; returns the statement, which may be changed as long as nothing is added.
  Statement& say(const Uuid& subject, const std::string& property, const std::string& value,
                 Confidence confidence = Confidence::certain, std::vector<Qualifier> qualifiers = {}) {
    Statement statement;
    statement.row = static_cast<std::int64_t>(statements_.size()) + 1;
    statement.header.number = statements_.size() + 1;
    statement.header.entered.seconds = statement.row;
    statement.id = sha256("statement " + std::to_string(statement.row));
    statement.content.subject = subject;
    statement.content.property = Registry::standard().named(property).id;
    statement.content.value = value;
    statement.content.confidence = confidence;
    statement.content.qualifiers = std::move(qualifiers);
    statements_.push_back(std::move(statement));
    return statements_.back();
  }
  Statement& say(const Uuid& subject, const std::string& property, const Uuid& object,
                 std::vector<Qualifier> qualifiers = {}) {
    return say(subject, property, object.text(), Confidence::certain, std::move(qualifiers));
  }

  /// Everything said so far, to be changed in place as long as nothing is added.
  std::vector<Statement>& said() { return statements_; }

  Reading reading() const override { return state; }
  void each_statement(const Query& query, const OnStatement& on_statement) const override {
    for (Statement statement : statements_)
      if (fits(query, statement) && !on_statement(statement)) return;
  }
  void each_record(Kind kind, const OnRecord& on_record) const override {
    std::vector<RecordInfo> wanted;
    for (const RecordInfo& info : records_)
      if (kind == Kind::unknown || info.kind == kind) wanted.push_back(info);
    std::stable_sort(wanted.begin(), wanted.end(), [](const RecordInfo& a, const RecordInfo& b) {
      return compare_for_people(a.code, b.code) < 0;
    });
    for (const RecordInfo& info : wanted)
      if (!on_record(info)) return;
  }
  std::optional<RecordInfo> record(const Uuid& id) const override {
    for (const RecordInfo& info : records_)
      if (info.id == id) return info;
    return std::nullopt;
  }
  std::optional<RecordInfo> record_by_code(std::string_view code) const override {
    for (const RecordInfo& info : records_)
      if (info.code == code) return info;
    return std::nullopt;
  }
  std::optional<Statement> statement(const Digest& id) const override {
    for (const Statement& statement : statements_)
      if (statement.id == id) return statement;
    return std::nullopt;
  }

private:
  bool fits(const Query& query, const Statement& statement) const {
    const Content& said = statement.content;
    if (query.current_only && !statement.current) return false;
    if (query.subject && said.subject != *query.subject) return false;
    if (query.object && said.value != query.object->text()) return false;
    if (query.kind) {
      const auto info = record(said.subject);
      if (!info || info->kind != *query.kind) return false;
    }
    if (!query.properties.empty() &&
        std::find(query.properties.begin(), query.properties.end(), said.property) == query.properties.end())
      return false;
    return !query.source || std::any_of(said.citations.begin(), said.citations.end(),
                                        [&](const Citation& one) { return one.source == *query.source; });
  }

  std::vector<RecordInfo> records_;
  std::vector<Statement> statements_;
};

}  // namespace lathbook::test
