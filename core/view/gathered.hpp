// Many records of a kind at once: one pass over their statements instead of a query for each.
#pragma once

#include <functional>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/base/api.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook {

/// Every record of the kind, with what is present and current of these properties (of all when none is
/// named) in exchange order. `goes_on` is asked now and then with the number of statements read; false ends
/// the reading early with what there is.
LATHBOOK_API std::unordered_map<Uuid, RecordView> gathered(
    const Snapshot& archive, Kind kind, const std::vector<std::string_view>& properties,
    const std::function<bool(std::uint64_t)>& goes_on = {});

}  // namespace lathbook
