// How well the words of a label name a room: its own dated names first, then what stood for what at the time.
#pragma once

#include <vector>

#include "core/analysis/label_reading.hpp"
#include "plugins/labels/house.hpp"
#include "plugins/labels/rank.hpp"
#include "plugins/labels/taking.hpp"

namespace lathbook::labels {

struct NameMatch {
  double words = 0;   ///< how far the words agree, 0 to 1
  double time = 1;    ///< whether the name was in use then
  bool full = false;  ///< all words agree: the room bears this very name
  std::string called;
  std::vector<LabelFactor> factors;
  double weight() const { return words * time; }
  bool borne() const { return full && time >= 0.4; }  ///< the very name, in use then or some years off
};

/// One match for each room of the house. When a room bears the very name (in use then, or nearly), what
/// others share of it counts for a third.
std::vector<NameMatch> match_names(const House& house, const RoomPhrase& phrase, const Circumstances& about);

}  // namespace lathbook::labels
