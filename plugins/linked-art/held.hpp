// Which statements of a record stand in plain properties.
#pragma once

#include <vector>

#include "plugins/linked-art/context.hpp"

namespace lathbook::linked_art {

/// One answer for each: true when the statement is current, clerical, certain or probable, not set aside by a
/// ruling, and no other current statement gives another value where the registry has one (dates: one for each
/// placement; measures: one for each thing measured).
std::vector<bool> decide_held(const Context& context, const std::vector<Statement>& statements);

}  // namespace lathbook::linked_art
