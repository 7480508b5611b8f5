// Orders said in short words, random orders, and slow ways of reckoning what the plugin reckons fast.
#pragma once

#include <cstdint>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "plugins/sequence/order.hpp"
#include "plugins/sequence/reduction.hpp"

namespace lathbook::test {

/// "3>2 6>2": pairs of later and earlier, numbers from 1.
std::vector<sequence::Arc> arcs_of(const std::string& text);
/// "3>2 6>2" again, ascending.
std::string text_of(std::vector<sequence::Arc> arcs);
/// Arcs renumbered so that they lead to lower numbers; `number` is where each old number went.
struct Topological {
  sequence::Node nodes = 0;
  std::vector<sequence::Arc> arcs;
};
Topological topological(sequence::Node nodes, const std::vector<sequence::Arc>& arcs);

/// The arcs that are not redundant.
std::vector<sequence::Arc> reduced(sequence::Node nodes, const std::vector<sequence::Arc>& arcs);
/// The same by the definition: an arc is redundant when its end can be reached from another child.
std::vector<sequence::Arc> slowly_reduced(sequence::Node nodes, const std::vector<sequence::Arc>& arcs);
/// Pairs that a way leads from and to; for small graphs.
std::set<sequence::Arc> closure(sequence::Node nodes, const std::vector<sequence::Arc>& arcs);

/// No circle, no arc twice, arcs to lower numbers, in shuffled order.
std::vector<sequence::Arc> random_order(std::mt19937& random, sequence::Node nodes, std::size_t arcs);

/// The order of things 1..n from such text, all strict, all kept.
sequence::Order order_of_text(sequence::Node things, const std::string& text,
                              const std::vector<sequence::Same>& same = {});

}  // namespace lathbook::test
