// The either-or rows: unit propagation and the hull over the alternatives still open.
#pragma once

#include "plugins/timeline/network_reasons.hpp"

namespace lathbook::timeline {

class ChoiceRules {
public:
  ChoiceRules(State& state, const std::array<Values, 2>& values) : state_(state), values_(values) {}

  /// Looks once at every choice of the component that is believed at the level, against the current
  /// bounds: rules out alternatives, imposes the last one left, narrows bounds to the hull of the open
  /// ones. True when a constraint or bound was added. A choice with nothing left goes to `cores`.
  bool apply(std::uint32_t component, std::uint8_t level, std::vector<Core>& cores);
  /// Takes back everything concluded at this level.
  void undo(std::uint32_t component, std::uint8_t level, std::size_t first_derived);
  /// True when the choice is believed at the level, not decided, and can still limit something.
  bool is_open(std::uint32_t choice, std::uint8_t level) const;
  bool is_refuted(std::uint32_t choice, std::uint32_t alternative) const;
  /// Puts the constraints of the one alternative left in force from the level on.
  void impose(std::uint32_t choice, std::uint32_t alternative, std::uint8_t level);

private:
  Tick latest(Var var) const { return var == kOrigin ? 0 : values_[0][state_.graph.place[var]].dist; }
  Tick to_origin(Var var) const { return var == kOrigin ? 0 : values_[1][state_.graph.place[var]].dist; }
  bool rule_out(std::uint32_t choice, std::uint32_t alternative, std::uint8_t level);
  bool narrow(std::uint32_t choice, const std::vector<std::uint32_t>& open, std::uint8_t level);
  bool narrow_one(std::uint32_t choice, const std::vector<std::uint32_t>& open, std::uint8_t level, Var var,
                  Side side);
  const Network::AlternativeRow& row(std::uint32_t choice, std::uint32_t alternative) const;

  State& state_;
  const std::array<Values, 2>& values_;
};

}  // namespace lathbook::timeline
