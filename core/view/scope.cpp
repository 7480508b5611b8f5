// Gathers what belongs to a place.
#include "core/view/scope.hpp"

#include <array>
#include <string_view>
#include <vector>

#include "core/base/error.hpp"

namespace lathbook {

std::set<Uuid> belongings_of(const Snapshot& archive, const Uuid& place) {
  const auto info = archive.statements().record(place);
  if (!info || info->kind != Kind::place)
    fail(ErrorKind::invalid, "an export of a part of the archive needs a place; " + place.text() +
                                 " is no place that this export may show");
  // Properties whose subject belongs where its value belongs.
  constexpr std::array<std::string_view, 14> follow{
      "piece-of",  "fragment-of", "found-in", "fitted-in",   "mark-on",  "label-on",    "sample-from",
      "finish-on", "examined",    "event-on", "campaign-of", "phase-of", "original-to", "part-of"};
  std::vector<std::uint32_t> properties;
  for (const auto property : follow) properties.push_back(Registry::standard().named(property).id);

  std::vector<Uuid> waiting = archive.places_within(place);
  for (const Uuid& element : archive.elements_in(waiting)) waiting.push_back(element);
  std::set<Uuid> inside(waiting.begin(), waiting.end());
  while (!waiting.empty()) {
    Query query;
    query.object = waiting.back();
    query.properties = properties;
    waiting.pop_back();
    archive.statements().each_statement(query, [&](const Statement& statement) {
      const bool fresh =
          statement.presence == Presence::present && inside.insert(statement.content.subject).second;
      if (fresh) waiting.push_back(statement.content.subject);
      return true;
    });
  }
  return inside;
}

std::set<Uuid> bearing_on(const Snapshot& archive, const std::vector<Uuid>& records) {
  static constexpr const char* kUpward[] = {"piece-of",  "fragment-of", "part-of",
                                            "stands-in", "finish-on",   "within"};
  std::set<Uuid> seen;
  std::vector<Uuid> work = records;
  while (!work.empty()) {
    const Uuid id = work.back();
    work.pop_back();
    if (!seen.insert(id).second) continue;
    const auto record = archive.find(id);
    if (!record) continue;
    for (const char* property : kUpward)
      for (const Statement* statement : record->all(property))
        if (const auto above = Uuid::parse(statement->content.value)) work.push_back(*above);
  }
  return seen;
}

std::set<Uuid> sources_of(const Snapshot& archive, const std::set<Uuid>& records) {
  const StatementReader& reader = archive.statements();
  std::set<Uuid> sources;
  std::set<Uuid> seen;
  const auto take = [&](const Uuid& id) {
    if (!seen.insert(id).second) return;
    const auto info = reader.record(id);
    if (info && info->kind == Kind::source) sources.insert(id);
  };
  for (const Uuid& record : records) {
    take(record);
    Query query;
    query.subject = record;
    reader.each_statement(query, [&](const Statement& statement) {
      if (statement.presence != Presence::present) return true;
      for (const Citation& citation : statement.content.citations) take(citation.source);
      const Property* property = Registry::standard().find(statement.content.property);
      if (property != nullptr && property->type == ValueType::record)
        if (const auto value = Uuid::parse(statement.content.value)) take(*value);
      return true;
    });
  }
  return sources;
}

}  // namespace lathbook
