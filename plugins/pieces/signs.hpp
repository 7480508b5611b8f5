// How states and conditions of pieces are drawn on a map.
#pragma once

#include <algorithm>
#include <array>
#include <string>

namespace lathbook::pieces {

/// A letter that is read aloud, and a filling that survives a copier.
struct Sign {
  const char* word;
  const char* letter;
  const char* filling;  // "" = paper, else the id of a pattern
  int strokes;          // 2: the piece is not here and nobody has it; 1: it went by somebody's decision
  bool crossed() const { return strokes != 0; }
};

inline constexpr std::array<Sign, 10> kStates{{{"in place", "P", "", 0},
                                               {"on bench", "B", "dots", 0},
                                               {"in container", "C", "rising", 0},
                                               {"away", "A", "level", 0},
                                               {"used up as a sample", "S", "", 1},
                                               {"reused elsewhere", "R", "upright", 1},
                                               {"discarded", "D", "falling", 1},
                                               {"lost by us", "L", "dots", 2},
                                               {"missing at survey", "M", "", 2},
                                               {"not accounted for", "?", "level", 2}}};
inline constexpr std::array<Sign, 7> kConditions{{{"sound", "s", "", 0},
                                                  {"cracked", "k", "falling", 0},
                                                  {"broken", "b", "crossed", 0},
                                                  {"chipped", "c", "dots", 0},
                                                  {"glaze lost", "g", "level", 0},
                                                  {"worn", "w", "upright", 0},
                                                  {"fragments only", "f", "crossed", 0}}};

template <std::size_t Size>
const Sign* sign_for(const std::array<Sign, Size>& signs, const std::string& text) {
  const auto found =
      std::find_if(signs.begin(), signs.end(), [&](const Sign& one) { return text == one.word; });
  return found == signs.end() ? nullptr : &*found;
}

}  // namespace lathbook::pieces
