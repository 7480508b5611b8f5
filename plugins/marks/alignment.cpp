#include "plugins/marks/alignment.hpp"

#include <algorithm>
#include <limits>

namespace lathbook::marks {

namespace {

// One cell of the table: the reading's position passed over, or taken with a reference letter, or that letter
// taken as one too many. `left` and `diagonal` are the cells before it; `match` the cost of the pair.
inline float cell(float passed, float left, float diagonal, float match, bool loop) {
  if (loop) return std::min(passed, std::min(left, diagonal) + Costs::gap_letter);
  return std::min(passed, std::min(left + Costs::missing, diagonal + match));
}

}  // namespace

// What it costs that the reading has this position and the reference has nothing there.
float Aligner::extra(std::size_t position) const {
  switch (query_.positions[position].kind) {
    case PositionKind::optional:
    case PositionKind::loop:
      return 0;
    case PositionKind::uncertain:
      return Costs::doubt_share * Costs::missing + Costs::doubt;
    case PositionKind::letter:
    case PositionKind::any:
      break;
  }
  return Costs::missing;
}

float Aligner::cost(std::string_view reference, float limit) {
  const std::size_t width = reference.size() + 1;
  above_.resize(width);
  here_.resize(width);
  for (std::size_t column = 0; column < width; ++column) {
    above_[column] = Costs::missing * static_cast<float>(column);
  }
  for (std::size_t row = 1; row <= query_.positions.size(); ++row) {
    here_[0] = above_[0] + extra(row - 1);
    float least = here_[0];
    const CostRow& costs = rows_[row - 1];
    const float pass = extra(row - 1);
    const bool loop = query_.positions[row - 1].kind == PositionKind::loop;
    for (std::size_t column = 1; column < width; ++column) {
      const float best = cell(above_[column] + pass, here_[column - 1], above_[column - 1],
                              costs[static_cast<Code>(reference[column - 1])], loop);
      here_[column] = best;
      least = std::min(least, best);
    }
    if (least > limit) return least;
    above_.swap(here_);
  }
  return above_[width - 1];
}

std::vector<Step> Aligner::steps(std::string_view reference) {
  const std::size_t width = reference.size() + 1;
  std::vector<std::vector<float>> cells(query_.positions.size() + 1, std::vector<float>(width));
  for (std::size_t column = 0; column < width; ++column) {
    cells[0][column] = Costs::missing * static_cast<float>(column);
  }
  for (std::size_t row = 1; row < cells.size(); ++row) {
    const float pass = extra(row - 1);
    const bool loop = query_.positions[row - 1].kind == PositionKind::loop;
    cells[row][0] = cells[row - 1][0] + pass;
    for (std::size_t column = 1; column < width; ++column) {
      cells[row][column] =
          cell(cells[row - 1][column] + pass, cells[row][column - 1], cells[row - 1][column - 1],
               rows_[row - 1][static_cast<Code>(reference[column - 1])], loop);
    }
  }
  std::vector<Step> steps;
  std::size_t row = cells.size() - 1;
  std::size_t column = width - 1;
  const auto near = [](float a, float b) { return a - b < 0.001F && b - a < 0.001F; };
  while (row > 0 || column > 0) {
    const float here = cells[row][column];
    const bool loop = row > 0 && query_.positions[row - 1].kind == PositionKind::loop;
    const auto position = static_cast<std::int32_t>(row) - 1;
    const auto letter = static_cast<std::int32_t>(column) - 1;
    if (row > 0 && column > 0) {
      const float step = loop ? Costs::gap_letter : rows_[row - 1][static_cast<Code>(reference[column - 1])];
      if (near(here, cells[row - 1][column - 1] + step)) {
        steps.push_back({position, letter});
        --row, --column;
        continue;
      }
      if (loop && near(here, cells[row][column - 1] + Costs::gap_letter)) {
        steps.push_back({position, letter});
        --column;
        continue;
      }
    }
    if (row > 0 && near(here, cells[row - 1][column] + extra(row - 1))) {
      if (!loop && query_.positions[row - 1].kind != PositionKind::optional) steps.push_back({position, -1});
      --row;
      continue;
    }
    steps.push_back({-1, letter});
    --column;
  }
  std::reverse(steps.begin(), steps.end());
  return steps;
}

}  // namespace lathbook::marks
