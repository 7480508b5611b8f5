// Key plans: where each room lies on its storey, from the recorded outlines.
#include <algorithm>
#include <limits>
#include <map>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "plugins/report/build.hpp"
#include "plugins/report/ink.hpp"

namespace lathbook::report {

namespace {

constexpr double kSide = 1700;  ///< width of the figure, in tenths of a millimetre
constexpr double kPlan = 1100;  ///< of the plan in it, at most
constexpr double kHigh = 900;
constexpr double kMargin = 30;

struct Outline {
  std::string code, name;
  std::vector<Point> points;
  bool here = false;
};

Point middle_of(const std::vector<Point>& points) {
  Point sum;
  for (const Point& point : points) {
    sum.x += point.x / static_cast<double>(points.size());
    sum.y += point.y / static_cast<double>(points.size());
  }
  return sum;
}

}  // namespace

/// The storey with all its rooms numbered; one of them hatched when it is given.
std::optional<Figure> Builder::key_plan(const Uuid& storey, const std::optional<Uuid>& room) {
  std::vector<Outline> outlines;
  std::vector<Statement> said;
  for (const Uuid& id : material_.archive.places_within(storey)) {
    const PlaceView place(teller_.view(id));
    const auto info = teller_.record(id);
    if (!info || place.type != "room" || place.footprint.size() < 3) continue;
    // The outline that holds now, where one is said to have held until some day only.
    const auto now = std::find_if(place.outlines.begin(), place.outlines.end(),
                                  [](const OutlineView& one) { return one.to.empty(); });
    outlines.push_back({foreign(info->code), foreign(info->name),
                        now == place.outlines.end() ? place.footprint : now->points, room == id});
    for (const Statement& footprint : teller_.said(id, "footprint")) said.push_back(footprint);
  }
  if (outlines.empty()) return std::nullopt;
  Point low{std::numeric_limits<double>::max(), std::numeric_limits<double>::max()};
  Point high{std::numeric_limits<double>::lowest(), std::numeric_limits<double>::lowest()};
  for (const Outline& one : outlines)
    for (const Point& point : one.points) {
      low = {std::min(low.x, point.x), std::min(low.y, point.y)};
      high = {std::max(high.x, point.x), std::max(high.y, point.y)};
    }
  const double scale = std::min((kPlan - 2 * kMargin) / std::max(high.x - low.x, 0.1),
                                (kHigh - 2 * kMargin) / std::max(high.y - low.y, 0.1));
  const double tall = (high.y - low.y) * scale + 2 * kMargin;
  const auto x = [&](double metres) { return kMargin + (metres - low.x) * scale; };
  const auto y = [&](double metres) { return tall - kMargin - (metres - low.y) * scale; };
  const std::string title = without_marks(phrase("plan.title", {{"storey", teller_.label(storey)}}));
  const std::string words = phrase("plan.words", {{"n", static_cast<std::int64_t>(outlines.size())}});
  Ink ink(kSide, capital(title), words);
  double line_at = kMargin + 20;
  for (const Outline& one : outlines) {
    std::vector<std::pair<double, double>> corners;
    for (const Point& point : one.points) corners.emplace_back(x(point.x), y(point.y));
    ink.outline(corners, one.here ? "#d9dbdd" : "#ffffff", 6);
    const Point middle = middle_of(one.points);
    ink.words(x(middle.x), y(middle.y) + 12, 36, one.code, "middle", true);
    ink.words(kPlan + 60, line_at, 30, one.code + " " + one.name, "start", one.here);
    line_at += 44;
  }
  // Five metres, and the way the building's own north lies.
  const double bar = std::max(line_at + 40, tall - kMargin);
  ink.bar(kPlan + 60, kPlan + 60 + 5 * scale, bar - 18, 16, Ink::solid(Level::certain), false, false);
  ink.words(kPlan + 60, bar + 28, 26, phrase("plan.scale"));
  Figure made;
  made.title = capital(title);
  made.description = words;
  made.media_type = "image/svg+xml";
  const double height = std::max(tall, bar + 50);
  made.bytes = ink.svg(height);
  made.width = kSide / 10;
  made.height = height / 10;
  made.caption = paragraph(
      {sentence("plan.caption", {{"storey", teller_.label(storey)}}, teller_.notes().cite_together(said))});
  return made;
}

void Builder::add_key_plans() {
  std::vector<std::pair<int, Uuid>> storeys;
  for (const Uuid& id : material_.archive.places_within(material_.timeline.scope.id))
    if (const PlaceView place(teller_.view(id)); place.type == "storey")
      storeys.emplace_back(place.storey_number.value_or(0), id);
  std::sort(storeys.begin(), storeys.end());
  for (const auto& [number, id] : storeys)
    if (auto plan = key_plan(id, std::nullopt)) add(std::move(*plan));
}

}  // namespace lathbook::report
