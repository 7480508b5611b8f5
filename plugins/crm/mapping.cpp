// How each property becomes CIDOC CRM. One row each, in the order of the registry.
#include "plugins/crm/mapping.hpp"

#include <array>
#include <unordered_map>

#include "plugins/crm/terms.hpp"

namespace lathbook::crm {

namespace {

using namespace term;

// clang-format off
constexpr std::array kRules{
    //   property               what is written  value's node      contested by       predicate             from
    Rule{"kind",                How::link,       Form::type,       Rivals::all,       has_type},
    Rule{"code",                How::link,       Form::identifier, Rivals::all,       identified_by},
    Rule{"name",                How::special,    Form::name,       Rivals::none,      identified_by},
    Rule{"note",                How::bare_note,  Form::words},
    Rule{"same-record-as",      How::claim,      Form::record},
    Rule{"private-record",      How::claim,      Form::words},
    Rule{"concept",             How::link,       Form::concept_,   Rivals::none,      has_type},
    Rule{"web-page",            How::link,       Form::page,       Rivals::none,      subject_of},
    Rule{"place-type",          How::link,       Form::type,       Rivals::all,       has_type},
    Rule{"within",              How::special,    Form::record,     Rivals::all},
    Rule{"storey-number",       How::note,       Form::words,      Rivals::all},
    Rule{"footprint",           How::special,    Form::outline,    Rivals::none},
    Rule{"project-north",       How::note,       Form::words,      Rivals::all},
    Rule{"split-from",          How::claim,      Form::record},
    Rule{"merged-into",         How::claim,      Form::record},
    Rule{"place-began",         How::link,       Form::span,       Rivals::all,       time_span,            "began"},
    Rule{"place-ended",         How::link,       Form::span,       Rivals::all,       time_span,            "ended"},
    Rule{"use",                 How::note,       Form::words},
    Rule{"period-of-significance", How::note,    Form::words,      Rivals::all},
    Rule{"interpreted-date",    How::note,       Form::words,      Rivals::all},
    Rule{"storey-convention",   How::note,       Form::type,       Rivals::all},
    Rule{"hazard",              How::note,       Form::type},
    Rule{"front-faces",         How::note,       Form::type,       Rivals::all},
    Rule{"element-type",        How::link,       Form::type,       Rivals::all,       has_type},
    Rule{"element-class",       How::link,       Form::type,       Rivals::all,       has_type},
    Rule{"material",            How::link,       Form::material,   Rivals::none,      term::material},
    Rule{"dimension",           How::measured,   Form::dimension,  Rivals::measure,   term::dimension},
    Rule{"part-of",             How::link,       Form::record,     Rivals::all,       forms_part_of},
    Rule{"stands-in",           How::special,    Form::record,     Rivals::none},
    Rule{"reused-from",         How::note,       Form::words},
    Rule{"description",         How::bare_note,  Form::words},
    Rule{"condition",           How::special,    Form::condition,  Rivals::none},
    Rule{"placements",          How::note,       Form::words,      Rivals::all},
    Rule{"pictured-in",         How::special,    Form::record,     Rivals::none},
    Rule{"new-fabric",          How::note,       Form::words},
    Rule{"piece-map",           How::note,       Form::words,      Rivals::all},
    Rule{"installed",           How::link,       Form::span,       Rivals::placement, time_span,            "installed#"},
    Rule{"removed-for-good",    How::link,       Form::span,       Rivals::placement, time_span,            "removed#"},
    Rule{"made",                How::link,       Form::span,       Rivals::all,       time_span,            "making"},
    Rule{"made-not-before",     How::special,    Form::lower,      Rivals::all,       time_span,            "making"},
    Rule{"seen-in",             How::special,    Form::record,     Rivals::none},
    Rule{"seen-on",             How::claim,      Form::span},
    Rule{"like-seen-in",        How::claim,      Form::record},
    Rule{"absent-from",         How::claim,      Form::record},
    Rule{"uncovered-in",        How::special,    Form::record,     Rivals::none},
    Rule{"not-yet-in",          How::claim,      Form::record},
    Rule{"gone-by",             How::claim,      Form::record},
    Rule{"billed-in",           How::link,       Form::record,     Rivals::none,      documented_in},
    Rule{"proposed-in",         How::link,       Form::record,     Rivals::none,      referred_to_by},
    Rule{"as-built-in",         How::special,    Form::record,     Rivals::none},
    Rule{"mentioned-in",        How::link,       Form::record,     Rivals::none,      referred_to_by},
    Rule{"original-to",         How::claim,      Form::record},
    Rule{"standing-by",         How::claim,      Form::upper},
    Rule{"not-yet-on",          How::claim,      Form::span},
    Rule{"gone-on",             How::claim,      Form::span},
    Rule{"uncovered-on",        How::claim,      Form::span},
    Rule{"covers",              How::relation,   Form::record},
    Rule{"cuts",                How::relation,   Form::record},
    Rule{"takes-away",          How::relation,   Form::record},
    Rule{"fills",               How::relation,   Form::record},
    Rule{"butts",               How::relation,   Form::record},
    Rule{"fixed-to",            How::relation,   Form::record},
    Rule{"bonded-with",         How::mutual,     Form::record},
    Rule{"same-as",             How::claim,      Form::record},
    Rule{"once-continuous-with", How::mutual,    Form::record},
    Rule{"finish-on",           How::relation,   Form::record,     Rivals::all},
    Rule{"ghost-of",            How::claim,      Form::record},
    Rule{"begun",               How::claim,      Form::span},
    Rule{"stops-at-outline-of", How::relation,   Form::record},
    Rule{"runs-across-ghost-of", How::relation,  Form::record},
    Rule{"continues-behind",    How::relation,   Form::record},
    Rule{"bare-behind",         How::claim,      Form::record},
    Rule{"replaces",            How::claim,      Form::record},
    Rule{"one-after-other",     How::claim,      Form::record},
    Rule{"takes-over-from",     How::claim,      Form::record},
    Rule{"reused-in",           How::claim,      Form::record},
    Rule{"in-front-of",         How::relation,   Form::record},
    Rule{"touches",             How::mutual,     Form::record},
    Rule{"put-in-after-coat",   How::claim,      Form::record},
    Rule{"in-place-by-coat",    How::claim,      Form::record},
    Rule{"same-coat-as",        How::claim,      Form::record},
    Rule{"works-began",         How::special,    Form::span,       Rivals::all},
    Rule{"works-ended",         How::special,    Form::span,       Rivals::all},
    Rule{"longest-duration",    How::note,       Form::dimension,  Rivals::all},
    Rule{"of-campaign",         How::link,       Form::record,     Rivals::placement, part_of_period,       "installed#"},
    Rule{"removed-in-campaign", How::link,       Form::record,     Rivals::placement, part_of_period,       "removed#"},
    Rule{"of-phase",            How::link,       Form::record,     Rivals::placement, falls_within_period,  "installed#"},
    Rule{"gone-in-phase",       How::link,       Form::record,     Rivals::placement, falls_within_period,  "removed#"},
    Rule{"opened-by",           How::special,    Form::record,     Rivals::all},
    Rule{"phase-number",        How::note,       Form::words,      Rivals::all},
    Rule{"phase-of",            How::link,       Form::space,      Rivals::all,       took_place_at},
    Rule{"years-after-at-least", How::claim,     Form::record},
    Rule{"years-after-at-most", How::claim,      Form::record},
    Rule{"campaign-of",         How::link,       Form::space,      Rivals::none,      took_place_at},
    Rule{"phase-part",          How::note,       Form::type,       Rivals::placement},
    Rule{"piece-of",            How::special,    Form::record,     Rivals::all},
    Rule{"position",            How::note,       Form::words,      Rivals::all},
    Rule{"piece-state",         How::note,       Form::type},
    Rule{"fragment-of",         How::link,       Form::record,     Rivals::all,       forms_part_of},
    Rule{"in-container",        How::link,       Form::record,     Rivals::latest,    held_by},
    Rule{"count",               How::text,       Form::dimension,  Rivals::all,       number_of_parts},
    Rule{"whereabouts",         How::link,       Form::spot,       Rivals::latest,    location},
    Rule{"find-spot",           How::note,       Form::words,      Rivals::all},
    Rule{"came-from",           How::claim,      Form::record},
    Rule{"found-in",            How::link,       Form::space,      Rivals::all,       location},
    Rule{"container-type",      How::link,       Form::type,       Rivals::all,       has_type},
    Rule{"weight",              How::measured,   Form::dimension,  Rivals::all,       term::dimension},
    Rule{"way-up",              How::note,       Form::words,      Rivals::all},
    Rule{"piece-type",          How::link,       Form::type,       Rivals::all,       has_type},
    Rule{"mark-on",             How::special,    Form::record,     Rivals::all},
    Rule{"mark-method",         How::link,       Form::type,       Rivals::all,       technique,            "making"},
    Rule{"face",                How::note,       Form::words,      Rivals::all},
    Rule{"orientation",         How::note,       Form::words,      Rivals::all},
    Rule{"transcription",       How::text,       Form::words,      Rivals::all,       content,              "sign"},
    Rule{"reading",             How::note,       Form::words},
    Rule{"blank-maker",         How::link,       Form::record,     Rivals::all,       refers_to,            "sign"},
    Rule{"decorator",           How::link,       Form::record,     Rivals::all,       refers_to,            "sign"},
    Rule{"register-number",     How::link,       Form::identifier, Rivals::none,      sign_contains,        "sign"},
    Rule{"label-on",            How::special,    Form::record,     Rivals::all},
    Rule{"label-tool",          How::link,       Form::type,       Rivals::all,       technique,            "making"},
    Rule{"hidden-when-installed", How::note,     Form::type,       Rivals::all},
    Rule{"assembly-number",     How::link,       Form::identifier, Rivals::all,       sign_contains,        "sign"},
    Rule{"label-batch",         How::note,       Form::words,      Rivals::all},
    Rule{"intended-for",        How::claim,      Form::record},
    Rule{"fitted-in",           How::link,       Form::space,      Rivals::none,      location},
    Rule{"written-on",          How::link,       Form::span,       Rivals::all,       time_span,            "making"},
    Rule{"perhaps-in",          How::claim,      Form::record},
    Rule{"examined",            How::link,       Form::record,     Rivals::none,      observed},
    Rule{"method",              How::link,       Form::type,       Rivals::none,      technique},
    Rule{"examined-on",         How::link,       Form::span,       Rivals::all,       time_span},
    Rule{"not-reached",         How::note,       Form::words},
    Rule{"sought",              How::note,       Form::words},
    Rule{"examined-by",         How::link,       Form::record,     Rivals::none,      carried_out_by},
    Rule{"sample-from",         How::link,       Form::record,     Rivals::all,       sampled_from,         "taking"},
    Rule{"spot",                How::note,       Form::words,      Rivals::all},
    Rule{"laboratory",          How::note,       Form::words,      Rivals::all},
    Rule{"remainder",           How::note,       Form::spot,       Rivals::all},
    Rule{"taken-by",            How::link,       Form::record,     Rivals::none,      carried_out_by,       "taking"},
    Rule{"taken-on",            How::link,       Form::span,       Rivals::all,       time_span,            "taking"},
    Rule{"reaches",             How::note,       Form::words,      Rivals::all},
    Rule{"layer",               How::note,       Form::words,      Rivals::all},
    Rule{"layer-role",          How::link,       Form::type,       Rivals::all,       has_type},
    Rule{"colour",              How::link,       Form::type,       Rivals::none,      has_type},
    Rule{"munsell",             How::link,       Form::type,       Rivals::none,      has_type},
    Rule{"pigment",             How::link,       Form::material,   Rivals::none,      term::material},
    Rule{"stripping-looked-for", How::note,      Form::type},
    Rule{"seen-in-sample",      How::claim,      Form::record},
    Rule{"measured-colour",     How::note,       Form::words},
    Rule{"source-type",         How::link,       Form::type,       Rivals::all,       has_type},
    Rule{"title",               How::link,       Form::title,      Rivals::all,       term::title},
    Rule{"creator",             How::note,       Form::words,      Rivals::none,      {},                   "creation"},
    Rule{"source-date",         How::link,       Form::span,       Rivals::all,       time_span,            "creation"},
    Rule{"repository",          How::link,       Form::keeper,     Rivals::all,       term::keeper,         "carrier"},
    Rule{"shelf-mark",          How::link,       Form::identifier, Rivals::all,       identified_by,        "carrier"},
    Rule{"rights",              How::link,       Form::right,      Rivals::all,       subject_to},
    Rule{"media",               How::link,       Form::file,       Rivals::none,      features_on},
    Rule{"mark-list",           How::note,       Form::words,      Rivals::all},
    Rule{"published-in",        How::note,       Form::words,      Rivals::all},
    Rule{"interviewer",         How::role,       Form::record,     Rivals::all,       carried_out_by,       "creation"},
    Rule{"informant",           How::role,       Form::record,     Rivals::all,       carried_out_by,       "creation"},
    Rule{"consent",             How::note,       Form::words,      Rivals::all},
    Rule{"pages",               How::note,       Form::words,      Rivals::all},
    Rule{"printed-on",          How::claim,      Form::span},
    Rule{"published-on",        How::claim,      Form::span},
    Rule{"falls-together",      How::claim,      Form::words},
    Rule{"agent-type",          How::link,       Form::type,       Rivals::all,       has_type},
    Rule{"born",                How::link,       Form::span,       Rivals::all,       time_span,            "birth"},
    Rule{"died",                How::link,       Form::span,       Rivals::all,       time_span,            "death"},
    Rule{"role",                How::note,       Form::words},
    Rule{"public-name",         How::link,       Form::name,       Rivals::all,       identified_by},
    Rule{"mark-form",           How::note,       Form::words},
    Rule{"place-of-business",   How::link,       Form::town,       Rivals::all,       residence},
    Rule{"event-type",          How::link,       Form::type,       Rivals::all,       has_type},
    Rule{"event-date",          How::link,       Form::span,       Rivals::all,       time_span},
    Rule{"event-on",            How::special,    Form::record,     Rivals::none},
    Rule{"done-by",             How::link,       Form::record,     Rivals::none,      carried_out_by},
    Rule{"tools",               How::note,       Form::words},
    Rule{"outcome",             How::note,       Form::words,      Rivals::all},
    Rule{"hours",               How::note,       Form::dimension,  Rivals::all},
    Rule{"lesson",              How::note,       Form::words},
    Rule{"to-return",           How::note,       Form::type,       Rivals::all},
    Rule{"moved-to",            How::note,       Form::record,     Rivals::all},
    Rule{"hazard-met",          How::note,       Form::type},
    Rule{"of-works",            How::link,       Form::record,     Rivals::all,       part_of_period},
    Rule{"earliest-plausible-day", How::claim,   Form::span},
    Rule{"widen-years",         How::claim,      Form::words},
    Rule{"widen-decade-years",  How::claim,      Form::words},
    Rule{"widen-month-years",   How::claim,      Form::words},
    Rule{"base-iri",            How::claim,      Form::words},
    Rule{"archive-name",        How::note,       Form::words,      Rivals::all},
    Rule{"years-to-come",       How::claim,      Form::words},
    Rule{"contact-email",       How::claim,      Form::words},
    Rule{"harvest-address",     How::claim,      Form::words},
    Rule{"set-aside",           How::claim,      Form::statement},
    Rule{"piece-condition",       How::note,       Form::type},
    Rule{"bed-sound",             How::note,       Form::type},
    Rule{"rests-on",              How::claim,      Form::record},
    Rule{"retained-as-evidence",  How::note,       Form::words,      Rivals::all},
    Rule{"condition-class",       How::note,       Form::words},
    Rule{"urgency-class",         How::note,       Form::words},
    Rule{"recommendation-class",  How::note,       Form::words},
    Rule{"damage",                How::note,       Form::type},
    Rule{"plan-reason",           How::note,       Form::words},
    Rule{"alternative",           How::note,       Form::words},
    Rule{"responsible",           How::note,       Form::record},
    Rule{"permission",            How::note,       Form::words},
    Rule{"record-before",         How::note,       Form::words},
    Rule{"volunteer-task",        How::note,       Form::words},
    Rule{"ring-first",            How::claim,      Form::words},
    Rule{"product",               How::note,       Form::words},
    Rule{"new-work-marked",       How::note,       Form::words},
    Rule{"curing-days",           How::note,       Form::dimension,  Rivals::all},
    Rule{"prominence",            How::note,       Form::words,      Rivals::all},
    Rule{"joint",                 How::note,       Form::dimension,  Rivals::all},
    Rule{"back-pattern",          How::note,       Form::words,      Rivals::all},
    Rule{"jurisdiction",          How::claim,      Form::words},
    Rule{"goes-to",               How::note,       Form::words,      Rivals::all},
    Rule{"keeps-its-cell",        How::note,       Form::words,      Rivals::all},
    Rule{"worked",                How::note,       Form::type,       Rivals::all},
    Rule{"repair-step",           How::note,       Form::words},
    Rule{"seal",                  How::note,       Form::words},
    Rule{"alarm",                 How::note,       Form::type},
    Rule{"report-section",        How::note,       Form::words},
    Rule{"publication-place",     How::note,       Form::words,      Rivals::all},
    Rule{"edition",               How::note,       Form::words,      Rivals::all},
    Rule{"medium",                How::note,       Form::words,      Rivals::all},
    Rule{"scale",                 How::note,       Form::words,      Rivals::all},
    Rule{"document-number",       How::note,       Form::words,      Rivals::all},
    Rule{"collection",            How::note,       Form::words,      Rivals::all},
    Rule{"repository-place",      How::note,       Form::words,      Rivals::all},
    Rule{"inspected-at",          How::note,       Form::words,      Rivals::all},
    Rule{"issue-page",            How::note,       Form::words,      Rivals::all},
    Rule{"issue-section",         How::note,       Form::words,      Rivals::all},
    Rule{"records-kept-at",       How::note,       Form::words},
    Rule{"lifts-stop",            How::note,       Form::record,     Rivals::all},
    Rule{"laid-at",               How::note,       Form::words},
};
// clang-format on

Form form_of(ValueType type) {
  switch (type) {
    case ValueType::record:
      return Form::record;
    case ValueType::date:
      return Form::span;
    case ValueType::choice:
    case ValueType::yes_no:
      return Form::type;
    case ValueType::quantity:
      return Form::dimension;
    case ValueType::media:
      return Form::file;
    case ValueType::statement:
      return Form::statement;
    default:
      return Form::words;
  }
}

}  // namespace

Rule rule_of(const Property& property) {
  static const std::unordered_map<std::string_view, const Rule*> rules = [] {
    std::unordered_map<std::string_view, const Rule*> by_name;
    for (const Rule& rule : kRules) by_name.emplace(rule.property, &rule);
    return by_name;
  }();
  if (const auto found = rules.find(property.name); found != rules.end()) return *found->second;
  return Rule{property.name, How::claim, form_of(property.type)};
}

const Rule* begin_rules() {
  return kRules.data();
}
const Rule* end_rules() {
  return kRules.data() + kRules.size();
}

}  // namespace lathbook::crm
