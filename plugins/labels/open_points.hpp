// What a label says of the part, and what it leaves open, if a place is meant.
#pragma once

#include <string>
#include <vector>

#include "plugins/labels/carrier.hpp"
#include "plugins/labels/rank.hpp"
#include "plugins/labels/taking.hpp"

namespace lathbook::labels {

/// "window, west side, piece No. 4, left (as one faces it from inside the room)"; empty when nothing is said.
std::string part_words(const Taking& taking);

/// What the label does not settle if this place is meant: words with two senses, bare numbers, which of
/// several windows, from where a hand is seen, how storeys were counted.
std::vector<std::string> open_points(const House& house, const std::vector<Taking>& takings,
                                     const Ranking& ranking, const Ranked& ranked, const Carrier& carrier,
                                     const Circumstances& about);

}  // namespace lathbook::labels
