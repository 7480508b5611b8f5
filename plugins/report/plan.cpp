// Key plans: where each room lies on its storey, with openings and stairs where a survey measured them; and
// the plan of the ground that the building stands on.
#include "plugins/report/plan.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "plugins/report/build.hpp"
#include "plugins/report/ink.hpp"

namespace lathbook::report {

namespace {

constexpr double kSide = 1700;  ///< width of the figure, in tenths of a millimetre
constexpr double kPlan = 1120;  ///< of the plan in it, at most
constexpr double kHigh = 860;
constexpr double kMargin = 20;
constexpr double kList = kPlan + 60;  ///< where the names stand
constexpr std::string_view kWall = "#16181a";
constexpr std::string_view kVoid = "#e4e5e3";

/// An outline on the plan and who it is.
struct Outline {
  Uuid id;
  std::string code, name;
  std::vector<Point> points;
  Box box;
  bool here = false;
};

/// Metres onto paper.
struct Paper {
  Box house;
  double scale = 1;
  double tall = 0;
  explicit Paper(const Box& all) : house(all) {
    scale = std::min((kPlan - 2 * kMargin) / std::max(all.right - all.left, 0.1),
                     (kHigh - 2 * kMargin) / std::max(all.high - all.low, 0.1));
    tall = (all.high - all.low) * scale + 2 * kMargin;
  }
  double x(double metres) const { return kMargin + (metres - house.left) * scale; }
  double y(double metres) const { return tall - kMargin - (metres - house.low) * scale; }
  std::vector<std::pair<double, double>> corners(const std::vector<Point>& points) const {
    std::vector<std::pair<double, double>> list;
    for (const Point& point : points) list.emplace_back(x(point.x), y(point.y));
    return list;
  }
  void box(Ink& ink, const Box& area, std::string_view fill, double stroke) const {
    ink.box(x(area.left), y(area.high), (area.right - area.left) * scale, (area.high - area.low) * scale,
            fill, stroke);
  }
};

Box round_all(const std::vector<Outline>& outlines) {
  std::vector<Point> corners;
  for (const Outline& one : outlines) {
    corners.push_back({one.box.left, one.box.low});
    corners.push_back({one.box.right, one.box.high});
  }
  return box_round(corners);
}

/// The outline that holds now, where one is said to have held until some day only.
std::vector<Point> outline_now(const PlaceView& place) {
  const auto now = std::find_if(place.outlines.begin(), place.outlines.end(),
                                [](const OutlineView& one) { return one.to.empty(); });
  return now == place.outlines.end() ? place.footprint : now->points;
}

/// A window has its glass drawn, a door leaves the wall open, a blocked opening is hatched.
void draw_opening(Ink& ink, const Paper& paper, const Box& gap, bool window, bool blocked) {
  const bool upright = gap.high - gap.low > gap.right - gap.left;
  paper.box(ink, gap, blocked ? Ink::hatch(Level::certain) : "#ffffff", blocked ? 1.4 : 0);
  if (!window) return;
  for (const double part : {0.0, 0.42, 0.58, 1.0}) {
    const double x = paper.x(gap.left + (gap.right - gap.left) * part);
    const double y = paper.y(gap.low + (gap.high - gap.low) * part);
    if (upright)
      ink.line(x, paper.y(gap.low), x, paper.y(gap.high), 2);
    else
      ink.line(paper.x(gap.left), y, paper.x(gap.right), y, 2);
  }
}

/// A stair is ruled with its treads.
void draw_stair(Ink& ink, const Paper& paper, const Box& stair, double tread) {
  const bool upright = stair.high - stair.low > stair.right - stair.left;
  const double length = upright ? stair.high - stair.low : stair.right - stair.left;
  paper.box(ink, stair, "#ffffff", 2.2);
  const auto steps = tread > 0.05 ? std::lround(length / tread) : 1;
  for (std::int64_t step = 1; step < steps; ++step) {
    const double at = length * static_cast<double>(step) / static_cast<double>(steps);
    if (upright)
      ink.line(paper.x(stair.left), paper.y(stair.low + at), paper.x(stair.right), paper.y(stair.low + at),
               1.6);
    else
      ink.line(paper.x(stair.left + at), paper.y(stair.low), paper.x(stair.left + at), paper.y(stair.high),
               1.6);
  }
}

/// An arrow to true north, `turned` degrees clockwise from the top of the sheet.
void north_arrow(Ink& ink, double x, double y, double turned) {
  const double turn = turned * std::numbers::pi / 180;
  const auto at = [&](double along, double across) {
    return std::pair{x + std::sin(turn) * along + std::cos(turn) * across,
                     y - std::cos(turn) * along + std::sin(turn) * across};
  };
  ink.circle(x, y, 52, "#ffffff");
  ink.outline({at(50, 0), at(-40, 20), at(-26, 0)}, kWall, 2);
  ink.outline({at(50, 0), at(-40, -20), at(-26, 0)}, "#ffffff", 2);
  const auto letter = at(82, 0);
  ink.words(letter.first, letter.second + 12, 34, phrase("plan.north"), "middle", true);
}

void scale_bar(Ink& ink, double x, double y, double scale, int metres) {
  const double half = metres * scale / 2;
  ink.box(x, y, half, 14, kWall, 2);
  ink.box(x + half, y, half, 14, "#ffffff", 2);
  ink.words(x, y + 44, 26, "0", "middle");
  ink.words(x + 2 * half, y + 44, 26, phrase("plan.scale", {{"n", std::int64_t{metres}}}), "middle");
}

Figure sheet(const std::string& title, const std::string& words, const Ink& ink, double height) {
  Figure made;
  made.title = title;
  made.description = words;
  made.media_type = "image/svg+xml";
  made.bytes = ink.svg(height);
  made.width = kSide / 10;
  made.height = height / 10;
  return made;
}

/// What is told beside a plan: names of the places, the signs used, a scale and the north.
struct Margin {
  Ink& ink;
  double at = kMargin + 24;
  void name(const std::string& code, const std::string& name, bool strong) {
    ink.words(kList, at, 29, Ink::cut(code + " " + name, kSide - kList, 29), "start", strong);
    at += 42;
  }
  void sign(std::string_view fill, const std::string& words, bool glass, std::string_view edge) {
    ink.box(kList, at - 24, 64, 26, fill, edge.empty() ? 0 : 2);
    if (glass)
      for (const double y : {-24.0, -13.0, -9.0, 2.0}) ink.line(kList, at + y, kList + 64, at + y, 2);
    if (!glass && edge.empty())
      for (const double x : {0.0, 64.0}) ink.line(kList + x, at - 24, kList + x, at + 2, 6);
    ink.words(kList + 82, at, 26, words);
    at += 40;
  }
};

/// Signs that a plan used, for its key.
struct Signs {
  bool window = false, door = false, blocked = false, space = false;
  std::vector<Box> stairs;
};

/// Where the number of a room stands: its middle, or the middle of what a stair along a side wall leaves.
std::pair<double, double> place_of_number(const Box& room, const std::vector<Box>& stairs) {
  double left = room.left, right = room.right;
  for (const Box& stair : stairs) {
    if (stair.right <= room.left || stair.left >= room.right || stair.high <= room.low ||
        stair.low >= room.high)
      continue;
    if (stair.left - room.left < room.right - stair.right)
      left = std::max(left, stair.right);
    else
      right = std::min(right, stair.left);
  }
  return {(left + right) / 2, (room.low + room.high) / 2};
}

/// Reads what is measured and draws it.
class Surveyed {
public:
  Surveyed(Teller& teller, std::vector<Statement>& said) : teller_(teller), said_(said) {}

