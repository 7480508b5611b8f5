// What tests of reports ask of words and dates.
#pragma once

#include <string>

#include "core/base/calendar.hpp"
#include "plugins/report/tree_walk.hpp"

namespace lathbook::test {

/// Every sentence of the report on a line of its own, in the order of reading.
inline std::string words_of(const report::Document& document) {
  std::string all;
  report::each_sentence(document, [&](const report::Sentence& one) { all += one.words() + "\n"; });
  return all;
}

inline Bound known(std::int64_t year, int month, int day, Level level = Level::certain) {
  Bound bound;
  bound.known = true;
  bound.day = days_from_civil(year, month, day);
  bound.level = level;
  return bound;
}

}  // namespace lathbook::test
