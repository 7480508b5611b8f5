// One sheet a kind of record: a row makes the record, and shows what is best founded of it.
#pragma once

#include <optional>

#include "plugins/tables/carried.hpp"
#include "plugins/tables/sheet.hpp"

namespace lathbook::tables {

/// "elements.csv"; empty for kinds that have no sheet.
std::string sheet_file(Kind kind);
/// Columns for what is said of the records of this kind; nothing when none has a row. `with_sheet` tells of
/// which kinds there will be sheets to refer to.
std::optional<Sheet> record_sheet(const Snapshot& archive, const Carried& carried, Kind kind,
                                  const std::set<Kind>& with_sheet);
void write_records(const Snapshot& archive, Carried& carried, const Sheet& sheet, Kind kind,
                   std::ostream& out, const std::string& base, Services& services);
/// Kinds of which some record has a row.
std::set<Kind> kinds_with_rows(const Snapshot& archive, const Carried& carried);

}  // namespace lathbook::tables
