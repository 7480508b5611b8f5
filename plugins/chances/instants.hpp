// The part of a timeline's network that is drawn from.
#pragma once

#include <optional>
#include <vector>

#include "core/analysis/timeline.hpp"
#include "plugins/chances/system.hpp"
#include "plugins/chances/ways.hpp"

namespace lathbook::chances {

/// Where in the system that is drawn from an instant of the network is found.
struct Drawn {
  Var var = 0;
  Tick offset = 0;
};

/// Beginnings, ends, dated sources, courses of works and phases that the evidence bounds on both sides are
/// drawn; all other instants are taken out, and what they say of these is kept. Statements set aside, and
/// either-or statements that are not settled, are left out.
class Instants {
public:
  explicit Instants(const TimelineNetwork& network);

  /// Index of the beginning of a placement in the network.
  std::optional<std::size_t> begin(const Uuid& record, int placement) const;
  bool is_bounded(std::size_t instant) const;
  /// Least that one instant can come after another, in ticks.
  Tick least_after(std::size_t from, std::size_t to) const;

  /// Prepares the draws of these instants and of all that bears on them.
  void choose(const std::vector<std::size_t>& wanted);
  const System& system() const { return rigid_.system; }
  Drawn drawn(std::size_t instant) const { return {rigid_.part[instant], rigid_.offset[instant]}; }
  /// How many instants are drawn, and how many joined to them are not.
  std::size_t drawn_count() const { return drawn_; }
  std::size_t left_out() const { return left_out_; }

  /// Orders that the relations alone allow of all beginnings joined to both, and how many have the first
  /// before the second; nothing when they are not joined, or too many.
  struct Orders {
    std::uint64_t all = 0;
    std::uint64_t with_first_before = 0;
    std::size_t things = 0;
  };
  std::optional<Orders> orders(std::size_t first, std::size_t second) const;

private:
  bool is_event(std::size_t instant) const;

  const TimelineNetwork& network_;
  System all_;  ///< a variable an instant; 0, the origin, stands still
  Rigid rigid_;
  std::size_t drawn_ = 0;
  std::size_t left_out_ = 0;
};

}  // namespace lathbook::chances
