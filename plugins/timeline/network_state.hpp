// What the solver knows while it works and hands over in the end: choices, derived bounds, results by level.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

#include "plugins/timeline/network_graph.hpp"

namespace lathbook::timeline {

/// Distance that stands for 'no bound'; anything above kFar came from it.
inline constexpr Tick kNoBound = Tick{1} << 61;
inline constexpr Tick kFar = Tick{1} << 60;

/// A bound on one side: distance from the origin (latest) or to it (earliest, negated), how good its
/// reason is, and the last link of that reason.
struct Value {
  Tick dist = kNoBound;
  std::uint64_t label = kNoEvidence;
  Link link = kNone;

  static constexpr std::uint64_t kNoEvidence = std::uint64_t{1} << 63;
};

/// Labels order equal bounds: evidence before horizon, then fewer claims (30 bits), fewer steps (31 bits),
/// better weakest claim (2 bits). Each step makes a label strictly greater, so reasons never run in a ring.
inline std::uint64_t next_label(std::uint64_t label, std::uint8_t since) {
  const std::uint64_t worst = std::max<std::uint64_t>(label & 3, since);
  return ((label & ~std::uint64_t{3}) + (since != 0 ? std::uint64_t{1} << 33 : 0) + 4) | worst;
}
inline std::uint64_t claims_of_label(std::uint64_t label) {
  return label >> 33;
}

/// Values of one component, indexed by node.
template <typename Item>
class Window {
public:
  void open(const Graph& graph, std::uint32_t component, const Item& fill) {
    begin_ = graph.component_begin[component];
    items_.assign(graph.component_begin[component + 1] - begin_, fill);
  }
  Item& operator[](Node node) { return items_[node - begin_]; }
  const Item& operator[](Node node) const { return items_[node - begin_]; }

  /// A hint; nodes of other components (and the codes of bounds) are ignored.
  void fetch(Node node) const {
    if (node - begin_ < items_.size()) fetch_ahead(&items_[node - begin_]);
  }

private:
  Node begin_ = 0;
  Flat<Item> items_;
};
using Values = Window<Value>;
using Potentials = Window<Tick>;

/// A bound that holds in every alternative still open of a choice.
struct Derived {
  Node node = 0;
  Side side = Side::latest;
  Tick weight = 0;
  std::uint8_t since = kOff;  ///< kOff: kept only because a contradiction mentions it
  std::uint32_t choice = kNone;
  std::vector<Cause> support;  ///< all claims it rests on, ascending
  struct Case {
    std::vector<Decision> assumed;
    std::vector<Link> chain;  ///< from the dated end
  };
  std::vector<Case> cases;
};

/// Proof that an alternative cannot hold: a loop of links with a negative sum.
struct Refuted {
  std::uint32_t choice = kNone;
  std::uint32_t alternative = kNone;  ///< within the choice
  std::uint8_t level = kOff;
  std::vector<Link> loop;         ///< empty when only going through cases of other choices shows it
  std::vector<Cause> support;     ///< ascending, no joint claims
  std::vector<Decision> assumed;  ///< cases taken for true in the loop besides
};

struct ChoiceRecord {
  std::uint8_t chosen_since = kOff;
  std::uint32_t chosen = kNone;
  std::uint32_t narrowings = 0;  ///< derived bounds so far
  bool exact = false;            ///< every way of settling it was gone through, with those it touches
  std::vector<Refuted> refuted;
};

struct LevelResult {
  Flat<Bounds> bounds;              // by node
  std::array<Flat<Link>, 2> links;  // by side, by node
  Flat<std::uint8_t> remarks;       // by node
  struct Lean {
    Var var;
    Side side;
    Cause cause;
  };
  std::vector<Lean> leans;  // ascending by variable and side once solved
  struct Gap {
    Var var;
    std::vector<Bounds> parts;
  };
  std::vector<Gap> gaps;  // ascending by variable once solved; those with two parts or more
};

struct State {
  State(const Network& network, const std::vector<Cause>& leave_out)
      : graph(network, leave_out), choices(network.choices().size()), aside(network.causes(), kOff) {}

  const Network& network() const { return graph.network(); }
  const Derived& derived_of(Link link) const { return derived[link - graph.first_derived()]; }
  bool is_derived(Link link) const { return link >= graph.first_derived(); }
  Cause cause_of(Link link) const {
    return is_derived(link) ? network().choices()[derived_of(link).choice].cause
                            : graph.constraint(link).cause;
  }
  /// The variable a bound came from, along the last link of its reason.
  Var before(Link link, Side side) const {
    if (is_derived(link)) return kOrigin;
    const Constraint& constraint = graph.constraint(link);
    return side == Side::latest ? constraint.from : constraint.to;
  }
  Tick weight_of(Link link) const {
    return is_derived(link) ? derived_of(link).weight : graph.constraint(link).weight;
  }
  bool is_believed(Cause cause, std::uint8_t level) const {
    return network().level_of(cause) <= level && !graph.is_left_out(cause) &&
           (cause >= aside.size() || aside[cause] > level);
  }
  Step describe(Link link) const;
  Refutation describe(const Refuted& refuted) const;

  Graph graph;
  std::vector<Derived> derived;
  std::vector<ChoiceRecord> choices;
  std::vector<std::uint8_t> aside;  ///< level at which a claim was set aside
  std::vector<Conflict> conflicts;
  std::vector<Dispute> disputes;
  std::uint32_t answer = 0;           ///< of Options
  std::array<LevelResult, 4> levels;  ///< 1..3
  std::uint8_t max_level = kPossible;
};

}  // namespace lathbook::timeline
