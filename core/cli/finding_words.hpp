// Findings of checks, in words and in JSON.
#pragma once

#include "core/base/json_writer.hpp"
#include "core/cli/context.hpp"

namespace lathbook::cli {

/// One line a finding: severity, sentence, code and place.
void tell_findings(const Context& context, const Findings& findings);
/// The member "findings" of an object under way.
void json_findings(JsonWriter& json, const Findings& findings);

}  // namespace lathbook::cli
