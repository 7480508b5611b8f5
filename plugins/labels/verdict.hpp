// The answer in a sentence: clear, to be checked, none, no destination at all, or a number.
#pragma once

#include <string>
#include <vector>

#include "core/analysis/label_reading.hpp"
#include "plugins/labels/carrier.hpp"
#include "plugins/labels/rank.hpp"
#include "plugins/labels/taking.hpp"
#include "plugins/labels/tokens.hpp"

namespace lathbook::labels {

/// What a verdict is made of.
struct Grounds {
  const Snapshot& archive;
  const House& house;
  const LabelText& text;
  const std::vector<Taking>& takings;
  const Ranking& ranking;
  const Carrier& carrier;
  const Circumstances& about;
};

/// None when 'none of them' has more than half, the best place scores below 0.1, or the storey does not
/// exist. Ambiguous when the first has less than 0.8 or less than three times the second. An address, a
/// parcel's wording or packing make it no destination of the thing it is on. Fills verdict, words, cautions,
/// hints.
void judge(const Grounds& grounds, LabelReading& reading);

/// "It is an assembly number: VIIII is 9 (strokes added up)."
std::string numeral_words(const std::vector<LabelNumeral>& numerals);

}  // namespace lathbook::labels
