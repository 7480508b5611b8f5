// Cells of CSV (RFC 4180) that no spreadsheet takes for a formula, and back.
#pragma once

#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

/// A spreadsheet program computes a cell that begins with = + - @ or a tab, and may fetch and run things by
/// it. Such text gets an apostrophe before it, and so does text that begins with an apostrophe or a blank, so
/// that unguard_cell gives back exactly what went in. A plain number ("-1", "+2.5") cannot do harm and stays.
LATHBOOK_API std::string guard_cell(std::string_view text);
/// Takes one guarding apostrophe off: one that stands before = + - @, tab, blank or another apostrophe. All
/// other text comes back as it is ('tis).
LATHBOOK_API std::string_view unguard_cell(std::string_view cell);

/// The guarded text as it stands in a row: in quotation marks where it holds a comma, semicolon, quotation
/// mark, line end, or blank at an end.
LATHBOOK_API std::string csv_cell(std::string_view text);

}  // namespace lathbook
