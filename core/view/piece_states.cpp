#include "core/view/piece_states.hpp"

#include <array>

namespace lathbook {

namespace {

constexpr std::array<std::string_view, kPieceStates> kWords{"",
                                                            "in place",
                                                            "on bench",
                                                            "in container",
                                                            "away",
                                                            "used up as a sample",
                                                            "reused elsewhere",
                                                            "discarded",
                                                            "lost by us",
                                                            "missing at survey",
                                                            "not accounted for"};

bool is_final(PieceState state) {
  return state == PieceState::sampled || state == PieceState::reused || state == PieceState::discarded;
}

bool is_absent(PieceState state) {
  return state == PieceState::lost || state == PieceState::missing_at_survey ||
         state == PieceState::unaccounted;
}

bool is_loose(PieceState state) {
  return state == PieceState::on_bench || state == PieceState::in_container;
}

// Whether the step makes sense when neither end is final, unknown or the same.
bool can_pass(PieceState from, PieceState to) {
  switch (to) {
    case PieceState::in_place:
      return is_loose(from);
    case PieceState::on_bench:
    case PieceState::in_container:
    case PieceState::unaccounted:
      return true;
    case PieceState::away:
    case PieceState::reused:
    case PieceState::discarded:
      return is_loose(from) || from == PieceState::away;
    case PieceState::sampled:
      return is_loose(from) || from == PieceState::away || from == PieceState::in_place;
    case PieceState::lost:
      return !is_absent(from) || from == PieceState::unaccounted;
    case PieceState::missing_at_survey:
    case PieceState::unknown:
      return false;
  }
  return false;
}

}  // namespace

std::string_view word(PieceState state) {
  return kWords[static_cast<std::size_t>(state)];
}

PieceState piece_state_from_word(std::string_view text) {
  for (std::size_t i = 1; i < kWords.size(); ++i)
    if (kWords[i] == text) return static_cast<PieceState>(i);
  return PieceState::unknown;
}

bool is_held(PieceState state) {
  return state == PieceState::in_place || is_loose(state) || state == PieceState::away;
}

std::optional<std::string> refusal(PieceState from, PieceState to) {
  if (from == PieceState::unknown) return std::nullopt;
  const std::string now = std::string(word(from));
  if (from == to && to != PieceState::in_container) return "is " + now + " already";
  if (is_final(from))
    return "was " + now + " and is no longer there to move; amend that statement if it is wrong";
  if (to == PieceState::missing_at_survey)
    return "was here at the survey (" + now + "); call it lost by us or not accounted for";
  if (from != to && !can_pass(from, to)) {
    if (is_absent(from))
      return "is " + now + "; say first where it was found again (on bench, or in a container)";
    return "is " + now + "; take it down first, so that its place and the work are on record";
  }
  return std::nullopt;
}

}  // namespace lathbook
