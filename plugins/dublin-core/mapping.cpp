// The table; docs/dublin-core.md gives the reasons.
#include "plugins/dublin-core/mapping.hpp"

#include <array>

#include "core/view/rule_table.hpp"

namespace lathbook::dublin_core {

namespace {

// clang-format off
constexpr std::array kRules{
    Rule{"kind",             "",            As::nothing},
    Rule{"code",             "",            As::nothing},
    Rule{"name",             "",            As::nothing},
    Rule{"title",            "",            As::nothing},
    Rule{"source-type",      "type",        As::bare},
    Rule{"element-type",     "type",        As::bare},
    Rule{"element-class",    "subject",     As::bare},
    Rule{"piece-type",       "type",        As::bare},
    Rule{"place-type",       "type",        As::bare},
    Rule{"concept",          "subject",     As::bare},
    Rule{"description",      "description", As::bare},
    Rule{"note",             "description", As::bare},
    Rule{"condition",        "description", As::words,   "Condition: "},
    Rule{"new-fabric",       "description", As::words,   "New fabric: "},
    Rule{"use",              "description", As::words,   "Use: "},
    Rule{"transcription",    "description", As::bare,    "Transcription: "},
    Rule{"reading",          "description", As::words,   "Reading: "},
    Rule{"register-number",  "description", As::words,   "Number: "},
    Rule{"mark-method",      "format",      As::bare},
    Rule{"label-tool",       "format",      As::bare},
    Rule{"material",         "format",      As::bare},
    Rule{"dimension",        "format",      As::measure},
    Rule{"weight",           "format",      As::bare,    "weight "},
    Rule{"pages",            "format",      As::bare},
    Rule{"creator",          "creator",     As::bare},
    Rule{"informant",        "contributor", As::agent},
    Rule{"interviewer",      "contributor", As::agent},
    Rule{"blank-maker",      "contributor", As::agent},
    Rule{"decorator",        "contributor", As::agent},
    Rule{"published-in",     "publisher",   As::bare},
    Rule{"source-date",      "date",        As::date},
    Rule{"made",             "date",        As::date},
    Rule{"installed",        "date",        As::date},
    Rule{"place-began",      "date",        As::date},
    Rule{"shelf-mark",       "identifier",  As::bare},
    Rule{"repository",       "source",      As::bare,    "Held by "},
    Rule{"web-page",         "relation",    As::bare},
    Rule{"within",           "coverage",    As::record},
    Rule{"stands-in",        "coverage",    As::record},
    Rule{"found-in",         "coverage",    As::record},
    Rule{"fitted-in",        "coverage",    As::record},
    Rule{"part-of",          "relation",    As::record,  "Part of "},
    Rule{"piece-of",         "relation",    As::record,  "Piece of "},
    Rule{"fragment-of",      "relation",    As::record,  "Fragment of "},
    Rule{"mark-on",          "relation",    As::record,  "On "},
    Rule{"label-on",         "relation",    As::record,  "On "},
    Rule{"intended-for",     "relation",    As::record,  "Marked for "},
    Rule{"replaces",         "relation",    As::record,  "Replaces "},
    Rule{"pictured-in",      "relation",    As::record,  "Pictured in "},
    Rule{"seen-in",          "relation",    As::record,  "Seen in "},
    Rule{"rights",           "rights",      As::bare},
};
// clang-format on

}  // namespace

const Rule* rule_of(std::string_view property) {
  return rule_in(kRules, property);
}

bool has_record(Kind kind) {
  switch (kind) {
    case Kind::place:
    case Kind::element:
    case Kind::piece:
    case Kind::find:
    case Kind::mark:
    case Kind::label:
    case Kind::source:
      return true;
    default:
      return false;
  }
}

std::string_view dcmi_type(Kind kind, std::string_view source_type) {
  if (kind != Kind::source) return "PhysicalObject";
  if (source_type == "photograph" || source_type == "plan sheet") return "StillImage";
  if (source_type == "video") return "MovingImage";
  // Whether an interview is sound or its transcript the archive does not say; an inspection is its record.
  return "Text";
}

}  // namespace lathbook::dublin_core