  /// Openings and stairs that stand in one of these rooms or serve one, drawn once each.
  Signs draw(Ink& ink, const Paper& paper, const std::vector<Outline>& rooms,
             const std::vector<Box>& beyond) {
    std::set<Uuid> drawn;
    for (const Outline& room : rooms)
      for (const Statement& stands : teller_.said_to(room.id, "stands-in"))
        if (teller_.record(stands.content.subject) && drawn.insert(stands.content.subject).second)
          part(ink, paper, stands.content.subject, beyond);
    return signs_;
  }

  /// Degrees from the top of the plan to true north, clockwise, as the place or what it lies in says.
  std::optional<double> north(const Uuid& place) {
    for (const Uuid& around : teller_.places_around(place))
      for (const Statement& one : teller_.said(around, "project-north"))
        if (const auto turned = number_in<double>(one.content.value)) {
          said_.push_back(one);
          return turned;
        }
    return std::nullopt;
  }

private:
  void part(Ink& ink, const Paper& paper, const Uuid& id, const std::vector<Box>& beyond) {
    for (const char* gone : {"removed-for-good", "removed-in-campaign"})
      if (!teller_.said(id, gone).empty()) return;
    std::vector<Statement> measured;
    const Lengths lengths = lengths_of(id, measured);
    if (lengths.end == 0) return;
    const ElementView element(teller_.view(id));
    for (const Statement& standing : teller_.said(id, "stands-in")) {
      const auto side = side_in(standing.content.qualifier("face"));
      const std::string_view role = standing.content.qualifier("role");
      const auto room_id = Uuid::parse(standing.content.value);
      if (!side || !room_id || (!role.empty() && role != "stands in")) continue;
      const PlaceView place(teller_.view(*room_id));
      if (place.type != "room" || place.footprint.size() < 3) continue;
      const Box room = box_round(outline_now(place));
      if (lengths.going > 0)
        stair(ink, paper, room, *side, lengths);
      else
        opening(ink, paper, room, *side, lengths, element, beyond);
      said_.insert(said_.end(), measured.begin(), measured.end());
      return;
    }
  }

