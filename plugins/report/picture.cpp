// Measures a picture and rings spots on it. A ringed picture is an SVG drawing that holds the picture whole,
// so that both forms of the report show the same.
#include "plugins/report/picture.hpp"

#include <algorithm>
#include <array>
#include <sstream>

#include "core/base/base64.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/base/xml_writer.hpp"
#include "core/picture/picture.hpp"
#include "core/picture/region.hpp"

namespace lathbook::report {

namespace {

constexpr double kWidest = 150;  ///< millimetres as printed
constexpr double kHighest = 92;
constexpr double kMost = 2.5;  ///< a region is ringed when the picture is so many times as large
constexpr std::string_view kInk = "#16181a";
constexpr std::string_view kPaper = "#ffffff";

std::string number(double value) {
  return with_places(value, 2);
}

/// A frame round a region, in pixels of the picture, and where its number stands: beside the picture, on the
/// side that is nearest, so that neither hides what is in it.
struct Ring {
  double x, y, width, height;
  std::size_t side = 0;  ///< 0 left, 1 right, 2 top, 3 bottom
  double along = 0;      ///< where on that side
};

constexpr double kMargin = 7;  ///< millimetres beside the picture, on a side that has numbers
constexpr double kApart = 5.6;

std::size_t nearest_side(const Region& region, const Picture& seen) {
  const double x = region.x + region.width / 2.0, y = region.y + region.height / 2.0;
  // Below, where captions stand, only what is far from all other sides.
  const std::array<double, 4> far{x, seen.width - x, y, 2 * (seen.height - y)};
  return static_cast<std::size_t>(std::min_element(far.begin(), far.end()) - far.begin());
}

/// Numbers of one side are pushed apart, in the order in which they follow each other there.
void push_apart(std::vector<Ring>& rings, std::size_t side, double length, double apart) {
  std::vector<Ring*> here;
  for (Ring& ring : rings)
    if (ring.side == side) here.push_back(&ring);
  std::stable_sort(here.begin(), here.end(),
                   [](const Ring* a, const Ring* b) { return a->along < b->along; });
  double least = apart / 2;
  for (Ring* ring : here) {
    ring->along = std::max(ring->along, least);
    least = ring->along + apart;
  }
  double most = length - apart / 2;
  for (auto at = here.rbegin(); at != here.rend(); ++at) {
    (*at)->along = std::min((*at)->along, most);
    most = (*at)->along - apart;
  }
}

/// Draws in millimetres as printed, whatever the pixels of the picture: black on a white edge, so that it is
/// seen on dark and light ground alike.
class Rings {
public:
  Rings(XmlWriter& out, const Picture& seen, double unit) : out_(out), seen_(seen), unit_(unit) {}

