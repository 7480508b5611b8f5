// Feeds any bytes to the reader of destination labels; what it accepts must give shares that add up and
// words.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "tests/labels/small_house.hpp"

namespace {

lathbook::test::SmallHouse& house() {
  static lathbook::test::SmallHouse built = [] {
    using lathbook::test::box;
    lathbook::test::SmallHouse made;
    made.room("G1", made.ground, {{"Dining Room"}}, box(0, 0, 5, 5));
    made.room("G2", made.ground, {{"Study", "1790", "1890"}, {"Library", "1890"}}, box(5, 0, 9, 5));
    made.room("U1", made.upper, {{"Chart Room"}}, box(0, 0, 5, 5));
    made.room("U2", made.upper, {{"North Chamber"}}, box(5, 0, 9, 5));
    return made;
  }();
  return built;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  if (text.empty()) return 0;
  try {
    const auto reading = house().read(text);
    double shares = reading.none_share;
    for (const auto& candidate : reading.candidates) {
      if (!(candidate.share >= 0) || candidate.factors.empty()) std::abort();
      shares += candidate.share;
    }
    if (reading.words.empty() || !(shares <= 1.0001)) std::abort();
    if (lathbook::first_invalid_utf8(reading.words)) std::abort();
  } catch (const lathbook::Error&) {
  }
  return 0;
}
