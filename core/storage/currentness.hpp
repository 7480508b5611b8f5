// Which statements are current: one definition for the index, for older states and for the check.
#pragma once

#include <string>
#include <string_view>

namespace lathbook {

/// SQL: whether the statement `s` (with its columns id, digest, presence, act and current) counts against
/// what it names. A withdrawal does while it is current. A replacement does until a current withdrawal
/// takes it back: that it was itself replaced since brings nothing back. What is withheld or destroyed
/// does not count. `statements` is the table, or a query in brackets, that holds the same columns.
std::string counts_against_targets(std::string_view statements);

/// SQL: one row when anything in `statements` counts against the statement with the digest ?1.
std::string anything_against(std::string_view statements);

}  // namespace lathbook
