// The table; docs/lido.md gives the reasons.
#include "plugins/lido/mapping.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "core/view/rule_table.hpp"

namespace lathbook::lido {

namespace {

// clang-format off
constexpr std::array kRules{
    Rule{"kind", Part::own}, Rule{"code", Part::own}, Rule{"name", Part::own}, Rule{"concept", Part::own},
    Rule{"element-type", Part::own}, Rule{"element-class", Part::own}, Rule{"piece-type", Part::own},
    Rule{"whereabouts", Part::own}, Rule{"in-container", Part::own}, Rule{"stands-in", Part::own},
    Rule{"description", Part::description}, Rule{"note", Part::description},
    Rule{"condition", Part::description}, Rule{"new-fabric", Part::description},
    Rule{"colour", Part::description}, Rule{"munsell", Part::description}, Rule{"position", Part::description},
    Rule{"piece-map", Part::description}, Rule{"reused-from", Part::description},
    Rule{"hazard", Part::description}, Rule{"find-spot", Part::description}, Rule{"count", Part::description},
    Rule{"material", Part::material},
    Rule{"dimension", Part::measurement}, Rule{"weight", Part::measurement},
    Rule{"piece-state", Part::state},
    Rule{"made", Part::event_date}, Rule{"made-not-before", Part::event_date},
    Rule{"installed", Part::event_date}, Rule{"removed-for-good", Part::event_date},
    Rule{"of-campaign", Part::event}, Rule{"removed-in-campaign", Part::event}, Rule{"of-phase", Part::event},
    Rule{"gone-in-phase", Part::event}, Rule{"found-in", Part::event},
    Rule{"part-of", Part::related_work}, Rule{"piece-of", Part::related_work},
    Rule{"fragment-of", Part::related_work}, Rule{"replaces", Part::related_work},
    Rule{"takes-over-from", Part::related_work}, Rule{"reused-in", Part::related_work},
    Rule{"covers", Part::related_work}, Rule{"cuts", Part::related_work}, Rule{"takes-away", Part::related_work},
    Rule{"fills", Part::related_work}, Rule{"butts", Part::related_work}, Rule{"fixed-to", Part::related_work},
    Rule{"bonded-with", Part::related_work}, Rule{"same-as", Part::related_work},
    Rule{"once-continuous-with", Part::related_work}, Rule{"ghost-of", Part::related_work},
    Rule{"bare-behind", Part::related_work}, Rule{"one-after-other", Part::related_work},
    Rule{"in-front-of", Part::related_work}, Rule{"touches", Part::related_work},
    Rule{"original-to", Part::related_work}, Rule{"intended-for", Part::related_work},
    Rule{"fitted-in", Part::related_work}, Rule{"came-from", Part::related_work},
    Rule{"billed-in", Part::related_work}, Rule{"proposed-in", Part::related_work},
    Rule{"as-built-in", Part::related_work}, Rule{"mentioned-in", Part::related_work},
    Rule{"pictured-in", Part::picture}, Rule{"seen-in", Part::picture}, Rule{"uncovered-in", Part::picture},
};

constexpr std::array<std::pair<std::string_view, EventTerm>, 12> kEvents{{
    {"opened",       {"lido00006", "Modification"}},
    {"faced",        {"lido00402", "Conservation"}},
    {"removed",      {"lido00021", "Part removal"}},
    {"cleaned",      {"lido00402", "Conservation"}},
    {"repaired",     {"lido00034", "Restoration"}},
    {"reset",        {"lido00008", "Part addition"}},
    {"replaced",     {"lido01183", "Renewal"}},
    {"photographed", {"lido01127", "Photography"}},
    {"sampled",      {"lido00021", "Part removal"}},
    {"moved",        {"lido00223", "Move of object"}},
    {"installed",    {"lido00008", "Part addition"}},
    {"damaged",      {"lido01160", "Deterioration"}},
}};
// clang-format on

}  // namespace

const Rule* rule_of(std::string_view property) {
  return rule_in(kRules, property);
}

const Rule* begin_rules() {
  return kRules.data();
}
const Rule* end_rules() {
  return kRules.data() + kRules.size();
}

EventTerm event_term(std::string_view event_type) {
  const auto found =
      std::find_if(kEvents.begin(), kEvents.end(), [&](const auto& row) { return row.first == event_type; });
  return found == kEvents.end() ? EventTerm{"lido00003", "Unknown event"} : found->second;
}

}  // namespace lathbook::lido
