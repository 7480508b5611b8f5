// The constraint table: what each rule of dating named in the registry asks of the instants.
//
// docs/evidence-and-time.md has the table in words. A new rule is one row in rules.cpp (one statement says
// it) or one function in rules_joint.cpp (two statements say it only together).
#pragma once

#include <string_view>
#include <vector>

#include "plugins/timeline/claims.hpp"

namespace lathbook::timeline {

/// Applies every rule to every fact that dates (not to conjectures, nor to relations whose contact was not
/// read or whose required details are missing).
void apply_rules(Claims& claims);

/// The second pass, called by apply_rules: constraints that rest on two statements.
void apply_joint_rules(Claims& claims);

/// Words of the registry that the table knows, sorted; 'setting' and 'ruling', which act on other
/// statements, are among them.
std::vector<std::string_view> known_rules();

/// Days that n years can have at least and at most in the Gregorian calendar.
std::pair<Day, Day> days_in_years(double years);

}  // namespace lathbook::timeline
