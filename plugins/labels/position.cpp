#include "plugins/labels/position.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "core/view/record_view.hpp"

namespace lathbook::labels {

namespace {

constexpr double kNotKnown = 0.3;
constexpr double kDoesNotHold = 0.01;
constexpr double kSliver = 0.05;  // of the smaller room: an error in registering the storeys
constexpr double kWall = 0.6;     // metres between rooms that share a wall, at most
constexpr double kCloset = 0.35;
constexpr double kPassage = 0.2;
constexpr double kFrontNotSaid = 0.5;

std::string percent(double share) {
  return std::to_string(static_cast<int>(std::lround(share * 100))) + " %";
}

LabelFactor unknown_outline(const Room& room) {
  return {"position", kNotKnown,
          "no outline of " + display(room.info) + " is on record: its place was not checked", Digest{}};
}

LabelFactor above_or_below(const House& house, const Room& room, bool above, const Room& anchor,
                           const Outline& here, const Outline& there) {
  const std::string name = display(anchor.info);
  const std::string word = above ? "over " : "under ";
  if (!room.storey || !anchor.storey)
    return {"position", kNotKnown, "the storey of it or of " + name + " is not on record", Digest{}};
  if (house.beyond(*anchor.storey, above) != room.storey)
    return {"position", kDoesNotHold,
            "it is not on the next storey " + std::string(above ? "above " : "below ") + name, Digest{}};
  const double common = here.shape.overlap(there.shape);
  const double of_anchor = common / there.shape.area();
  const double of_room = common / here.shape.area();
  if (common <= 0 || common < kSliver * std::min(here.shape.area(), there.shape.area()))
    return {"position", kDoesNotHold, "it does not lie " + word + name, here.statement};
  std::string words = "it lies " + word + name + ": " + metres(common, "m²") + " in common, " +
                      percent(of_anchor) + " of " + name + " and " + percent(of_room) + " of the floor of " +
                      display(room.info);
  return {"position", std::max(kDoesNotHold, of_anchor), words, here.statement};
}

LabelFactor beside(const Room& room, const Room& anchor, const Outline& here, const Outline& there) {
  const std::string name = display(anchor.info);
  if (room.storey != anchor.storey)
    return {"position", kDoesNotHold, "it is on another storey than " + name, Digest{}};
  const double shared = here.shape.shared_wall(there.shape, kWall);
  if (shared <= 0) return {"position", kDoesNotHold, "it shares no wall with " + name, here.statement};
  return {"position", std::max(kDoesNotHold, std::min(1.0, shared / (here.shape.perimeter() / 2))),
          "it shares " + metres(shared, "m") + " of wall with " + name, here.statement};
}

// Walls and elevations are named for the nearest of the building's own four sides.
double nearest_side(double bearing, double north) {
  return std::round((bearing + north) / 90) * 90 - north;
}

class Sides {
public:
  Sides(const House& house, const Room& room, const Outline& outline, const Circumstances& about)
      : building_(house.buildings()[house.storeys()[*room.storey].building]),
        shape_(outline.shape),
        compass_(house.compass(*room.storey, about.when)),
        about_(about) {
    factor_ = {"position", 1, {}, outline.statement};
  }

  LabelFactor of(const RoomPhrase& phrase) {
    if (const auto bearing = bearing_of(phrase.compass)) by_compass(phrase.compass, *bearing);
    if (!phrase.end.empty()) by_front(phrase.end, phrase.hand);
    return factor_;
  }

private:
  void by_compass(const std::string& side, double bearing) {
    const bool diagonal = std::fmod(bearing, 90) != 0;
    const double weight = diagonal ? towards(bearing - 45) * towards(bearing + 45) : towards(bearing);
    say(weight, where(weight) + " on the " + side + " side of its storey" + turned());
  }

