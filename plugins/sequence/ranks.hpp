// On which line each thing is drawn: later above earlier, each phase a band of lines.
#pragma once

#include <cstdint>
#include <vector>

#include "core/analysis/sequence.hpp"

namespace lathbook::sequence {

struct Ranks {
  std::vector<std::uint32_t> rank;   ///< of every thing, 0 at the bottom
  std::vector<std::uint32_t> first;  ///< of every band its lowest rank, and one past the highest at the end
  std::vector<std::uint32_t> band;   ///< of every thing
};

/// One band a phase, or a single one without phases. A thing stands in the first phase it may have come in,
/// above all that kept relations put before it.
Ranks rank_things(const Sequence& sequence);

/// Relations worth a line in the drawing: kept, not redundant (or all kept when `all`), and of coats only the
/// lowest of a stack on its element. Set-aside ones are drawn too.
std::vector<std::uint32_t> drawn_relations(const Sequence& sequence, bool all);

}  // namespace lathbook::sequence
