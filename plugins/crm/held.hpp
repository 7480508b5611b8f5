// Which statements of a record the archive holds without contest, so that they are also written plainly.
#pragma once

#include <vector>

#include "plugins/crm/context.hpp"

namespace lathbook::crm {

/// One answer for each statement: true when it is current, certain or probable (at level 'certain': certain
/// only) or clerical, not set aside by a ruling, of an uncontested property (mapping.hpp, Rivals), and no
/// relation that another statement turns round.
std::vector<bool> decide_held(const Context& context, const std::vector<Statement>& statements);

}  // namespace lathbook::crm
