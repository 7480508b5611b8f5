// Reads regions.
#include "core/picture/region.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace lathbook {

namespace {

constexpr std::string_view kName = "xywh=";

bool take(std::string_view& text, std::string_view word) {
  if (text.substr(0, word.size()) != word) return false;
  text.remove_prefix(word.size());
  return true;
}

/// Four numbers with commas between them; fractions only where `fractions`.
bool take_four(std::string_view text, bool fractions, std::array<double, 4>& numbers) {
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    if (i != 0 && !take(text, ",")) return false;
    const auto end = text.find_first_not_of(fractions ? "0123456789." : "0123456789");
    const std::string_view number = text.substr(0, end);
    const auto [stop, error] =
        std::from_chars(number.data(), number.data() + number.size(), numbers[i], std::chars_format::fixed);
    if (error != std::errc()) return false;
    // The full stop that ends a sentence belongs to it, not to the last number.
    text.remove_prefix(static_cast<std::size_t>(stop - number.data()));
  }
  return true;
}

}  // namespace

std::string Region::text() const {
  return std::string(kName) + std::to_string(x) + "," + std::to_string(y) + "," + std::to_string(width) +
         "," + std::to_string(height);
}

bool names_region(std::string_view words) {
  return words.find(kName) != std::string_view::npos;
}

std::optional<Region> read_region(std::string_view words, int canvas_width, int canvas_height) {
  const auto at = words.find(kName);
  if (at == std::string_view::npos) return std::nullopt;
  std::string_view rest = words.substr(at + kName.size());
  const bool percent = take(rest, "percent:");
  if (!percent) take(rest, "pixel:");
  std::array<double, 4> numbers{};
  if (!take_four(rest, percent, numbers)) return std::nullopt;
  const double across = percent ? canvas_width / 100.0 : 1;
  const double down = percent ? canvas_height / 100.0 : 1;
  const double left = numbers[0] * across;
  const double top = numbers[1] * down;
  const double right = std::min(left + numbers[2] * across, static_cast<double>(canvas_width));
  const double bottom = std::min(top + numbers[3] * down, static_cast<double>(canvas_height));
  const auto x = static_cast<int>(std::floor(std::min(left, static_cast<double>(canvas_width))));
  const auto y = static_cast<int>(std::floor(std::min(top, static_cast<double>(canvas_height))));
  const Region region{x, y, static_cast<int>(std::ceil(right)) - x, static_cast<int>(std::ceil(bottom)) - y};
  if (numbers[2] <= 0 || numbers[3] <= 0 || region.width < 1 || region.height < 1) return std::nullopt;
  return region;
}

}  // namespace lathbook
