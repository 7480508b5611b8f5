// What a sheet is and what its columns mean. Internal to core/exchange.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"
#include "core/evidence/registry.hpp"
#include "core/exchange/csv.hpp"

namespace lathbook {

enum class SheetForm { records, relations, statements };

struct SheetKind {
  std::string word;  ///< "rooms", "relations" ...
  SheetForm form = SheetForm::records;
  Kind kind = Kind::unknown;  ///< of record sheets
};

/// By its word; nothing for an unknown one.
std::optional<SheetKind> sheet_kind(std::string_view word);
/// By the first or last word of the file's name. Throws Error(invalid) when neither, or both, tell.
SheetKind sheet_kind_of(const std::filesystem::path& file);

struct SheetColumn {
  enum class Use { ignored, detail, property, qualifier };
  std::string title;  ///< as written
  Use use = Use::ignored;
  std::string key;  ///< of a detail ("source", "code", "subject") or the qualifier's name
  const Property* property = nullptr;
};

/// Reads a header row. What cannot be understood is added to `faults` (value = the title).
std::vector<SheetColumn> read_header(const CsvRow& row, const SheetKind& kind, const Registry& registry,
                                     std::vector<CsvFault>& faults);

/// The property of this name, or of this label among those said of the kind (unknown = any); null when there
/// is none or the label is not unique.
const Property* property_by_title(const Registry& registry, std::string_view title, Kind kind);

/// Details that hold for every cited statement of a row, and those that may also stand in braces.
bool is_common_detail(std::string_view key);
bool is_value_detail(std::string_view key);

}  // namespace lathbook
