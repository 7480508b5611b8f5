// Which arcs of an order say nothing that the others do not say together.
#pragma once

#include <vector>

#include "plugins/sequence/digraph.hpp"

namespace lathbook::sequence {

/// For every arc, in the order given, whether a longer way leads from its later to its earlier end: it is
/// then left out of drawings. What is left is the transitive reduction, which a graph without circles has
/// exactly one of (A. Aho, M. Garey, J. Ullman, 'The transitive reduction of a directed graph', SIAM J.
/// Computing 1, 1972, 131-137). The graph must have no circle, no arc twice, and arcs to lower numbers only.
///
/// Exact. Most arcs are settled by their levels, by a spanning tree, or by interval labels (H. Yildirim,
/// V. Chaoji, M. Zaki, 'GRAIL', Proc. VLDB Endowment 3, 2010, 276-284); the rest by short searches, and what
/// these leave by sets of bits, 512 ends at a time: at worst nodes x arcs / 512 sweeps of words, and 64 bytes
/// a node. Equal input gives equal output.
std::vector<bool> redundant_arcs(Node nodes, const std::vector<Arc>& arcs);

}  // namespace lathbook::sequence
