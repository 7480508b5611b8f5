// Tells findings.
#include "core/cli/finding_words.hpp"

#include <ostream>

#include "core/base/text.hpp"

namespace lathbook::cli {

namespace {

std::string_view word(Severity severity) {
  switch (severity) {
    case Severity::note:
      return "note";
    case Severity::warning:
      return "warning";
    case Severity::fault:
      break;
  }
  return "fault";
}

}  // namespace

void tell_findings(const Context& context, const Findings& findings) {
  for (const auto& finding : findings) {
    context.out() << word(finding.severity) << ": " << safe_display(finding.text) << " [" << finding.code;
    if (!finding.place.empty()) context.out() << ", " << safe_display(finding.place);
    context.out() << "]\n";
  }
}

void json_findings(JsonWriter& json, const Findings& findings) {
  json.key("findings").begin_array();
  for (const auto& finding : findings) {
    json.begin_object();
    json.key("severity").string(word(finding.severity));
    json.key("code").string(finding.code);
    json.key("text").string(finding.text);
    json.key("place").string(finding.place);
    json.end_object();
  }
  json.end_array();
}

}  // namespace lathbook::cli