  void stair(Ink& ink, const Paper& paper, const Box& room, char side, const Lengths& lengths) {
    const auto area = along_wall(room, side, lengths, lengths.going, -lengths.width);
    if (!area) return;
    draw_stair(ink, paper, *area, lengths.tread);
    signs_.stairs.push_back(*area);
  }

  void opening(Ink& ink, const Paper& paper, const Box& room, char side, const Lengths& lengths,
               const ElementView& element, const std::vector<Box>& beyond) {
    const auto stretch = along_wall(room, side, lengths, lengths.width, 0);
    if (!stretch) return;
    const auto gap = along_wall(room, side, lengths, lengths.width, thickness(room, side, *stretch, beyond));
    const bool window = element.of_class == "window";
    const bool blocked = !window && !teller_.said_to(element.record.info.id, "fills").empty();
    draw_opening(ink, paper, *gap, window, blocked);
    (window ? signs_.window : blocked ? signs_.blocked : signs_.door) = true;
  }

  Lengths lengths_of(const Uuid& thing, std::vector<Statement>& measured) {
    Lengths lengths;
    for (const Statement& one : teller_.said(thing, "dimension")) {
      const auto metres = metres_in(one.content.value);
      const std::string_view of = one.content.qualifier("of");
      constexpr std::string_view kFrom = "from the ";
      double* slot = of == "width"   ? &lengths.width
                     : of == "going" ? &lengths.going
                     : of == "tread" ? &lengths.tread
                                     : nullptr;
      if (of.starts_with(kFrom) && of.ends_with(" end of the wall")) {
        lengths.end = side_in(of.substr(kFrom.size())).value_or('\0');
        slot = &lengths.away;
      }
      if (slot == nullptr || !metres) continue;
      *slot = *metres;
      measured.push_back(one);
    }
    return lengths;
  }

