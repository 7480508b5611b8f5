// Codes of pieces as people write and print them: single ones, lists, and runs.
#pragma once

#include <string>
#include <vector>

#include "core/evidence/reader.hpp"

namespace lathbook::cli {

/// Every code that is meant, in the order of the words: "H1-26, H1-28 to H1-30" and "H1-28..H1-30" are runs
/// through the pieces of one element in natural order of their codes, backwards where the first is the later;
/// fragments are in no run. Throws Error(invalid or not_found) with one sentence for an end that is no piece.
std::vector<std::string> piece_codes(const StatementReader& reader, const std::vector<std::string>& typed);

}  // namespace lathbook::cli
