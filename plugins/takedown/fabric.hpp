// The things of a scope that can be moved and what hinders them, read from the archive.
#pragma once

#include <cstdint>
#include <vector>

#include "core/analysis/work_order.hpp"
#include "core/plugin/plugin.hpp"
#include "plugins/takedown/order.hpp"

namespace lathbook::takedown {

/// A node of the graph: a thing to move, or a mark that all pieces of an element must pass.
struct Node {
  RecordInfo record;
  bool mark = false;      ///< no thing of its own
  std::string sounds;     ///< of choice list 'bed-sound', from the last tap test
  std::int64_t out = -1;  ///< day it was really taken away; -1 when it was not
  bool propped = false;   ///< a prop was set before and not taken away since
};

struct Fabric {
  std::vector<Node> nodes;
  std::vector<Thing> things;          ///< beside nodes
  std::vector<Hindrance> hindrances;  ///< `reason` is an index into reasons
  std::vector<ReasonStep> reasons;
  std::vector<RecordInfo> retained;
};

/// Elements of the place (or the one element) with their pieces. `all`: also what is out already, for judging
/// the order that was followed. Throws Error(invalid) for a scope that is no place or element.
Fabric fabric_of(const Snapshot& archive, const Uuid& scope, bool all);

}  // namespace lathbook::takedown
