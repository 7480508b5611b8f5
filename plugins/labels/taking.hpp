// Ways of taking a label: which word is the room, which the position, which the part.
#pragma once

#include <string>
#include <vector>

#include "plugins/labels/senses.hpp"

namespace lathbook::labels {

/// Words that say a room, or a position in the house: "n chamber", "front room left", "library".
struct RoomPhrase {
  std::vector<std::string> words;  ///< canonical, in order, with the bearing, the end and the generic word
  std::string compass;             ///< "north-east"; empty when not said
  std::string end;                 ///< "front" or "back"
  std::string hand;                ///< left or right of the house
  std::string generic;             ///< "room", "chamber", "bedroom", "closet"
  bool specific = false;           ///< has a word that is none of these
  std::string written;             ///< as it stands on the label
  bool empty() const { return words.empty(); }
};

/// One word and what it is taken for.
struct TakenWord {
  LabelToken token;
  Meaning meaning;
};

/// One way of taking the whole label.
struct Taking {
  std::vector<RoomPhrase> rooms;  ///< several: one or the other
  std::string relation;           ///< "over", "under", "next" or empty
  std::vector<RoomPhrase> anchors;
  int ordinal = 0;     ///< "2nd fl.": 2; 0 when not said
  std::string storey;  ///< "ground", "cellar", "attic", "upper", or empty
  std::string storey_written;
  std::string fitting;                     ///< "window"
  std::string wall;                        ///< bearing of a wall or side
  std::string face;                        ///< "wall", "ceiling", "corner", "floor"
  std::string hand;                        ///< of the fitting or part
  std::string end;                         ///< front or back of the part
  std::string tip;                         ///< top or bottom
  std::vector<std::string> piece_numbers;  ///< after No.
  std::vector<std::string> bare_numbers;
  std::vector<std::string> jobs;  ///< "order 3505"
  std::vector<std::string> handling, carriage;
  std::vector<std::string> unknown;  ///< as written
  std::vector<TakenWord> words;
  double weight = 1;  ///< of this way among the ways, the likeliest being 1

  bool says_place() const;  ///< a room, a position or a storey
};

/// At most this many ways are weighed; the likeliest are kept.
inline constexpr std::size_t kMostTakings = 48;

/// All ways of taking a label, likeliest first; at least one. Bounded: words times senses times kMostTakings.
std::vector<Taking> takings_of(const std::vector<LabelToken>& tokens, const HouseWords& house);

}  // namespace lathbook::labels
