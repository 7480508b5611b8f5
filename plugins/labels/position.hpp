// Where a room lies, as labels say it: over, under, next to, on a side, front or back, on a storey.
#pragma once

#include <optional>
#include <string>

#include "core/analysis/label_reading.hpp"
#include "plugins/labels/house.hpp"
#include "plugins/labels/rank.hpp"
#include "plugins/labels/taking.hpp"

namespace lathbook::labels {

/// How far 'room over anchor' (under, next) holds. 1 when the anchor lies wholly under (over) the room; for
/// 'next' the shared wall over half the room's perimeter. 0.3 when an outline is missing, 0.01 when it does
/// not hold. Only the next storey with rooms counts; a sliver below a twentieth of the smaller room does not.
LabelFactor relation_factor(const House& house, const Room& room, const std::string& relation,
                            const Room& anchor, const Circumstances& about);

/// How far a room lies on the side of its storey that the phrase says (bearing, front or back, hand of the
/// house); 1 and no words when the phrase says no side.
LabelFactor side_factor(const House& house, const Room& room, const RoomPhrase& phrase,
                        const Circumstances& about);

/// How far the kind of room suits the generic word alone: 'room' is seldom a closet or a passage, 'chamber' a
/// room of an upper storey.
LabelFactor kind_factor(const House& house, const Room& room, const std::string& generic);

/// The storey number that a count names: US 1st = ground, UK ground, 1st.
int storey_number(int ordinal, const std::string& convention);

/// "35.0 m²", "4.9 m"
std::string metres(double value, const std::string& unit);

}  // namespace lathbook::labels
