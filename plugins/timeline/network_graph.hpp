// A network laid out for solving: components, topological order without the origin, flat adjacency.
#pragma once

#include <cstdint>
#include <vector>

#include "plugins/timeline/network.hpp"
#include "plugins/timeline/network_memory.hpp"

namespace lathbook::timeline {

/// Place of a variable in the solver's order. Components are contiguous; within one, constraints between
/// different blocks lead from lower to higher nodes. The origin has none.
using Node = std::uint32_t;
/// Names a constraint (index), an option (constraints + index) or, beyond both, a derived bound.
using Link = std::uint32_t;

/// `since` of a link that is not in force at any level.
inline constexpr std::uint8_t kOff = 255;

/// A constraint that leaves a node for another, or that relates it to the origin: then `to` is one of the
/// four codes below, from kFirstBound on.
struct Arc {
  Tick weight;
  Node to;
  Link link;
};

inline constexpr Node kFirstBound = 0xfffffffc;
inline constexpr Node kUpper = 0xfffffffc;         ///< x <= weight
inline constexpr Node kLower = 0xfffffffd;         ///< x >= -weight
inline constexpr Node kUpperHorizon = 0xfffffffe;  ///< the same two by the horizon
inline constexpr Node kLowerHorizon = 0xffffffff;

/// Nodes [begin, end) that reach one another without the origin: a strongly connected component of two
/// or more. `first_inward` is where the heads of its inner arcs start in Graph::inward_begin.
struct Block {
  Node begin;
  Node end;
  std::uint32_t first_inward;
};

/// An inner arc of a block seen from its head.
struct Inward {
  std::uint32_t arc;
  Node from;
};

class Graph {
public:
  /// Lays out the network; claims of `leave_out` are never in force.
  Graph(const Network& network, const std::vector<Cause>& leave_out);

  const Network& network() const { return *network_; }
  std::uint32_t components() const { return static_cast<std::uint32_t>(component_begin.size() - 1); }
  std::uint32_t nodes() const { return static_cast<std::uint32_t>(order.size()); }
  std::uint32_t component_of(Node node) const;
  /// The component of a claim's constraints; kNone for a claim without any.
  std::uint32_t component_of_claim(Cause claim) const;
  /// Leaves out these claims and no others. Returns the components (ascending) in which that changes
  /// something; they are put back to the state before solving.
  std::vector<std::uint32_t> leave_out(const std::vector<Cause>& claims);
  /// The block that holds a node, or nullptr for a node outside every cycle.
  const Block* block_of(Node node) const;

  /// Constraint or option of a link (not of a derived bound).
  const Constraint& constraint(Link link) const {
    const auto& plain = network_->constraints();
    return link < plain.size() ? plain[link] : network_->options()[link - plain.size()];
  }
  bool is_option(Link link) const { return link >= network_->constraints().size() && link < first_derived(); }
  Link first_derived() const {
    return static_cast<Link>(network_->constraints().size() + network_->options().size());
  }
  bool is_left_out(Cause cause) const { return cause < left_out_.size() && left_out_[cause]; }

  Flat<Var> holder;  ///< claim -> some variable that it constrains; kNone for none
  Flat<Var> order;   ///< node -> variable
  Flat<Node> place;  ///< variable -> node; kNone for the origin
  std::vector<Node> component_begin;
  std::vector<Block> blocks;               ///< ascending
  std::vector<std::uint32_t> block_begin;  ///< component -> first block

  Flat<std::uint32_t> arc_begin;   ///< node -> its first arc; bounds come first ...
  Flat<std::uint32_t> arc_onward;  ///< ... and from here on the arcs to other nodes
  Flat<Arc> arcs;
  Flat<std::uint8_t> arc_since;  ///< level from which the arc is in force; 0 for structure; kOff

  std::vector<std::uint32_t> inward_begin;
  std::vector<Inward> inward;

  std::vector<std::uint32_t> choice_begin;  ///< component -> first of its choices
  std::vector<std::uint32_t> choice_order;
  std::vector<std::uint32_t> loop_begin;  ///< component -> its constraints of a variable with itself, < 0
  std::vector<Link> loops;
  std::vector<std::uint32_t> option_arc;  ///< option -> its arc; kNone when it relates a variable to itself

private:
  struct Draft;
  std::vector<bool> with_joints(const std::vector<Cause>& leave_out) const;
  void put_in_force(std::uint32_t component);
  void survey(Draft& draft);
  void number_slots(Draft& draft);
  void spread(Draft& draft);
  void condense(Draft& draft);
  void lay_out(Draft& draft);
  void place_choices(const Draft& draft);
  void turn_blocks();
  template <typename Use, typename Soon>
  void for_each_link(Use use, Soon soon) const;

  const Network* network_;
  std::vector<bool> left_out_;
};

}  // namespace lathbook::timeline
