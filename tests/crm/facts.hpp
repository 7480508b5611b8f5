// What an archive says, counted and listed for the checks of an export, without any code of the exporter.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/base/edtf.hpp"
#include "core/base/json_writer.hpp"
#include "core/evidence/reader.hpp"
#include "core/view/record_view.hpp"

namespace lathbook::test {

/// Gathers the facts of one archive or several, each under its own base address.
class Facts {
public:
  void add(const StatementReader& reader, const std::string& base) {
    reader_ = &reader;
    base_ = base;
    read_rulings();
    Query all;
    all.current_only = false;
    ended_.clear();
    reader.each_statement(all, [&](const Statement& statement) {
      if (statement.content.act != Act::state || is_written(statement))
        ended_.insert(statement.content.targets.begin(), statement.content.targets.end());
      return true;
    });
    reader.each_statement(all, [&](const Statement& statement) {
      if (is_written(statement)) claims_.push_back(claim_of(statement));
      return true;
    });
    reader.each_record(Kind::unknown, [&](const RecordInfo& info) {
      records_.emplace_back(address(info.id), std::string(word(info.kind)));
      if (info.kind == Kind::piece) add_piece(info.id);
      if (info.kind == Kind::place) add_room(info.id);
      return true;
    });
    const CivilDay day = civil_from_days(reader.reading().known_day);
    char text[32];
    std::snprintf(text, sizeof text, "%04d-%02d-%02d", static_cast<int>(day.year), day.month, day.day);
    today_ = std::max(today_, std::string(text));
  }

  void write(std::ostream& out) const {
    JsonWriter json(out, JsonWriter::Layout::compact);
    json.begin_object().key("today").string(today_);
    json.key("claims").begin_array();
    for (const auto& claim : claims_) write_claim(json, claim);
    json.end_array();
    write_pairs(json, "records", records_);
    write_pairs(json, "names", names_);
    write_list(json, "removed", removed_);
    write_list(json, "rooms", rooms_);
    json.end_object().finish();
  }
  std::size_t claims() const { return claims_.size(); }
  std::size_t beliefs() const { return beliefs_; }
  const std::vector<std::string>& rooms() const { return rooms_; }
  const std::vector<std::string>& removed() const { return removed_; }

private:
  using Pairs = std::vector<std::pair<std::string, std::string>>;
  struct Claim {
    std::map<std::string, std::string> words;
    std::vector<std::string> locators;
    bool superseded = false;  ///< and what replaced or withdrew it can be told
  };

  std::string address(const Uuid& id) const { return base_ + "record/" + id.text(); }

  void read_rulings() {
    aside_.clear();
    Query query;
    query.properties = {Registry::standard().named("set-aside").id};
    reader_->each_statement(query, [&](const Statement& ruling) {
      if (const auto id = Digest::from_hex(ruling.content.value)) aside_.insert(*id);
      return true;
    });
  }

  /// A statement whose value can be told: the record or statement that it names is there.
  bool is_written(const Statement& statement) const {
    const Content& said = statement.content;
    if (said.act != Act::state || !reader_->record(said.subject)) return false;
    const Property* property = Registry::standard().find(said.property);
    if (property->type == ValueType::record) return reader_->record(*Uuid::parse(said.value)).has_value();
    if (property->type != ValueType::statement) return true;
    const auto other = reader_->statement(*Digest::from_hex(said.value));
    return other && is_written(*other);
  }

  bool trusted(const Statement& statement) const {
    const Confidence sure = statement.content.confidence;
    return statement.current && aside_.count(statement.id) == 0 && sure != Confidence::possible &&
           sure != Confidence::conjecture;
  }

  Claim claim_of(const Statement& statement) {
    const Content& said = statement.content;
    Claim claim;
    claim.superseded = !statement.current && ended_.count(statement.id) != 0;
    claim.words["id"] = base_ + "statement/" + statement.id.hex();
    claim.words["confidence"] = said.confidence == Confidence::none ? "none" : word(said.confidence);
    if (said.author && reader_->record(*said.author)) claim.words["author"] = address(*said.author);
    if (said.recorder && reader_->record(*said.recorder)) claim.words["recorder"] = address(*said.recorder);
    if (said.confidence != Confidence::none)
      for (const Citation& citation : said.citations)
        if (!citation.locator.empty() && reader_->record(citation.source))
          claim.locators.push_back(citation.locator);
    add_bounds(statement, claim);
    beliefs_ += said.confidence != Confidence::none ? 1U : 0U;
    if (said.property == property::name && trusted(statement))
      names_.emplace_back(address(said.subject), said.value);
    return claim;
  }

  /// The bounds of a stated date in the lexical form of XML Schema; plain years of four digits only.
  static void add_bounds(const Statement& statement, Claim& claim) {
    const Property* property = Registry::standard().find(statement.content.property);
    if (property->type != ValueType::date) return;
    const auto date = Edtf::try_parse(edtf_of(statement.content));
    if (!date || date->text().find_first_of("TYS") != std::string::npos || date->text()[0] == '-') return;
    const auto text = [](const std::string& bound) {
      return bound.empty() || bound.find("inf") != std::string::npos ? std::string() : bound + "Z";
    };
    claim.words["first"] = property->name == "standing-by" ? "" : text(date->earliest_text());
    claim.words["last"] = property->name == "made-not-before" ? "" : text(date->latest_text());
  }

  /// The only current value of a property; empty when there are several, or when it is doubtful.
  std::string only(const Uuid& subject, const char* property) const {
    Query query;
    query.subject = subject;
    query.properties = {Registry::standard().named(property).id};
    std::set<std::string> values;
    bool sure = true;
    reader_->each_statement(query, [&](const Statement& statement) {
      values.insert(statement.content.value);
      sure = sure && trusted(statement);
      return true;
    });
    return values.size() == 1 && sure ? *values.begin() : std::string();
  }

  void add_piece(const Uuid& piece) {
    const std::string now = only(piece, "piece-state");
    if (!only(piece, "piece-of").empty() && !now.empty() && now != "in place" && now != "not accounted for")
      removed_.push_back(address(piece));
  }

  void add_room(const Uuid& room) {
    if (only(room, "place-type") != "room") return;
    Uuid place = room;
    for (int step = 0; step < 20; ++step) {
      const auto outer = Uuid::parse(only(place, "within"));
      if (!outer) return;
      const std::string type = only(*outer, "place-type");
      if (type == "building") return rooms_.push_back(address(room));
      if (type.empty() || type == "site" || type == "grounds" || type == "void") return;
      place = *outer;
    }
  }

  static void write_claim(JsonWriter& json, const Claim& claim) {
    json.begin_object().key("superseded").boolean(claim.superseded);
    for (const auto& [name, value] : claim.words) json.key(name).string(value);
    write_list(json, "locators", claim.locators);
    json.end_object();
  }
  static void write_list(JsonWriter& json, const char* name, const std::vector<std::string>& list) {
    json.key(name).begin_array();
    for (const std::string& one : list) json.string(one);
    json.end_array();
  }
  static void write_pairs(JsonWriter& json, const char* name, const Pairs& pairs) {
    json.key(name).begin_array();
    for (const auto& [one, other] : pairs) json.begin_array().string(one).string(other).end_array();
    json.end_array();
  }

  const StatementReader* reader_ = nullptr;
  std::string base_, today_;
  std::set<Digest> aside_, ended_;
  std::vector<Claim> claims_;
  std::size_t beliefs_ = 0;
  Pairs records_, names_;
  std::vector<std::string> removed_, rooms_;
};

}  // namespace lathbook::test
