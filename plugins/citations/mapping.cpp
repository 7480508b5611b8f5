// The table; docs/citations.md gives the reasons.
#include "plugins/citations/mapping.hpp"

#include <algorithm>
#include <array>

namespace lathbook::citations {

namespace {

// clang-format off
constexpr std::array<SourceForm, 18> kForms{{
    {"photograph",          "graphic",                "photograph",            "misc"},
    {"video",               "motion_picture",         "video",                 "misc"},
    {"plan sheet",          "graphic",                "architectural drawing", "misc"},
    {"permit",              "document",               "building permit",       "misc"},
    {"contract",            "document",               "contract",              "misc"},
    {"bill",                "document",               "bill",                  "misc"},
    {"directory",           "book",                   "directory",             "book",    Published::publisher},
    {"newspaper",           "article-newspaper",      "",                      "article"},
    {"letter",              "personal_communication", "letter",                "misc"},
    {"trade catalogue",     "book",                   "trade catalogue",       "book",    Published::publisher},
    {"interview",           "interview",              "interview",             "misc"},
    {"laboratory report",   "report",                 "laboratory report",     "misc",    Published::publisher},
    {"physical inspection", "document",               "physical inspection",   "misc"},
    {"day-book",            "manuscript",             "day-book",              "misc"},
    {"deed",                "document",               "deed",                  "misc"},
    {"table",               "document",               "table",                 "misc"},
    {"book",                "book",                   "",                      "book",    Published::publisher},
    {"",                    "document",               "",                      "misc"},
}};
// clang-format on

}  // namespace

const SourceForm& form_of(std::string_view source_type) {
  const auto found = std::find_if(kForms.begin(), kForms.end(),
                                  [&](const SourceForm& form) { return form.source_type == source_type; });
  return found == kForms.end() ? kForms.back() : *found;
}

}  // namespace lathbook::citations
