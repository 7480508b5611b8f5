// What each word of a label may stand for in this house: the tables, the rooms' own names, and guesses.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "plugins/labels/tokens.hpp"
#include "plugins/labels/vocabulary.hpp"

namespace lathbook::labels {

/// The words of rooms' names in a house, and the names themselves for initials.
struct HouseWords {
  std::set<std::string> words;
  std::vector<std::vector<std::string>> names;
};

/// Everything a word may stand for, likeliest first; at least one (unknown). In this order: a number; an
/// ordinal; rows of the table; a word of a room's name here; the initials of a name here; the beginning,
/// contraction, misspelling or remains of such a word (one letter from five letters on, two from eight).
std::vector<Meaning> meanings_of(const LabelToken& token, const HouseWords& house);

/// Does a damaged key ('?' one letter, '*' any number) fit a whole word?
bool fits_pattern(const std::string& pattern, const std::string& word);

}  // namespace lathbook::labels
