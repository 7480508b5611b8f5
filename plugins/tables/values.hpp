// Small forms that several sheets share.
#pragma once

#include <string>

#include "core/evidence/statement.hpp"

namespace lathbook::tables {

/// The characters of an EDTF expression; its grammar is more than a pattern can say.
inline constexpr char kEdtfPattern[] = "[-0-9XYEST+Z:~?%./,{}\\[\\]]*";

/// Bounds of an EDTF date as xsd:date; empty when open, not known, or outside the years 1 to 9999.
std::string first_day(const std::string& edtf);
std::string last_day(const std::string& edtf);

/// Whether a detail's value would be parted, or lose something, among others in one cell: it then stands in
/// a column of its own, {name}.
bool stands_apart(const Qualifier& one);

/// Where a cited file lies in the folder: media/ab12....jpg, its ending taken from the name it came under.
std::string media_path_of(const Content& said);

}  // namespace lathbook::tables
