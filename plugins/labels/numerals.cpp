#include "plugins/labels/numerals.hpp"

#include <algorithm>

namespace lathbook::labels {

namespace {

constexpr std::size_t kMostStrokes = 24;

int worth(char stroke) {
  return stroke == 'I' ? 1 : stroke == 'V' ? 5 : 10;
}

// As clerks write it: a smaller sign before a greater one is taken off.
int by_the_clerk(const std::string& strokes) {
  int sum = 0;
  for (std::size_t i = 0; i < strokes.size(); ++i) {
    const bool before_greater = i + 1 < strokes.size() && worth(strokes[i]) < worth(strokes[i + 1]);
    sum += before_greater ? -worth(strokes[i]) : worth(strokes[i]);
  }
  return sum;
}

}  // namespace

std::optional<Numeral> read_numeral(std::string_view text) {
  Numeral numeral;
  int sum = 0;
  for (char c : text) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    if (c != 'I' && c != 'V' && c != 'X') return std::nullopt;
    numeral.strokes += c;
    sum += worth(c);
  }
  if (numeral.strokes.empty() || numeral.strokes.size() > kMostStrokes) return std::nullopt;
  if (std::count(numeral.strokes.begin(), numeral.strokes.end(), 'V') > 2) return std::nullopt;
  numeral.values.push_back(sum);
  if (const int clerk = by_the_clerk(numeral.strokes); clerk != sum && clerk > 0)
    numeral.values.push_back(clerk);
  return numeral;
}

}  // namespace lathbook::labels
