#include "plugins/takedown/flat.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "core/base/embedded.hpp"
#include "core/base/text.hpp"

namespace lathbook::takedown {

namespace {

using Cell = std::pair<int, int>;

// schemas/lying-flat-en.tsv, each with a blank before and after it.
const std::vector<std::string>& words_of_flat_things() {
  static const std::vector<std::string> words = [] {
    std::vector<std::string> read;
    for (const auto& line : split(embedded_table("lying-flat"), '\n'))
      if (!trim(line).empty() && line.front() != '#') read.push_back(" " + std::string(trim(line)) + " ");
    return read;
  }();
  return words;
}

std::array<Cell, 4> beside(const Cell& cell) {
  return {{{cell.first - 1, cell.second},
           {cell.first + 1, cell.second},
           {cell.first, cell.second - 1},
           {cell.first, cell.second + 1}}};
}

}  // namespace

bool lies_flat(const RecordView& element) {
  std::string said = " " + fold(element.text("element-class")) + " | " + fold(element.text("element-type")) +
                     " | " + fold(element.info.name) + " ";
  std::replace_if(
      said.begin(), said.end(), [](char c) { return c == ',' || c == ';' || c == '-' || c == '('; }, ' ');
  const auto& words = words_of_flat_things();
  return std::any_of(words.begin(), words.end(),
                     [&](const std::string& word) { return said.find(word) != std::string::npos; });
}

std::map<Cell, std::int64_t> rings_from_edges(const std::map<Cell, std::uint32_t>& cells) {
  std::map<Cell, std::int64_t> rings;
  std::vector<Cell> work;
  for (const auto& [cell, node] : cells) {
    const auto round = beside(cell);
    if (std::all_of(round.begin(), round.end(), [&](const Cell& one) { return cells.count(one) != 0; }))
      continue;
    rings.emplace(cell, 0);
    work.push_back(cell);
  }
  for (std::size_t at = 0; at < work.size(); ++at) {
    const Cell cell = work[at];
    for (const Cell& next : beside(cell))
      if (cells.count(next) != 0 && rings.emplace(next, rings.at(cell) + 1).second) work.push_back(next);
  }
  return rings;
}

}  // namespace lathbook::takedown
