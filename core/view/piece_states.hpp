// Where a piece can be, and from where it can go: one state at any moment, ten in all.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

/// The words of the choice list 'piece-state'; `unknown` when nothing was said yet.
enum class PieceState : std::uint8_t {
  unknown,
  in_place,
  on_bench,
  in_container,
  away,
  sampled,
  reused,
  discarded,
  lost,
  missing_at_survey,
  unaccounted
};
inline constexpr std::size_t kPieceStates = 11;

LATHBOOK_API std::string_view word(PieceState state);
/// `unknown` for any other text.
LATHBOOK_API PieceState piece_state_from_word(std::string_view text);

/// It is in the house or in our hands, so that it can be laid again.
LATHBOOK_API bool is_held(PieceState state);

/// Why a piece cannot pass from one state to the other, as the rest of a sentence that begins with the
/// piece ("is in place already"); nothing when it can. Moving on from one container to another is allowed;
/// what was used up, reused or discarded stays so, unless the statement is corrected.
LATHBOOK_API std::optional<std::string> refusal(PieceState from, PieceState to);

}  // namespace lathbook
