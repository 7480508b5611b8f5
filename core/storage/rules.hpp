// Rules that need more than one statement: unique codes, one answer only, no circle of part-of, one
// place for a piece. Kept at entry; after a merge each breach is a finding.
#pragma once

#include <optional>
#include <string>

#include "core/base/error.hpp"
#include "core/evidence/registry.hpp"
#include "core/evidence/statement.hpp"
#include "core/storage/cell_book.hpp"
#include "core/storage/database.hpp"

namespace lathbook {

/// The sentence that refuses a statement about to be entered, or nothing when it may be. The book is the
/// session's, told of everything that is entered.
std::optional<std::string> breach(const Database& database, const Registry& registry, const Content& content,
                                  CellBook& book);

/// Every breach in the archive as it stands, each naming both statements.
Findings breaches(const Database& database, const Registry& registry);

}  // namespace lathbook
