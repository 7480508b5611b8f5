// Dated codes inside a transcription, read by the published tables.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/analysis/mark_reading.hpp"
#include "core/base/transcription.hpp"
#include "plugins/marks/code_words.hpp"

namespace lathbook::marks {

struct FoundCode {
  DatedCode code;
  std::uint32_t first_token = 0;
  std::uint32_t last_token = 0;
  bool part_of_mark = false;  ///< belongs to a maker's mark too ("ENGLAND") and is still compared
};

/// Every dated code in the text, in the order read.
std::vector<FoundCode> find_codes(const Transcription& transcription);

/// The corners of a registration diamond clockwise from the top, each a letter, a number, or "-" when it was
/// not read; `of_class` may be empty. All readings that the corners allow, of both types when the right-hand
/// corner does not tell.
DatedCode read_diamond(const std::string& of_class, const std::vector<std::string>& corners);
/// A number of the series of 1884 to 1965; figures not read as '#'.
DatedCode read_rd_number(const CodeWord& number);
DatedCode read_us_patent(const CodeWord& number);

}  // namespace lathbook::marks
