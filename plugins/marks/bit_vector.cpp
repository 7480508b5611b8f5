#include "plugins/marks/bit_vector.hpp"

#include <algorithm>

namespace lathbook::marks {

ErrorCounter::ErrorCounter(const Query& query) {
  const auto& all = query.positions;
  std::size_t first = 0;
  std::size_t last = all.size();
  open_front_ = last > 0 && all.front().kind == PositionKind::loop;
  if (open_front_) ++first;
  open_back_ = last > first && all[last - 1].kind == PositionKind::loop;
  if (open_back_) --last;
  length_ = last - first;
  usable_ = length_ > 0 && length_ <= 64;
  for (std::size_t i = first; i < last && usable_; ++i) {
    const std::uint64_t bit = std::uint64_t{1} << (i - first);
    const Position& position = all[i];
    if (position.kind == PositionKind::loop || position.kind == PositionKind::optional) usable_ = false;
    for (std::size_t code = 0; code < kCodes; ++code) {
      const bool fits = position.kind != PositionKind::letter ||
                        class_of(static_cast<Code>(code)) == class_of(position.code);
      if (fits) masks_[code] |= bit;
    }
  }
}

std::size_t ErrorCounter::errors(std::string_view reference) const {
  std::uint64_t plus = ~std::uint64_t{0};
  std::uint64_t minus = 0;
  std::size_t score = length_;
  std::size_t least = score;
  const std::uint64_t last = std::uint64_t{1} << (length_ - 1);
  const std::uint64_t edge = open_front_ ? 0 : 1;
  for (const char c : reference) {
    const std::uint64_t equal = masks_[static_cast<Code>(c)];
    const std::uint64_t vertical = equal | minus;
    const std::uint64_t horizontal = (((equal & plus) + plus) ^ plus) | equal;
    std::uint64_t up = minus | ~(horizontal | plus);
    std::uint64_t down = plus & horizontal;
    if ((up & last) != 0) ++score;
    if ((down & last) != 0) --score;
    up = (up << 1U) | edge;
    down <<= 1U;
    plus = down | ~(vertical | up);
    minus = up & vertical;
    least = std::min(least, score);
  }
  return open_back_ ? least : score;
}

}  // namespace lathbook::marks
