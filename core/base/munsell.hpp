// The Munsell notation of a colour: read, checked and written, with the place of any fault.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

/// A colour by hue, value and chroma (ASTM D1535, section 'Munsell notation').
struct LATHBOOK_API Munsell {
  double hue = 0;     ///< 0 to under 100 round the circle: 10R = 10, 10YR = 20 ... 10RP = 0; 0 for a neutral
  double value = 0;   ///< 0 black to 10 white
  double chroma = 0;  ///< 0 neutral, to 50
  bool neutral() const { return chroma == 0; }
  bool operator==(const Munsell&) const = default;
  /// "10YR 7/4", "N 8/": the shortest form with up to four decimals.
  std::string text() const;
};

/// What a notation was read as, or why not.
struct MunsellReading {
  Munsell colour;      ///< meaningful only without a fault
  std::string fault;   ///< empty when it was read; else what is wrong, without a full stop
  std::size_t at = 0;  ///< number of the character, from 1, where it went wrong
  bool good() const { return fault.empty(); }
};

/// Reads "10YR 7/4", "2.5Y8.5/2", "N 9.5/" and "N9": hue number 0 to 10 with its letters, value 0 to 10,
/// chroma 0 to 50, decimals anywhere, one space at most. Anything else is a fault; texts over 64 bytes are
/// refused unread. Takes any bytes; never throws.
LATHBOOK_API MunsellReading read_munsell(std::string_view text);

}  // namespace lathbook