  void by_front(const std::string& end, const std::string& hand) {
    const auto front = bearing_of(building_.front);
    if (!front) {
      say(kFrontNotSaid, "which side of the house is its front is not on record (front-faces)");
      return;
    }
    const double out = nearest_side(*front, building_.north);
    const double weight = towards(end == "front" ? out : out + 180);
    say(weight, where(weight) + " to the " + end + " of the house, whose front looks " + building_.front);
    if (hand.empty()) return;
    // Facing the front from outside one looks back along its bearing: the left hand is a quarter turn on.
    const double turn = (hand == "left") == about_.left_from_outside ? 90 : -90;
    const double by_hand = towards(out + turn);
    say(by_hand, where(by_hand) + " to the " + hand +
                     (about_.left_from_outside ? " as one faces the front from outside"
                                               : " as one looks out of the front from inside"));
  }

  double towards(double bearing) const { return side_weight(compass_.towards(shape_, bearing)); }
  static std::string where(double weight) {
    return weight >= 0.8 ? "it lies" : weight >= 0.5 ? "it lies partly" : "it does not lie";
  }
  std::string turned() const {
    if (building_.north == 0) return {};
    char text[64];
    std::snprintf(text, sizeof text, " (true north is %.1f degrees from the drawing's)", building_.north);
    return text;
  }
  void say(double weight, const std::string& words) {
    factor_.weight *= weight;
    factor_.words += (factor_.words.empty() ? "" : "; ") + words;
  }

  const Building& building_;
  const Shape& shape_;
  Compass compass_;
  const Circumstances& about_;
  LabelFactor factor_;
};

}  // namespace

LabelFactor relation_factor(const House& house, const Room& room, const std::string& relation,
                            const Room& anchor, const Circumstances& about) {
  if (&room == &anchor)
    return {"position", kDoesNotHold, "a room does not lie " + relation + " itself", Digest{}};
  const Outline* here = house.outline(room, about.when);
  const Outline* there = house.outline(anchor, about.when);
  if (here == nullptr) return unknown_outline(room);
  if (there == nullptr) return unknown_outline(anchor);
  if (relation == "next") return beside(room, anchor, *here, *there);
  return above_or_below(house, room, relation == "over", anchor, *here, *there);
}

LabelFactor side_factor(const House& house, const Room& room, const RoomPhrase& phrase,
                        const Circumstances& about) {
  if (phrase.compass.empty() && phrase.end.empty()) return {"position", 1, {}, Digest{}};
  const Outline* outline = house.outline(room, about.when);
  if (outline == nullptr || !room.storey) return unknown_outline(room);
  return Sides(house, room, *outline, about).of(phrase);
}

LabelFactor kind_factor(const House& house, const Room& room, const std::string& generic) {
  LabelFactor factor{"kind of room", 1, {}, Digest{}};
  const bool small = room.kind == RoomKind::closet || room.kind == RoomKind::passage;
  const std::string what =
      room.kind == RoomKind::closet ? "it is a closet or store" : "it is a passage or landing";
  if (generic == "closet") {
    if (room.kind != RoomKind::closet) factor = {"kind of room", 0.1, "it is no closet", Digest{}};
  } else if (generic == "chamber" || generic == "bedroom") {
    const bool upstairs = room.storey && house.storeys()[*room.storey].number >= 1;
    if (small)
      factor = {"kind of room", 0.15, what + ", not a chamber", Digest{}};
    else if (room.kind != RoomKind::chamber)
      factor = {"kind of room", upstairs ? 0.6 : 0.15,
                upstairs ? "not called a chamber, but on a bedroom storey" : "not called a chamber",
                Digest{}};
  } else if (small) {
    factor = {"kind of room", room.kind == RoomKind::closet ? kCloset : kPassage, what, Digest{}};
  }
  return factor;
}

int storey_number(int ordinal, const std::string& convention) {
  return convention == "uk" ? ordinal : ordinal - 1;
}

std::string metres(double value, const std::string& unit) {
  char text[64];
  std::snprintf(text, sizeof text, "%.1f %s", value, unit.c_str());
  return text;
}

}  // namespace lathbook::labels
