// Numbers cut by carpenters to fit a frame together: strokes added up, whatever their order.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lathbook::labels {

/// One assembly numeral: IIII is 4, VIIII is 9; IX is 11 by adding (a timber gets turned) and 9 as clerks
/// write it. The likelier comes first.
struct Numeral {
  std::string strokes;      ///< "VIIII", capitals
  std::vector<int> values;  ///< one or two
};

/// Reads I, V and X (either case) and nothing else; nothing for other text, for more than 24 strokes, or for
/// a heap of Vs that no carpenter cuts (more than two).
std::optional<Numeral> read_numeral(std::string_view text);

}  // namespace lathbook::labels
