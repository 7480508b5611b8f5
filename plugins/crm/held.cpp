// Decides what is held.
#include "plugins/crm/held.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <optional>

#include "core/base/edtf.hpp"
#include "core/view/held.hpp"
#include "plugins/crm/mapping.hpp"

namespace lathbook::crm {

namespace {

bool counts(const Context& context, const Statement& statement) {
  return statement.current && statement.presence == Presence::present && !context.is_set_aside(statement.id);
}

/// The question a statement answers, as its property's rivals say.
std::optional<std::string> question(const Statement& statement, Rivals rivals) {
  if (rivals == Rivals::none) return std::nullopt;
  const Content& said = statement.content;
  std::string_view detail;
  if (rivals == Rivals::placement) {
    detail = said.qualifier("placement");
    if (detail.empty()) detail = "1";
  } else if (rivals == Rivals::measure) {
    detail = said.qualifier("of");
  }
  return std::to_string(said.property) + "#" + std::string(detail);
}

Rivals rivals_of(const Statement& statement) {
  const Property* property = Registry::standard().find(statement.content.property);
  return property != nullptr ? rule_of(*property).rivals : Rivals::none;
}

bool is_relation(const Statement& statement) {
  const Property* property = Registry::standard().find(statement.content.property);
  return property != nullptr && rule_of(*property).how == How::relation;
}

Day day_of(const Content& said) {
  return earliest_day(said.qualifier("on")).value_or(std::numeric_limits<Day>::min());
}

/// Whether a current statement says the same relation the other way round, both without a placement.
bool turned_round(const Context& context, const Statement& statement) {
  const Content& said = statement.content;
  const auto unplaced = [](const Content& content) {
    return content.qualifier("placement").empty() && content.qualifier("other-placement").empty();
  };
  const auto other = Uuid::parse(said.value);
  if (!other || !unplaced(said)) return false;
  Query query;
  query.subject = *other;
  query.object = said.subject;
  query.properties = {said.property};
  bool found = false;
  context.reader.each_statement(query, [&](const Statement& reverse) {
    found = counts(context, reverse) && unplaced(reverse.content);
    return !found;
  });
  return found;
}

}  // namespace

std::vector<bool> decide_held(const Context& context, const std::vector<Statement>& statements) {
  std::map<std::uint32_t, Day> latest;
  for (const Statement& statement : statements) {
    if (!counts(context, statement) || rivals_of(statement) != Rivals::latest) continue;
    const auto [known, fresh] = latest.try_emplace(statement.content.property, day_of(statement.content));
    if (!fresh) known->second = std::max(known->second, day_of(statement.content));
  }
  HeldRules rules;
  rules.probable_suffices = context.level != Level::certain;
  rules.counts = [&](const Statement& statement) {
    if (!counts(context, statement)) return false;
    return rivals_of(statement) != Rivals::latest ||
           day_of(statement.content) == latest.at(statement.content.property);
  };
  rules.question = [](const Statement& statement) { return question(statement, rivals_of(statement)); };
  std::vector<bool> held = held_among(statements, rules);
  for (std::size_t at = 0; at < statements.size(); ++at)
    if (held[at] && is_relation(statements[at])) held[at] = !turned_round(context, statements[at]);
  return held;
}

}  // namespace lathbook::crm