  Teller& teller_;
  std::vector<Statement>& said_;
  Signs signs_;
};

}  // namespace

/// The storey with all its rooms numbered; one of them toned when it is given.
std::optional<Figure> Builder::key_plan(const Uuid& storey, const std::optional<Uuid>& room) {
  std::vector<Outline> rooms, spaces;
  std::vector<Statement> said;
  for (const Uuid& id : material_.archive.places_within(storey)) {
    const PlaceView place(teller_.view(id));
    const auto info = teller_.record(id);
    if (!info || place.footprint.size() < 3 || (place.type != "room" && place.type != "void")) continue;
    const auto points = outline_now(place);
    (place.type == "room" ? rooms : spaces)
        .push_back({id, foreign(info->code), foreign(info->name), points, box_round(points), room == id});
    for (const Statement& footprint : teller_.said(id, "footprint")) said.push_back(footprint);
  }
  if (rooms.empty()) return std::nullopt;
  std::vector<Outline> all = rooms;
  all.insert(all.end(), spaces.begin(), spaces.end());
  std::vector<Box> beyond;
  for (const Outline& one : all) beyond.push_back(one.box);
  // The walls are what the building's own outline leaves between the rooms.
  std::vector<Point> walls;
  if (const auto building = teller_.view(storey).record("within"); building && teller_.record(*building)) {
    walls = outline_now(PlaceView(teller_.view(*building)));
    if (walls.size() > 2) {
      all.push_back({*building, {}, {}, walls, box_round(walls), false});
      beyond.push_back(all.back().box);
    }
  }
  const Paper paper(round_all(all));
  const std::string title = capital(without_marks(phrase("plan.title", {{"storey", teller_.label(storey)}})));
  const std::string words = phrase("plan.words", {{"n", static_cast<std::int64_t>(rooms.size())}});
  Ink ink(kSide, title, words);
  if (walls.size() > 2) ink.outline(paper.corners(walls), kWall, 2);
  for (const Outline& one : spaces) ink.outline(paper.corners(one.points), kVoid, 2);
  for (const Outline& one : rooms)
    ink.outline(paper.corners(one.points), one.here ? "#d0d2d4" : "#ffffff", 2);
  Surveyed surveyed(teller_, said);
  Signs signs = surveyed.draw(ink, paper, rooms, beyond);
  signs.space = !spaces.empty();
  Margin margin{ink};
  for (const Outline& one : rooms) {
    const auto [x, y] = place_of_number(one.box, signs.stairs);
    ink.words(paper.x(x), paper.y(y) + 13, 38, one.code, "middle", true);
    margin.name(one.code, one.name, one.here);
  }
  margin.at += 24;
  if (signs.window) margin.sign("#ffffff", phrase("plan.window"), true, "");
  if (signs.door) margin.sign("#ffffff", phrase("plan.door"), false, "");
  if (signs.blocked) margin.sign(Ink::hatch(Level::certain), phrase("plan.blocked"), false, kWall);
  if (signs.space) margin.sign(kVoid, phrase("plan.space"), false, kWall);
  const auto turned = surveyed.north(storey);
  const double foot = std::max(margin.at + (turned ? 260 : 60), paper.tall);
  if (turned) north_arrow(ink, kList + 60, foot - 150, *turned);
  scale_bar(ink, kList + 10, foot - 60, paper.scale, 5);
  Figure made = sheet(title, words, ink, foot + 4);
  made.caption = paragraph({sentence("plan.caption",
                                     {{"storey", teller_.label(storey)},
                                      {"north", std::string(turned ? "yes" : "no")},
                                      {"stair", std::string(!signs.stairs.empty() ? "yes" : "no")}},
                                     teller_.notes().cite_together(said))});
  return made;
}

/// The ground that the building stands on, with what else stands there.
std::optional<Figure> Builder::site_plan(const Uuid& building) {
  const auto site = teller_.view(building).record("within");
  if (!site || !teller_.record(*site)) return std::nullopt;
  std::vector<Outline> all;
  std::vector<Statement> said;
  const auto take = [&](const Uuid& id) {
    const PlaceView place(teller_.view(id));
    const auto info = teller_.record(id);
    if (!info || place.footprint.size() < 3) return false;
    const auto points = outline_now(place);
    all.push_back({id, foreign(info->code), foreign(info->name), points, box_round(points), id == building});
    for (const Statement& footprint : teller_.said(id, "footprint")) said.push_back(footprint);
    return true;
  };
  if (!take(*site)) return std::nullopt;
  for (const Uuid& id : material_.archive.places_within(*site))
    if (id != *site && teller_.view(id).record("within") == site) take(id);
  const Paper paper(round_all(all));
  const std::string title =
      capital(without_marks(phrase("plan.site-title", {{"site", teller_.label(*site)}})));
  const std::string words = phrase("plan.site-words", {{"n", static_cast<std::int64_t>(all.size() - 1)}});
  Ink ink(kSide, title, words);
  Margin margin{ink};
  for (std::size_t at = 0; at < all.size(); ++at) {
    const Outline& one = all[at];
    const bool built = teller_.view(one.id).text("place-type") == "building";
    ink.outline(paper.corners(one.points),
                one.here ? "#70757a"
                : built  ? "#d0d2d4"
                         : "#ffffff",
                at == 0 ? 6 : 3);
    if (at == 0) continue;
    const double x = paper.x((one.box.left + one.box.right) / 2);
    const double y = paper.y((one.box.low + one.box.high) / 2);
    ink.circle(x, y, 22, "#ffffff");
    ink.words(x, y + 11, 30, std::to_string(at), "middle", true);
    margin.name(std::to_string(at), one.name + " (" + one.code + ")", one.here);
  }
  Surveyed surveyed(teller_, said);
  const auto turned = surveyed.north(building);
  const double foot = std::max(margin.at + (turned ? 260 : 60), paper.tall);
  if (turned) north_arrow(ink, kList + 60, foot - 150, *turned);
  scale_bar(ink, kList + 10, foot - 60, paper.scale, 10);
  Figure made = sheet(title, words, ink, foot + 4);
  made.caption = paragraph({sentence(
      "plan.site-caption", {{"site", teller_.label(*site)}, {"north", std::string(turned ? "yes" : "no")}},
      teller_.notes().cite_together(said))});
  return made;
}

void Builder::add_key_plans() {
  if (auto plan = site_plan(material_.timeline.scope.id)) add(std::move(*plan));
  std::vector<std::pair<int, Uuid>> storeys;
  for (const Uuid& id : material_.archive.places_within(material_.timeline.scope.id))
    if (const PlaceView place(teller_.view(id)); place.type == "storey")
      storeys.emplace_back(place.storey_number.value_or(0), id);
  std::sort(storeys.begin(), storeys.end());
  for (const auto& [number, id] : storeys)
    if (auto plan = key_plan(id, std::nullopt)) add(std::move(*plan));
}

}  // namespace lathbook::report
