// Every statement as a claim: the proposition, the belief in it, how it was come by, and who entered it.
#pragma once

#include "plugins/crm/context.hpp"

namespace lathbook::crm {

/// Writes the I17 of a statement about its subject with this value node; and, unless the statement is
/// clerical, the I2 with its confidence and the I7 (a source was read), I5 (it was concluded from other
/// statements) or I1 (neither is to be shown) that came to it.
void write_claim(Context& context, const Statement& statement, const Property& property, const Term& value);

/// Writes a withdrawal or expunging as the PROV activity that ended its targets, as far as they are written.
void write_withdrawal(Context& context, const Statement& withdrawal);

}  // namespace lathbook::crm
