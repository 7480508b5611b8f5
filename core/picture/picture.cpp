// The only source that knows Exiv2.
#include "core/picture/picture.hpp"

#include <array>
#include <exiv2/exiv2.hpp>
#include <utility>

namespace lathbook {

namespace {

constexpr std::size_t kMostBytes = std::size_t{256} << 20U;

/// Formats that browsers show in a page.
constexpr std::array<std::pair<std::string_view, std::string_view>, 5> kShown{{{"image/jpeg", "jpg"},
                                                                               {"image/png", "png"},
                                                                               {"image/gif", "gif"},
                                                                               {"image/webp", "webp"},
                                                                               {"image/x-ms-bmp", "bmp"}}};

/// Orientations 5 to 8 lie on their side (CIPA DC-008, Exif 2.32, tag 274); viewers turn them upright.
bool lies_on_its_side(const Exiv2::ExifData& exif) {
  const auto found = exif.findKey(Exiv2::ExifKey("Exif.Image.Orientation"));
  if (found == exif.end() || found->count() == 0) return false;
  const auto turn = found->toLong();
  return turn >= 5 && turn <= 8;
}

std::optional<Picture> look_at_pixels(const std::string& bytes) {
  const auto image = Exiv2::ImageFactory::open(reinterpret_cast<const Exiv2::byte*>(bytes.data()),
                                               static_cast<long>(bytes.size()));
  if (image.get() == nullptr) return std::nullopt;
  image->readMetadata();
  for (const auto& [type, ending] : kShown) {
    if (image->mimeType() != type) continue;
    Picture picture{std::string(type == "image/x-ms-bmp" ? "image/bmp" : type), std::string(ending),
                    image->pixelWidth(), image->pixelHeight()};
    if (picture.width <= 0 || picture.height <= 0) return std::nullopt;
    if (lies_on_its_side(image->exifData())) std::swap(picture.width, picture.height);
    return picture;
  }
  return std::nullopt;
}

}  // namespace

std::optional<Picture> look_at(const std::string& bytes) {
  // Exiv2 tells of odd metadata on the error stream; the picture is shown all the same.
  Exiv2::LogMsg::setLevel(Exiv2::LogMsg::mute);
  try {
    if (auto picture = look_at_pixels(bytes)) return picture;
  } catch (const Exiv2::AnyError&) {
    // Not a format of its kind, or cut short.
  }
  return look_at_svg(bytes);
}

std::optional<std::string> read_all(std::istream& in) {
  std::string bytes;
  std::string piece(std::size_t{1} << 16U, '\0');
  while (in.read(piece.data(), static_cast<std::streamsize>(piece.size())), in.gcount() > 0) {
    bytes.append(piece, 0, static_cast<std::size_t>(in.gcount()));
    if (bytes.size() > kMostBytes) return std::nullopt;
  }
  return bytes;
}

}  // namespace lathbook
