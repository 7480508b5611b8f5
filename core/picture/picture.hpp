// What a file is and how large, looked at in its bytes and not in its name.
#pragma once

#include <istream>
#include <optional>
#include <string>
#include <string_view>

namespace lathbook {

struct Picture {
  std::string media_type;  ///< "image/jpeg"
  std::string ending;      ///< "jpg"
  int width = 0;           ///< pixels as shown: turned upright where the file says how it was held
  int height = 0;
};

/// Nothing for what is no picture that a browser shows, cannot be read, or does not tell its size.
std::optional<Picture> look_at(const std::string& bytes);

/// Width and height of an SVG drawing in user units; nothing when it is none or tells no size.
std::optional<Picture> look_at_svg(std::string_view bytes);

/// The whole file; nothing when it is larger than 256 MiB.
std::optional<std::string> read_all(std::istream& in);

}  // namespace lathbook
