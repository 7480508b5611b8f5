// The order of rows and the rails beside them: the narrow drawing without its ink.
#pragma once

#include <cstdint>
#include <vector>

#include "core/analysis/sequence.hpp"
#include "plugins/sequence/ranks.hpp"

namespace lathbook::sequence {

/// A join: in the row of the later thing, from its rail to that of an earlier one.
struct Join {
  std::uint32_t relation = 0;  ///< into Sequence::relations
  std::uint32_t rail = 0;      ///< of the earlier thing
};

struct RailRow {
  std::uint32_t thing = 0;
  std::uint32_t rail = 0;               ///< on which the thing's sign stands
  std::vector<std::uint32_t> passing;   ///< rails that go on below this row
  std::vector<std::uint32_t> arriving;  ///< rails that come from above: what passed the row before
  std::vector<Join> joins;
};

struct Rails {
  std::vector<RailRow> rows;  ///< latest first
  std::uint32_t count = 0;    ///< greatest number of rails side by side
};

/// Whether a relation is told by a rail: a kept order or coat that leads downward. Others need words.
bool has_rail(const SequenceRelation& relation, const Ranks& ranks);

/// Every thing later than another stands in a row above it; a rail leads down to each thing from the first
/// row that joins it. Only relations that have a rail become joins. Rails are used again when free.
Rails lay_rails(const Sequence& sequence, const std::vector<std::uint32_t>& things,
                const std::vector<std::uint32_t>& relations, const Ranks& ranks);

}  // namespace lathbook::sequence
