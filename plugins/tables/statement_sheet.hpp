// statements.csv: everything that is said, one row a statement, in the form that the import reads.
#pragma once

#include <map>
#include <string>

#include "plugins/tables/carried.hpp"
#include "plugins/tables/sheet.hpp"

namespace lathbook::tables {

/// The columns of statements.csv; `agents` tells whether there is a sheet of agents to refer to.
Sheet statement_sheet(const Carried& carried, bool agents);
/// Writes the rows in exchange order; gives the path of every file cited, by its digest.
std::map<Digest, std::string> write_statements(const Snapshot& archive, Carried& carried, const Sheet& sheet,
                                               std::ostream& out, const std::string& base,
                                               Services& services);

}  // namespace lathbook::tables
