// The phases of each place in their order, as the statements number them.
#pragma once

#include <optional>
#include <vector>

#include "plugins/timeline/facts.hpp"

namespace lathbook::timeline {

struct NumberedPhase {
  Uuid phase;
  int number = 0;
  std::uint32_t fact = 0;  ///< the statement of its number
};

/// Phases of one place, by number, then by code. Conjectured numbers are not among them.
struct PhaseLine {
  Uuid place;
  std::vector<NumberedPhase> phases;
};

class PhaseLines {
public:
  explicit PhaseLines(const Facts& facts);

  /// In natural order of the codes of places.
  const std::vector<PhaseLine>& all() const { return lines_; }
  const PhaseLine* of(const Uuid& place) const;
  /// The first phase of the same place with a greater number; null for the last and for one without number.
  const NumberedPhase* after(const Uuid& phase) const;

private:
  std::vector<PhaseLine> lines_;
};

}  // namespace lathbook::timeline
