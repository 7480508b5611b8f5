// The check of a whole archive: what has been changed, lost, forked, or does not agree with itself.
#pragma once

#include <optional>
#include <set>

#include "core/base/digest.hpp"
#include "core/base/error.hpp"
#include "core/storage/database.hpp"

namespace lathbook {

/// Statements that others name as their predecessor or as seen, and that are not here.
Findings gaps(const Database& database);
/// Statements with two successors in one chain: written in two places since.
Findings forks(const Database& database);
/// Breaches of the rules across statements.
Findings rule_findings(const Database& database);
/// Everything but media: SQLite's own checks, every digest, gaps, forks, derived columns, rules, and
/// whether the state with a known fingerprint is still held.
Findings check_database(const Database& database, const std::optional<Digest>& known_fingerprint);
/// Media named by present statements.
std::set<Digest> named_media(const Database& database);

}  // namespace lathbook
