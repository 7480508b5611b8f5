// csv-metadata.json: the sheets described as CSV on the Web wants it.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "core/evidence/reader.hpp"
#include "plugins/tables/sheet.hpp"

namespace lathbook::tables {

/// Writes a table group (W3C Recommendation 'Metadata Vocabulary for Tabular Data', 17 December 2015).
void write_metadata(std::ostream& out, const std::string& title, const Reading& reading,
                    const std::vector<Sheet>& sheets);

}  // namespace lathbook::tables
