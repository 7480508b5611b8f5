// Whole numbers by chance, the same on every machine.
#pragma once

#include <cstdint>
#include <random>

namespace lathbook::chances {

/// The 64-bit Mersenne twister, whose numbers the C++ standard fixes; its distributions it does not fix.
class Dice {
public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}

  /// 0 to count - 1, each as likely (count > 0).
  std::uint64_t below(std::uint64_t count) {
    const std::uint64_t odd = (UINT64_MAX - count + 1) % count;  // so many too many at the bottom
    std::uint64_t drawn = engine_();
    while (drawn < odd) drawn = engine_();
    return drawn % count;
  }
  std::int64_t between(std::int64_t low, std::int64_t high) {
    return low + static_cast<std::int64_t>(below(static_cast<std::uint64_t>(high - low) + 1));
  }
  /// At least 0, below 1.
  double part() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }

private:
  std::mt19937_64 engine_;
};

}  // namespace lathbook::chances
