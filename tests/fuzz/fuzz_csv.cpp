// Any bytes as a sheet: rows or a fault, never a crash; what was read can be written and read again.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "core/exchange/csv.hpp"
#include "core/exchange/sheet_cells.hpp"

namespace {

std::string quoted(const std::string& cell) {
  std::string out = "\"";
  for (const char c : cell) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + "\"";
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  lathbook::CsvReader reader({reinterpret_cast<const char*>(data), size});
  lathbook::CsvRow row;
  while (reader.next(row)) {
    std::string line;
    for (const auto& cell : row.cells) {
      line += (line.empty() ? "" : ",") + quoted(cell.text);
      for (const auto& value : lathbook::split_values(cell.text)) lathbook::split_details(value);
      lathbook::header_key(cell.text);
    }
    lathbook::CsvReader again(line);
    lathbook::CsvRow same;
    if (!again.next(same) || same.cells.size() != row.cells.size()) std::abort();
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      if (same.cells[i].text != row.cells[i].text) std::abort();
    }
  }
  return 0;
}
