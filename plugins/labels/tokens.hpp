// A label cut into words: what stands there, letter for letter, with what is lost kept as lost.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace lathbook::labels {

/// More words than this are no destination label; they are not read as one.
inline constexpr std::size_t kMostWords = 32;
/// Longer texts are refused: a label is short, and what is this long is something else.
inline constexpr std::size_t kMostBytes = 4096;

struct LabelToken {
  std::string written;    ///< as it stands in the raw text
  std::string key;        ///< folded letters and digits; '?' one letter lost, '*' some letters lost
  bool point = false;     ///< ends in a point, or the reader wrote the abbreviation out: cut short
  bool initials = false;  ///< single letters with points between: N.E.
  bool damaged = false;   ///< has lost, illegible or uncertain letters
  bool line_start = false;
  std::string signs;  ///< strokes and ticks beside it, as they stand (tags of assembly numerals)
};

struct LabelText {
  std::string shown;  ///< in the published signs, safe to print
  std::vector<LabelToken> tokens;
  bool too_long = false;  ///< more than kMostWords words; `tokens` holds the first of them
};

/// Reads a transcription (core/base/transcription.hpp) into words. A slash with letters on both sides is
/// 'or', one after o, ov, u or und is part of 'over' and 'under', any other ends a line. Restored letters
/// count as lost, expanded ones as not there. Throws Error(invalid) for what is no transcription or is longer
/// than kMostBytes.
LabelText tokens_of(std::string_view text);

}  // namespace lathbook::labels
