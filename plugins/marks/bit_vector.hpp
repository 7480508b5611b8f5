// How many letters are wrong at least, counted for all positions of a reading at once.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "plugins/marks/query.hpp"

namespace lathbook::marks {

/// The least number of letters to change, add or drop, where letters of one class are alike, lost and
/// uncertain ones fit any, and a gap of unknown length at either end takes any number. Source: G. Myers, 'A
/// fast bit-vector algorithm for approximate string matching based on dynamic programming', Journal of the
/// ACM 46, 1999, 395-415, with a bit in every letter's mask for the positions that fit any.
class ErrorCounter {
public:
  explicit ErrorCounter(const Query& query);
  /// False when the reading has more than 64 positions, optional ones, or a gap in the middle.
  bool usable() const { return usable_; }
  std::size_t errors(std::string_view reference) const;

private:
  bool usable_ = true;
  bool open_front_ = false;
  bool open_back_ = false;
  std::size_t length_ = 0;
  std::array<std::uint64_t, kCodes> masks_{};
};

}  // namespace lathbook::marks
