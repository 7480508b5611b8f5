// The constraint table: what each rule of dating named in the registry asks of the instants.
//
// docs/evidence-and-time.md has the table in words. A new rule is one row in rules.cpp (one statement says
// it) or one function in a file of its kind (several statements say it only together).
#pragma once

#include <string_view>
#include <vector>

#include "plugins/timeline/claims.hpp"

namespace lathbook::timeline {

/// Applies every rule to every fact that dates (not to conjectures, nor to relations whose contact was not
/// read or whose required details are missing).
void apply_rules(Claims& claims);

/// Called by apply_rules. Constraints that rest on two statements; what a view of the spot does not show, or
/// shows without its cover; one of several places; statements that fall together with their source.
void apply_joint_rules(Claims& claims);
void apply_sight_rules(Claims& claims);
void apply_place_rules(Claims& claims);
void apply_groups(Claims& claims);

/// The fact takes part in dating: it is no conjecture, and nothing that it must have is missing.
bool dates(const Fact& fact);

/// The fact says that its subject lies over all of the other and so hides it: laid over it, filling it,
/// bedded on it, unless only a part is covered. Also when the contact was not read, which orders nothing.
bool hides(const Fact& fact);

/// Words of the registry that the table knows, sorted; 'setting' and 'ruling', which act on other
/// statements, are among them.
std::vector<std::string_view> known_rules();

/// Days that n years can have at least and at most in the Gregorian calendar.
std::pair<Day, Day> days_in_years(double years);

}  // namespace lathbook::timeline
