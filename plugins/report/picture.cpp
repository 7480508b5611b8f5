// Measures a picture and rings spots on it. A ringed picture is an SVG drawing that holds the picture whole,
// so that both forms of the report show the same.
#include "plugins/report/picture.hpp"

#include <algorithm>
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

struct Ring {
  double x, y, across, down;  ///< middle and half axes, in pixels of the picture
};

/// Writes rings in millimetres as printed, whatever the pixels of the picture: black on a white edge, so
/// that they are seen on dark and light ground alike.
class Rings {
public:
  Rings(XmlWriter& out, double unit) : out_(out), unit_(unit) {}

  void ring(const Ring& ring) {
    for (const auto& [ink, wide] : {std::pair{kPaper, 1.3}, std::pair{kInk, 0.55}}) {
      out_.start("ellipse").attribute("cx", number(ring.x)).attribute("cy", number(ring.y));
      out_.attribute("rx", number(ring.across)).attribute("ry", number(ring.down));
      out_.attribute("fill", "none").attribute("stroke", ink);
      out_.attribute("stroke-width", number(wide * unit_)).end();
    }
  }
  void label(const Ring& ring, std::size_t name, double width, double height) {
    const double radius = 2.5 * unit_;
    const double x = std::clamp(ring.x + ring.across * 0.71 + radius * 0.6, radius, width - radius);
    const double y = std::clamp(ring.y - ring.down * 0.71 - radius * 0.6, radius, height - radius);
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
  double unit_;
};

std::string ringed(const Picture& seen, const std::string& bytes, const std::vector<Region>& regions,
                   double unit) {
  std::ostringstream stream;
  XmlWriter out(stream, XmlWriter::Layout::compact);
  const std::string wide = std::to_string(seen.width);
  const std::string high = std::to_string(seen.height);
  out.start("svg").attribute("xmlns", "http://www.w3.org/2000/svg");
  out.attribute("xmlns:xlink", "http://www.w3.org/1999/xlink");
  out.attribute("width", wide).attribute("height", high).attribute("viewBox", "0 0 " + wide + " " + high);
  out.start("image")
      .attribute("x", "0")
      .attribute("y", "0")
      .attribute("width", wide)
      .attribute("height", high);
  out.attribute("xlink:href", "data:" + seen.media_type + ";base64," + to_base64(bytes)).end();
  Rings rings(out, unit);
  std::vector<Ring> drawn;
  for (const Region& region : regions) {
    // An ellipse through the corners of a rectangle is 1.41 times as wide; a small spot still gets a ring
    // that is seen.
    const double least = 2.2 * unit;
    drawn.push_back({region.x + region.width / 2.0, region.y + region.height / 2.0,
                     std::max(region.width * 0.62, least), std::max(region.height * 0.62, least)});
    rings.ring(drawn.back());
  }
  for (std::size_t at = 0; at < drawn.size(); ++at) rings.label(drawn[at], at + 1, seen.width, seen.height);
  out.end();
  out.finish();
  return stream.str();
}

}  // namespace

std::optional<Figure> picture(std::string bytes, const std::vector<std::string>& regions) {
  const auto seen = look_at(bytes);
  if (!seen) return std::nullopt;
  Figure figure;
  const double scale = std::min(kWidest / seen->width, kHighest / seen->height);
  figure.width = seen->width * scale;
  figure.height = seen->height * scale;
  std::vector<Region> inside;
  for (const std::string& words : regions) {
    const auto region = read_region(words, seen->width, seen->height);
    // A ring round most of the picture tells nothing.
    if (!region || region->width * kMost * region->height > seen->width * 1.0 * seen->height) continue;
    inside.push_back(*region);
    figure.rings.push_back(region_in(words));
  }
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
