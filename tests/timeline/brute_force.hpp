// Small random temporal networks and what enumerating all their whole-number assignments tells of them.
#pragma once

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <functional>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "plugins/timeline/network.hpp"

namespace brute {

using namespace lathbook::timeline;

/// LATHBOOK_CASES and LATHBOOK_SEED widen or repeat a run.
inline unsigned number_from(const char* name, unsigned otherwise) {
  const char* text = std::getenv(name);
  return text != nullptr ? static_cast<unsigned>(std::strtoul(text, nullptr, 10)) : otherwise;
}

struct Wish {
  unsigned claims = 6;
  unsigned percent_choices = 0;
  unsigned joints = 0;
  unsigned groups = 0;
};

class Generator {
public:
  explicit Generator(unsigned seed) : random_(seed) {
    vars_ = static_cast<Var>(pick(2, 6));
    top_ = vars_ <= 4 ? 5 : vars_ == 5 ? 4 : 3;
  }
  Var vars() const { return vars_; }
  /// Every variable lies in 0..top().
  Tick top() const { return top_; }
  Tick pick(Tick low, Tick high) { return std::uniform_int_distribution<Tick>(low, high)(random_); }
  std::uint8_t level() { return static_cast<std::uint8_t>(pick(1, 3)); }

  Constraint constraint() {
    Constraint made;
    do {
      made.from = static_cast<Var>(pick(0, vars_));
      made.to = static_cast<Var>(pick(0, vars_));
    } while (made.from == 0 && made.to == 0);
    made.weight = made.from == 0 ? pick(0, top_) : made.to == 0 ? -pick(0, top_) : pick(-3, 3);
    return made;
  }

  /// Each claim has one to three constraints; some are choices; joint claims and groups come on top.
  Network network(const Wish& wish) {
    Network made;
    made.add_variables(vars_);
    for (Var at = 1; at <= vars_; ++at) {
      made.add_latest(at, top_, kHorizon, 0);
      made.add_earliest(at, 0, kHorizon, 0);
    }
    if (pick(0, 1) == 0) made.add_constraint({2, 1, -1, kStructural, 0});
    for (Cause cause = 1; cause <= wish.claims; ++cause) {
      const bool is_choice = static_cast<unsigned>(pick(1, 100)) <= wish.percent_choices;
      add_claim(made, cause, level(), is_choice);
    }
    for (unsigned at = 0; at < wish.joints; ++at) {
      const Cause joint = wish.claims + 1 + at;
      std::vector<Cause> parts;
      for (Tick k = pick(2, 3); k > 0; --k) parts.push_back(static_cast<Cause>(pick(1, wish.claims)));
      made.join(joint, parts);
      add_claim(made, joint, made.level_of(joint), wish.percent_choices > 0 && pick(0, 1) == 0);
    }
    for (unsigned at = 0; at < wish.groups; ++at) {
      std::vector<Cause> members;
      for (Tick k = pick(2, 4); k > 0; --k) members.push_back(static_cast<Cause>(pick(1, wish.claims)));
      made.add_group(members, 3);
    }
    return made;
  }

private:
  void add_claim(Network& made, Cause cause, std::uint8_t sure, bool is_choice) {
    if (is_choice) {
      Choice choice{{}, cause, sure};
      for (Tick k = pick(2, 3); k > 0; --k) {
        auto& alternative = choice.alternatives.emplace_back();
        for (Tick m = pick(1, 2); m > 0; --m) alternative.push_back(constraint());
      }
      made.add_choice(choice);
      return;
    }
    for (Tick k = pick(1, 5) < 4 ? 1 : pick(2, 3); k > 0; --k) {
      Constraint one = constraint();
      one.cause = cause;
      one.level = sure;
      made.add_constraint(one);
    }
  }

  std::mt19937 random_;
  Var vars_ = 0;
  Tick top_ = 0;
};

using Point = std::vector<Tick>;
using Mask = std::uint32_t;  ///< bit c: claim c

inline Mask bit(Cause cause) {
  return Mask{1} << cause;
}

inline bool holds(const Constraint& constraint, const Point& x) {
  return x[constraint.to] - x[constraint.from] <= constraint.weight;
}

inline bool alternative_holds(const Network& network, std::uint32_t index, const Point& x) {
  const auto& alternative = network.alternatives()[index];
  for (auto option = alternative.first_option; option < alternative.end_option; ++option)
    if (!holds(network.options()[option], x)) return false;
  return true;
}

/// All assignments that satisfy structure and horizon, each with the claims it satisfies.
class Table {
public:
  Table(const Network& network, Tick top) : network_(network) {
    Point x(network.variables(), 0);
    for (;;) {
      Mask satisfied = 0;
      if (measure(x, satisfied)) {
        points_.push_back(x);
        masks_.push_back(satisfied);
      }
      Var at = 1;
      while (at < x.size() && x[at] == top) x[at++] = 0;
      if (at == x.size()) break;
      ++x[at];
    }
    const std::set<Mask> kinds(masks_.begin(), masks_.end());
    kinds_.assign(kinds.begin(), kinds.end());
  }

  /// The claims, with the joint ones that are complete.
  Mask speaking(Mask claims) const {
    Mask all = claims;
    for (Cause cause = 1; cause < network_.causes(); ++cause) {
      const auto* parts = network_.parts_of(cause);
      if (parts == nullptr) continue;
      const bool complete =
          std::all_of(parts->begin(), parts->end(), [&](Cause part) { return (claims & bit(part)) != 0; });
      if (complete) all |= bit(cause);
    }
    return all;
  }

  bool is_possible(Mask claims) const {
    const Mask wanted = speaking(claims);
    return std::any_of(kinds_.begin(), kinds_.end(), [&](Mask kind) { return (kind & wanted) == wanted; });
  }

  std::vector<const Point*> points(Mask claims) const {
    const Mask wanted = speaking(claims);
    std::vector<const Point*> found;
    for (std::size_t at = 0; at < points_.size(); ++at)
      if ((masks_[at] & wanted) == wanted) found.push_back(&points_[at]);
    return found;
  }

private:
  bool measure(const Point& x, Mask& satisfied) const {
    Mask broken = 0;
    for (const Constraint& constraint : network_.constraints()) {
      if (holds(constraint, x)) continue;
      if (constraint.level == 0) return false;
      broken |= bit(constraint.cause);
    }
    for (const auto& choice : network_.choices()) {
      bool some = false;
      for (auto k = choice.first_alternative; k < choice.end_alternative && !some; ++k)
        some = alternative_holds(network_, k, x);
      if (!some) broken |= bit(choice.cause);
    }
    satisfied = ~broken;
    return true;
  }

  const Network& network_;
  std::vector<Point> points_;
  std::vector<Mask> masks_;
  std::vector<Mask> kinds_;
};

}  // namespace brute
