// Decides what is held.
#include "plugins/crm/held.hpp"

#include <limits>
#include <map>
#include <set>
#include <utility>

#include "core/base/edtf.hpp"
#include "core/view/record_view.hpp"
#include "plugins/crm/mapping.hpp"

namespace lathbook::crm {

namespace {

using Group = std::pair<std::uint32_t, std::string>;

bool counts(const Context& context, const Statement& statement) {
  return statement.current && statement.presence == Presence::present && !context.is_set_aside(statement.id);
}

bool trusted(Confidence confidence, Level level) {
  switch (confidence) {
    case Confidence::none:
    case Confidence::certain:
      return true;
    case Confidence::probable:
      return level != Level::certain;
    case Confidence::possible:
    case Confidence::conjecture:
      break;
  }
  return false;
}

Group group_of(const Content& said, Rivals rivals) {
  std::string detail;
  if (rivals == Rivals::placement) {
    detail = said.qualifier("placement");
    if (detail.empty()) detail = "1";
  } else if (rivals == Rivals::measure) {
    detail = said.qualifier("of");
  }
  return {said.property, detail};
}

Day day_of(const Content& said) {
  const auto date = Edtf::try_parse(said.qualifier("on"));
  return date ? date->earliest().value_or(std::numeric_limits<Day>::min()) : std::numeric_limits<Day>::min();
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
  const Registry& registry = Registry::standard();
  std::vector<Rule> rules;
  std::map<Group, std::set<std::string>> values;
  std::map<std::uint32_t, Day> latest;
  for (const Statement& statement : statements) {
    const Property* property = registry.find(statement.content.property);
    rules.push_back(property != nullptr ? rule_of(*property) : Rule{});
    if (!counts(context, statement) || rules.back().rivals != Rivals::latest) continue;
    const auto [known, fresh] = latest.try_emplace(statement.content.property, day_of(statement.content));
    if (!fresh) known->second = std::max(known->second, day_of(statement.content));
  }
  const auto takes_part = [&](std::size_t at) {
    const Content& said = statements[at].content;
    return counts(context, statements[at]) && rules[at].rivals != Rivals::none &&
           (rules[at].rivals != Rivals::latest || day_of(said) == latest.at(said.property));
  };
  for (std::size_t at = 0; at < statements.size(); ++at)
    if (takes_part(at)) {
      const Content& said = statements[at].content;
      values[group_of(said, rules[at].rivals)].insert(std::string(edtf_of(said)));
    }
  std::vector<bool> held;
  for (std::size_t at = 0; at < statements.size(); ++at) {
    const Content& said = statements[at].content;
    bool holds = counts(context, statements[at]) && trusted(said.confidence, context.level);
    if (holds && rules[at].rivals != Rivals::none)
      holds = takes_part(at) && values.at(group_of(said, rules[at].rivals)).size() == 1;
    if (holds && rules[at].how == How::relation) holds = !turned_round(context, statements[at]);
    held.push_back(holds);
  }
  return held;
}

}  // namespace lathbook::crm
