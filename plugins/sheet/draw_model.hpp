// What the chart shows, in days, before it has a size.
#pragma once

#include "plugins/sheet/content.hpp"
#include "plugins/sheet/teller.hpp"

namespace lathbook::sheet {

/// Bars of the dated things of the sheet (`items` goes with sheet.things), bands of the phases, ticks of
/// the dated sources that the things lean on.
Drawing drawing_of(const Timeline& timeline, const std::vector<TimelineItem>& items, Teller& teller);

}  // namespace lathbook::sheet
