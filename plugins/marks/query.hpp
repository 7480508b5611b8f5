// What a transcription asks of a reference mark, position by position.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "core/base/transcription.hpp"
#include "plugins/marks/spelling.hpp"

namespace lathbook::marks {

/// Costs are -log of probabilities. Our own figures: a letter read right 0.05; taken for one of its
/// class 1.6; for any other 5; a letter too many or too few 4; one lost 0.3; an uncertain one 0.25, or 0.3
/// and four tenths of the plain cost when wrong; letters in a gap of unknown length 0.15 each; reading
/// backwards 2.5.
struct Costs {
  static constexpr float same = 0.05F;
  static constexpr float confused = 1.6F;
  static constexpr float other = 5.0F;
  static constexpr float missing = 4.0F;
  static constexpr float lost = 0.3F;
  static constexpr float uncertain = 0.25F;
  static constexpr float doubt_share = 0.4F;
  static constexpr float doubt = 0.3F;
  static constexpr float gap_letter = 0.15F;
  static constexpr float backwards = 2.5F;
  static constexpr float line_left_out = 0.8F;   ///< a line of the reference that the thing does not bear
  static constexpr float line_unmatched = 0.8F;  ///< a line of the reading that the reference does not bear
  static constexpr float line_clash = 4.0F;      ///< both at once
};

enum class PositionKind : std::uint8_t {
  letter,
  uncertain,
  any,       ///< one letter that is gone
  optional,  ///< one letter that is gone, or none
  loop       ///< any number of letters
};

struct Position {
  PositionKind kind = PositionKind::letter;
  Code code = 0;            ///< of letter and uncertain
  std::uint32_t token = 0;  ///< index into Transcription::tokens
};

/// The compared part of a reading: positions of some of its lines.
struct Query {
  std::vector<Position> positions;
  std::size_t lines = 1;  ///< of the reading, in this part
  float surcharge = 0;    ///< for lines left out, for reading backwards
  bool backwards = false;
  std::size_t definite() const;  ///< letters read for certain
  bool has_loop() const;
  std::size_t least() const;  ///< letters a reference has at least, when nothing is misread
  std::size_t most() const;   ///< at most; meaningless with a loop
};

/// The lines of a reading as positions; tokens marked in `spoken_for` (part of a dated code) are passed over,
/// and lines without any letter dropped. At most 400 positions: later ones are cut off.
std::vector<std::vector<Position>> positions_by_line(const Transcription& transcription,
                                                     const std::vector<bool>& spoken_for);
/// Lines first..last (not included) joined.
Query join_lines(const std::vector<std::vector<Position>>& lines, std::size_t first, std::size_t last);
Query turned_round(const Query& query);

/// What each code costs at a position.
using CostRow = std::array<float, kCodes>;
std::vector<CostRow> cost_rows(const Query& query);

}  // namespace lathbook::marks
