// The two statements that docs/format.md takes apart byte by byte. Everything in them is invented.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/evidence/statement.hpp"

namespace lathbook::example {

Content first_content();
Sealed first();   ///< number 1 of its chain: when the stove back-plate was set up
Sealed second();  ///< number 2: takes the first one back, after another chain was seen
/// What the page must hold, as it must be printed there: name, text.
std::vector<std::pair<std::string, std::string>> printed();

}  // namespace lathbook::example
