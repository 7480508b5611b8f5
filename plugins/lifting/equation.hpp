// The revised NIOSH lifting equation.
#pragma once

#include "core/analysis/lifting_limit.hpp"

namespace lathbook::lifting {

enum class Coupling { good, fair, poor };

/// The two systems of units in which the equation is published; they differ by up to one per cent.
enum class Units { metric, customary };

/// Lengths in centimetres and load in kilograms, or inches and pounds; angle in degrees.
struct Lift {
  Units units = Units::metric;
  double load = 0;
  double horizontal = 25;    ///< hands from the middle between the ankles, at the origin
  double horizontal_to = 0;  ///< at the destination; 0 = the same
  double vertical = 75;      ///< height of the hands at the origin, 0 to 175 cm or 70 in
  double vertical_to = 75;   ///< at the destination
  double asymmetry = 0;      ///< 0 to 135
  double asymmetry_to = 0;
  double per_minute = 0.2;  ///< only 0.2 or less for up to an hour is answered: FM is 1 there
  Coupling coupling = Coupling::fair;
};

/// RWL = 23 kg (51 lb) x HM x VM x DM x AM x FM x CM (T. Waters, V. Putz-Anderson, A. Garg, 'Applications
/// manual for the revised NIOSH lifting equation', DHHS (NIOSH) Publication 94-110, 1994, rev. 2021). With
/// `rounded` each multiplier is rounded to two places as in the manual's worked examples; else exact. Throws
/// Error(invalid) for measures outside what the equation covers. For two-handed lifts only: not for one hand,
/// slips, sitting, kneeling or confined work.
LiftingLimit limit_of(const Lift& lift, bool rounded);

}  // namespace lathbook::lifting
