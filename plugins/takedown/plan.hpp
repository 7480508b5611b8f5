// From the graph to the typed result: steps down and back, circles, warnings.
#pragma once

#include "core/analysis/work_order.hpp"
#include "plugins/takedown/fabric.hpp"

namespace lathbook::takedown {

/// Steps, circles and what is blocked, from what is still in place.
void plan(const Fabric& fabric, WorkOrder& order);

/// What the order that was followed endangered: a thing taken while something it held still stood and was
/// not propped. On one day the order is not recorded, which is said once.
void judge(const Fabric& fabric, WorkOrder& order);

}  // namespace lathbook::takedown
