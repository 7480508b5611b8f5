// Decides what the sheets can hold.
#include "plugins/tables/carried.hpp"

#include "core/base/text.hpp"
#include "core/base/typed_date.hpp"
#include "core/view/record_view.hpp"
#include "core/view/scope.hpp"
#include "plugins/tables/values.hpp"

namespace lathbook::tables {

namespace {

/// What the import would take for the border between two values or details.
bool parts_values(const std::string& text) {
  return text.find(" | ") != std::string::npos;
}

/// Blanks at the ends of a cell do not survive an import.
bool loses_blanks(const std::string& text) {
  return trim(text).size() != text.size();
}

}  // namespace

Carried::Carried(const Snapshot& archive, const Uuid& scope, Services& services)
    : reader_(archive.statements()), files_(services.files()) {
  if (scope != Uuid{}) gather_part(archive, scope);
  gather_corrections(services);
}

void Carried::gather_part(const Snapshot& archive, const Uuid& scope) {
  const std::set<Uuid> inside = belongings_of(archive, scope);
  whole_ = inside;
  std::vector<Uuid> waiting(inside.begin(), inside.end());
  const auto name = [&](const Uuid& id) {
    if (whole_->count(id) != 0 || !named_.insert(id).second) return;
    const auto info = reader_.record(id);
    // Sources and people are what the statements rest on; they come whole.
    const bool whole = info && (info->kind == Kind::source || info->kind == Kind::agent);
    if (whole && whole_->insert(id).second) waiting.push_back(id);
  };
  while (!waiting.empty()) {
    Query query;
    query.subject = waiting.back();
    query.current_only = false;
    waiting.pop_back();
    reader_.each_statement(query, [&](const Statement& statement) {
      if (statement.presence != Presence::present) return true;
      const Content& said = statement.content;
      for (const Citation& citation : said.citations) name(citation.source);
      if (said.author) name(*said.author);
      if (said.recorder) name(*said.recorder);
      const Property* property = Registry::standard().find(said.property);
      if (property != nullptr && property->type == ValueType::record)
        if (const auto value = Uuid::parse(said.value)) name(*value);
      return true;
    });
  }
}

void Carried::gather_corrections(Services& services) {
  Query query;
  query.current_only = false;
  reader_.each_statement(query, [&](const Statement& statement) {
    if (statement.presence != Presence::present) return true;
    const Content& said = statement.content;
    if (said.act != Act::expunge) taken_back_.insert(said.targets.begin(), said.targets.end());
    for (const Qualifier& one : said.qualifiers)
      if (stands_apart(one)) details_apart_.insert(one.name);
    return !services.stop_requested();
  });
}

bool Carried::has_row(const RecordInfo& info) const {
  if (info.code.empty() || info.kind == Kind::archive || info.kind == Kind::unknown) return false;
  return is_whole(info.id) || named_.count(info.id) != 0;
}

std::string Carried::code(const Uuid& record) const {
  const auto info = reader_.record(record);
  if (!info) return {};
  // The archive's own record is there in every archive, so it needs no row.
  return info->kind == Kind::archive || has_row(*info) ? info->code : std::string();
}

std::string Carried::handle_of(const Statement& statement) {
  return statement.name() + "." + statement.id.hex().substr(0, 6);
}

std::string Carried::handle(const Digest& id) {
  const auto statement = reader_.statement(id);
  return statement && takes(*statement, false) ? handle_of(*statement) : std::string();
}

bool Carried::has_file(const Digest& digest) {
  const auto known = there_.find(digest);
  if (known != there_.end()) return known->second;
  const bool there = files_.media(digest) != nullptr;
  there_.emplace(digest, there);
  return there;
}

bool Carried::rivals_an_earlier(const Statement& statement) const {
  Query query;
  query.subject = statement.content.subject;
  query.properties = {statement.content.property};
  bool first = true;
  reader_.each_statement(query, [&](const Statement& other) {
    if (other.presence != Presence::present) return true;
    first = other.id == statement.id;
    return false;
  });
  return !first;
}

std::string Carried::value_obstacle(const Content& content, const Property& property) {
  if (loses_blanks(content.value)) return "with blanks at an end";
  switch (property.type) {
    case ValueType::record: {
      const auto id = Uuid::parse(content.value);
      return id && !code(*id).empty() ? std::string() : "naming a record that has no row";
    }
    case ValueType::statement: {
      const auto id = Digest::from_hex(content.value);
      return id && !handle(*id).empty() ? std::string() : "naming a statement that is not carried";
    }
    case ValueType::media: {
      const auto digest = Digest::from_hex(content.value);
      return digest && has_file(*digest) ? std::string() : "naming a file that is not here";
    }
    case ValueType::date:
      if (!content.edtf.empty() && read_typed_date(content.value).edtf.text() != content.edtf)
        return "whose typed date would now be read otherwise";
      return {};
    default:
      return {};
  }
}

std::string Carried::obstacle(const Statement& statement) {
  const Content& said = statement.content;
  if (said.act == Act::expunge) return "that expunge others";
  if (said.citations.size() > 1) {
    for (const Citation& citation : said.citations)
      if (parts_values(citation.quote) || parts_values(citation.locator))
        return "with ' | ' in one of several citations";
  }
  if (loses_blanks(said.why)) return "with blanks at an end";
  for (const Citation& citation : said.citations) {
    if (loses_blanks(citation.quote) || loses_blanks(citation.locator)) return "with blanks at an end";
    if (code(citation.source).empty()) return "citing a source that has no row";
  }
  if (said.act == Act::withdraw) {
    for (const Digest& target : said.targets)
      if (!handle(target).empty()) return {};
    return "that withdraw what is not carried";
  }
  const Property* property = Registry::standard().find(said.property);
  if (property == nullptr) return "of a newer registry";
  if (code(said.subject).empty()) return "about a record without a code";
  if (!statement.current && taken_back_.count(statement.id) == 0) return "taken back by what is not shown";
  for (const Qualifier& one : said.qualifiers)
    if (loses_blanks(one.value)) return "with blanks at an end";
  if (property->cites == Cites::none && (said.author || !said.said_on.empty() ||
                                         said.confidence != Confidence::none || !said.citations.empty()))
    return "that are clerical and yet have an author or a ground";
  if (!property->many && statement.current && rivals_an_earlier(statement))
    return "that rival another where a sheet takes one";
  return value_obstacle(said, *property);
}

bool Carried::takes(const Statement& statement, bool counts) {
  if (statement.presence != Presence::present) return false;
  const Content& said = statement.content;
  if (said.act == Act::state) {
    if (!is_whole(said.subject)) return false;
    // These two are said by the row of the record itself.
    const bool by_row = said.property == property::kind || said.property == property::code;
    if (by_row && (statement.current || said.property == property::kind)) return false;
    if (by_row) {
      if (counts) uncarried_.add("former codes");
      return false;
    }
  } else if (whole_) {
    // A withdrawal has no subject: it belongs here when what it takes back does.
    bool inside = false;
    for (const Digest& target : said.targets) inside = inside || !handle(target).empty();
    if (!inside) return false;
  }
  const std::string why = obstacle(statement);
  if (!why.empty() && counts) uncarried_.add("statements " + why);
  return why.empty();
}

}  // namespace lathbook::tables
