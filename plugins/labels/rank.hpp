// Which places a label may mean, with every reason: names, time, storey, position, kind, fitting.
#pragma once

#include <string>
#include <vector>

#include "core/analysis/label_reading.hpp"
#include "plugins/labels/house.hpp"
#include "plugins/labels/taking.hpp"

namespace lathbook::labels {

/// What is known of the writer and the time of writing.
struct Circumstances {
  Period when;             ///< neither end set: not known
  std::string convention;  ///< "us", "uk" or empty: both are tried
  std::string convention_ground;
  Digest convention_statement;
  bool left_from_outside = true;  ///< left and right of the house: facing its front from outside
  bool dated() const { return when.first || when.last; }
};

/// A place with the way of taking the label that speaks best for it.
struct Ranked {
  LabelCandidate candidate;
  std::size_t taking = 0;
  std::size_t room = 0;  ///< index into House::rooms(); meaningless for a storey
  bool is_storey = false;
  std::size_t alternative =
      0;  ///< which of the rooms (or, with a relation, anchors) joined by 'or' it answers
};

struct Ranking {
  std::vector<Ranked> places;  ///< best first; nothing below a thousandth of the best
  double none_share = 1;
  bool storey_missing = false;       ///< a storey is stated that the house does not have, by any way in force
  std::string evidence_of_counting;  ///< how this house's own dated names of storeys count; may be empty
};

Ranking rank(const House& house, const std::vector<Taking>& takings, const Circumstances& about);

/// 1 within the period; outside 0.6 * exp(-gap / 30 years), at least 0.15.
double time_weight(const Period& period, const Period& when);

}  // namespace lathbook::labels
