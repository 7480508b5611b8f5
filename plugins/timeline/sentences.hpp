// A bound with its whole reason as one sentence, from the dated end.
#pragma once

#include <functional>
#include <string>

#include "plugins/timeline/reasons_words.hpp"

namespace lathbook::timeline {

/// What a date is of.
enum class Event : std::uint8_t { made, placed, gone, works_began, works_ended, phase_opened, source_made };

/// 'The tile (N-203) was not in place before 1888: the sea-green tile 14 (N-203.14) was made not before
/// 1888 [1]; it is original to the tile [2].' The notes count the steps of the reason. `fact_of` gives the
/// fact of a statement, or null.
std::string bound_sentence(const Words& words, const RecordInfo& record, Event event, Side side,
                           const Bound& bound, const std::function<const Fact*(const Digest&)>& fact_of);

/// '1888' for 1 January 1888 as an earliest day, '22 March 1926'; as a latest day '1926' for 31 December.
std::string earliest_words(Day day);
std::string latest_words(Day day);

}  // namespace lathbook::timeline
