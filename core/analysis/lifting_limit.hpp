// The typed result of the revised lifting equation: information, never permission.
#pragma once

#include <string>
#include <vector>

namespace lathbook {

/// One end of the lift. Multipliers 0 to 1; a multiplier of 0 means that the lift lies outside the equation.
struct LiftingEnd {
  double hm = 0, vm = 0, dm = 0, am = 0, fm = 0, cm = 0;
  double limit_kg = 0;  ///< recommended weight limit
  double index = 0;     ///< load over limit; infinite when the limit is 0
};

struct LiftingLimit {
  double load_kg = 0;
  LiftingEnd origin;
  LiftingEnd destination;
  bool rounded = false;            ///< multipliers rounded to two places, as the manual prints them
  std::vector<std::string> words;  ///< the answer and its limits, in sentences
};

}  // namespace lathbook