  void draw(const Ring& ring, std::size_t name) {
    const double gap = kMargin / 2 * unit_, radius = 2.5 * unit_;
    const bool across = ring.side < 2;
    const double x = ring.side == 0 ? -gap : ring.side == 1 ? seen_.width + gap : ring.along;
    const double y = ring.side == 2 ? -gap : ring.side == 3 ? seen_.height + gap : ring.along;
    // The leader meets the frame in the middle of the side that faces the number.
    const double from_x = ring.side == 0   ? ring.x
                          : ring.side == 1 ? ring.x + ring.width
                                           : ring.x + ring.width / 2;
    const double from_y = ring.side == 2   ? ring.y
                          : ring.side == 3 ? ring.y + ring.height
                                           : ring.y + ring.height / 2;
    const double to_x = across ? x + (ring.side == 0 ? radius : -radius) : x;
    const double to_y = across ? y : y + (ring.side == 2 ? radius : -radius);
    for (const auto& [ink, wide] : {std::pair{kPaper, 1.1}, std::pair{kInk, 0.45}}) {
      out_.start("rect").attribute("x", number(ring.x)).attribute("y", number(ring.y));
      out_.attribute("width", number(ring.width)).attribute("height", number(ring.height));
      out_.attribute("rx", number(1.6 * unit_)).attribute("fill", "none").attribute("stroke", ink);
      out_.attribute("stroke-width", number(wide * unit_)).end();
      out_.start("line").attribute("x1", number(from_x)).attribute("y1", number(from_y));
      out_.attribute("x2", number(to_x)).attribute("y2", number(to_y)).attribute("stroke", ink);
      out_.attribute("stroke-width", number(wide * 0.7 * unit_)).end();
    }
    out_.start("circle").attribute("cx", number(x)).attribute("cy", number(y));
    out_.attribute("r", number(radius)).attribute("fill", kPaper).attribute("stroke", kInk);
    out_.attribute("stroke-width", number(0.4 * unit_)).end();
    out_.start("text").attribute("x", number(x)).attribute("y", number(y + 1.25 * unit_));
    out_.attribute("font-family", "DejaVu Sans, Noto Sans, sans-serif").attribute("font-weight", "bold");
    out_.attribute("font-size", number(3.4 * unit_)).attribute("text-anchor", "middle");
    out_.attribute("fill", kInk).text(std::to_string(name)).end();
  }

private:
  XmlWriter& out_;
  const Picture& seen_;
  double unit_;
};

/// The margins that a ringed picture has, left, right, top and bottom: 1 where some number stands.
std::array<int, 4> sides_used(const Picture& seen, const std::vector<Region>& regions) {
  std::array<int, 4> used{};
  for (const Region& region : regions) used[nearest_side(region, seen)] = 1;
  return used;
}

std::string ringed(const Picture& seen, const std::string& bytes, const std::vector<Region>& regions,
                   double unit) {
  std::ostringstream stream;
  XmlWriter out(stream, XmlWriter::Layout::compact);
  const double margin = kMargin * unit;
  const auto used = sides_used(seen, regions);
  const std::string wide = number(seen.width + (used[0] + used[1]) * margin);
  const std::string high = number(seen.height + (used[2] + used[3]) * margin);
  out.start("svg").attribute("xmlns", "http://www.w3.org/2000/svg");
  out.attribute("xmlns:xlink", "http://www.w3.org/1999/xlink");
  out.attribute("width", wide).attribute("height", high);
  out.attribute("viewBox",
                number(-used[0] * margin) + " " + number(-used[2] * margin) + " " + wide + " " + high);
  out.start("image").attribute("x", "0").attribute("y", "0");
  out.attribute("width", std::to_string(seen.width)).attribute("height", std::to_string(seen.height));
  out.attribute("xlink:href", "data:" + seen.media_type + ";base64," + to_base64(bytes)).end();
  Rings rings(out, seen, unit);
  std::vector<Ring> drawn;
  for (const Region& region : regions) {
    // A little outside the region, so that the frame crosses no lettering; a small spot still gets a frame
    // that is seen.
    const double width = std::max(region.width + 1.2 * unit, 4 * unit);
    const double height = std::max(region.height + 1.2 * unit, 4 * unit);
    const double x = region.x + region.width / 2.0, y = region.y + region.height / 2.0;
    const std::size_t side = nearest_side(region, seen);
    drawn.push_back({x - width / 2, y - height / 2, width, height, side, side < 2 ? y : x});
  }
  for (std::size_t side = 0; side < 4; ++side)
    push_apart(drawn, side, side < 2 ? seen.height : seen.width, kApart * unit);
  for (std::size_t at = 0; at < drawn.size(); ++at) rings.draw(drawn[at], at + 1);
  out.end();
  out.finish();
  return stream.str();
}

}  // namespace

std::optional<Figure> picture(std::string bytes, const std::vector<std::string>& regions) {
  const auto seen = look_at(bytes);
  if (!seen) return std::nullopt;
  Figure figure;
  std::vector<Region> inside;
  for (const std::string& words : regions) {
    const auto region = read_region(words, seen->width, seen->height);
    // A ring round most of the picture tells nothing.
    if (!region || region->width * kMost * region->height > seen->width * 1.0 * seen->height) continue;
    inside.push_back(*region);
    figure.rings.push_back(region_in(words));
  }
  const auto used = sides_used(*seen, inside);
  const double beside = kMargin * (used[0] + used[1]), above = kMargin * (used[2] + used[3]);
  const double scale = std::min((kWidest - beside) / seen->width, (kHighest - above) / seen->height);
  figure.width = seen->width * scale + beside;
  figure.height = seen->height * scale + above;
  figure.media_type = inside.empty() ? seen->media_type : "image/svg+xml";
  figure.bytes = inside.empty() ? std::move(bytes) : ringed(*seen, bytes, inside, 1 / scale);
  return figure;
}

std::string region_in(const std::string& words) {
  const auto at = words.find("xywh=");
  if (at == std::string::npos) return {};
  auto end = words.find_first_not_of("0123456789,.:percntixl", at + 5);
  std::string region = words.substr(at, end == std::string::npos ? end : end - at);
  while (region.ends_with('.') || region.ends_with(',')) region.pop_back();
  return region;
}

std::string without_region(const std::string& words) {
  const std::string region = region_in(words);
  if (region.empty()) return words;
  const auto at = words.find(region);
  std::string before(trim(std::string_view(words).substr(0, at)));
  std::string after(trim(std::string_view(words).substr(at + region.size())));
  while (before.ends_with(',') || before.ends_with(';')) before.pop_back();
  while (after.starts_with(',') || after.starts_with(';')) after.erase(0, 1);
  return before + (before.empty() || after.empty() ? "" : ", ") + std::string(trim(after));
}

}  // namespace lathbook::report
