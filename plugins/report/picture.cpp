// Reads the size of a picture from its first bytes: PNG (ISO/IEC 15948, IHDR), JPEG (ITU-T T.81, frame
// headers), SVG (its view box or size).
#include "plugins/report/picture.hpp"

#include <algorithm>

#include "core/base/number.hpp"
#include "core/base/text.hpp"

namespace lathbook::report {

namespace {

struct Size {
  double width = 0, height = 0;
};

unsigned byte(const std::string& bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}

std::optional<Size> png(const std::string& bytes) {
  if (bytes.size() < 24 || !bytes.starts_with("\x89PNG\r\n\x1a\n")) return std::nullopt;
  const auto number = [&](std::size_t at) {
    return static_cast<double>(byte(bytes, at) << 24 | byte(bytes, at + 1) << 16 | byte(bytes, at + 2) << 8 |
                               byte(bytes, at + 3));
  };
  return Size{number(16), number(20)};
}

std::optional<Size> jpeg(const std::string& bytes) {
  if (!bytes.starts_with("\xff\xd8")) return std::nullopt;
  for (std::size_t at = 2; at + 9 < bytes.size();) {
    if (byte(bytes, at) != 0xff) return std::nullopt;
    const unsigned marker = byte(bytes, at + 1);
    const bool frame = marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc;
    if (frame)
      return Size{static_cast<double>(byte(bytes, at + 7) << 8 | byte(bytes, at + 8)),
                  static_cast<double>(byte(bytes, at + 5) << 8 | byte(bytes, at + 6))};
    at += marker == 0xff ? 1 : 2 + (byte(bytes, at + 2) << 8 | byte(bytes, at + 3));
  }
  return std::nullopt;
}

std::optional<std::string> attribute(const std::string& tag, const std::string& name) {
  const auto at = tag.find(" " + name + "=");
  if (at == std::string::npos || at + name.size() + 2 >= tag.size()) return std::nullopt;
  const char quote = tag[at + name.size() + 2];
  const auto from = at + name.size() + 3;
  const auto end = tag.find(quote, from);
  return end == std::string::npos ? std::nullopt : std::optional(tag.substr(from, end - from));
}

std::optional<Size> svg(const std::string& bytes) {
  const auto at = bytes.substr(0, 4096).find("<svg");
  if (at == std::string::npos) return std::nullopt;
  std::string tag = bytes.substr(at, bytes.find('>', at) - at);
  std::replace(tag.begin(), tag.end(), '\n', ' ');
  if (const auto box = attribute(tag, "viewBox")) {
    const auto parts = split(*box, ' ');
    const auto wide = parts.size() == 4 ? number_in<double>(parts[2]) : std::nullopt;
    const auto high = parts.size() == 4 ? number_in<double>(parts[3]) : std::nullopt;
    if (wide && high) return Size{*wide, *high};
  }
  const auto wide = number_in<double>(attribute(tag, "width").value_or(""));
  const auto high = number_in<double>(attribute(tag, "height").value_or(""));
  return wide && high ? std::optional(Size{*wide, *high}) : std::nullopt;
}

}  // namespace

std::optional<Figure> picture(std::string bytes) {
  Figure figure;
  std::optional<Size> size = png(bytes);
  figure.media_type = "image/png";
  if (!size && (size = jpeg(bytes))) figure.media_type = "image/jpeg";
  if (!size && (size = svg(bytes))) figure.media_type = "image/svg+xml";
  if (!size || size->width < 1 || size->height < 1) return std::nullopt;
  const double scale = std::min(150 / size->width, 110 / size->height);
  figure.width = size->width * scale;
  figure.height = size->height * scale;
  figure.bytes = std::move(bytes);
  return figure;
}

}  // namespace lathbook::report
