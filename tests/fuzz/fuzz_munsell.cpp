// Feeds any bytes to the Munsell reader; what it accepts must be in range and read the same again, a fault
// has a place.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "core/base/munsell.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto reading = lathbook::read_munsell(text);
  if (!reading.good()) {
    if (reading.at == 0 || reading.at > size + 1) std::abort();
    return 0;
  }
  const lathbook::Munsell& colour = reading.colour;
  if (!(colour.hue >= 0 && colour.hue < 100)) std::abort();
  if (!(colour.value >= 0 && colour.value <= 10 && colour.chroma >= 0 && colour.chroma <= 50)) std::abort();
  const auto again = lathbook::read_munsell(colour.text());
  if (!again.good()) std::abort();
  // Four decimals are written.
  if (std::abs(again.colour.value - colour.value) > 1e-4) std::abort();
  if (std::abs(again.colour.chroma - colour.chroma) > 1e-4) std::abort();
  return 0;
}
