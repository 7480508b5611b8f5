// Fields that lie flat: floors, hearths, pavements.
#pragma once

#include <cstdint>
#include <map>
#include <utility>

#include "core/view/record_view.hpp"

namespace lathbook::takedown {

/// Whether class, type or name of the element is one of schemas/lying-flat-en.tsv.
bool lies_flat(const RecordView& element);

/// How far each cell lies from the edges: 0 where it is not closed in on all four sides, then inward ring by
/// ring. What lies flat bears nothing: a piece comes away best beside an edge that is free already, so the
/// order goes inward from there; common practice, no source.
std::map<std::pair<int, int>, std::int64_t> rings_from_edges(
    const std::map<std::pair<int, int>, std::uint32_t>& cells);

}  // namespace lathbook::takedown
