// From the graph to the typed result: steps down and back, circles, warnings.
#pragma once

#include "core/analysis/work_order.hpp"
#include "plugins/takedown/fabric.hpp"

namespace lathbook::takedown {

/// What of `here` waits, however far, for something kept as evidence in the wider fabric: told in
/// order.blocked, and staying in `here` from now on, so that no order touches it. Where only a part of a
/// field is kept, and nobody said over what that part lies, tell_beneath() warns of it.
void keep_beneath(const Fabric& wide, Fabric& here, WorkOrder& order);

/// A warning, with no one thing as taken, for each field of which a part is kept that may lie over some of
/// the nodes that are meant.
void tell_beneath(const Fabric& here, const std::vector<bool>& meant, WorkOrder& order);

/// Steps and circles, from what is still in place; the way back as if all of it were out.
void plan(const Fabric& fabric, WorkOrder& order);

/// The way back of what is really out, in place of the one that plan() gave; false, and nothing changed, when
/// nothing is out.
bool plan_back(const Fabric& out, WorkOrder& order);

/// Every reason behind the order, for those who read it by machine.
void tell_reasons(const Fabric& fabric, WorkOrder& order);

/// The order that was followed, and what it endangered: a thing taken while something it held still stood
/// and was not propped. Within a day only where the order was written down.
void judge(const Fabric& fabric, WorkOrder& order);

/// An order that somebody asks about: codes of pieces or elements, first to go first; an element laid in
/// pieces stands for all of them. `strict`: throws Error(invalid) for a code that is not here to be taken or
/// set, and Error(denied) for one that is kept as evidence or lies beneath it; else these are passed over.
struct Asked {
  std::vector<std::string> codes;
  bool strict = true;
};

/// What an order endangers or cannot do: a thing taken while something it holds still stands, or while
/// something else is in its way.
void judge_proposed(const Fabric& fabric, const Asked& asked, WorkOrder& order);

/// The same for putting back: a thing set while what it stands on or lies over is still out. `all` is
/// everything that ever stood, `out` what is out and in hand.
void judge_setting(const Fabric& all, const Fabric& out, const Asked& asked, WorkOrder& order);

}  // namespace lathbook::takedown
