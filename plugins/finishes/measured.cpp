#include "plugins/finishes/measured.hpp"

#include <array>
#include <charconv>
#include <cmath>

#include "core/base/text.hpp"

namespace lathbook::finishes {

std::optional<Lab> read_lab(std::string_view text) {
  if (text.size() > 80) return std::nullopt;
  std::string plain(text);
  for (char& c : plain)
    if (c == ',' || c == ';') c = ' ';
  constexpr std::array<std::string_view, 3> names{"L*", "a*", "b*"};
  std::array<double, 3> numbers{};
  std::size_t found = 0;
  for (const std::string& word : split(plain, ' ')) {
    if (word.empty() || (found < 3 && word == names[found])) continue;
    if (found == 3) return std::nullopt;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), numbers[found]);
    if (error != std::errc() || end != word.data() + word.size() || !std::isfinite(numbers[found]))
      return std::nullopt;
    ++found;
  }
  const Lab lab{numbers[0], numbers[1], numbers[2]};
  const bool fits =
      found == 3 && lab.l >= 0 && lab.l <= 100 && std::abs(lab.a) <= 128 && std::abs(lab.b) <= 128;
  return fits ? std::optional<Lab>(lab) : std::nullopt;
}

}  // namespace lathbook::finishes
