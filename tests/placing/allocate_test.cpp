// The allocation of survivors against every permutation, and what it must not move.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <numeric>
#include <random>

#include "plugins/placing/allocate.hpp"
#include "plugins/placing/transport.hpp"

using namespace lathbook;
using namespace lathbook::placing;

namespace {

FieldAccount field_of(int rows, int columns) {
  FieldAccount field;
  field.rows = rows;
  field.columns = columns;
  for (int row = rows; row >= 1; --row)
    for (int column = 1; column <= columns; ++column) {
      PieceLine line;
      line.record.code = "F." + std::to_string(field.pieces.size() + 1);
      line.row = row;
      line.column = column;
      line.state = "on bench";
      line.condition = "sound";
      field.pieces.push_back(line);
    }
  return field;
}

int view_in(const FieldAccount& field, const PieceLine& line) {
  return line.prominence.value_or(nearness(field, *line.row, *line.column));
}

// The greatest sum over all ways of laying the survivors in the cells, by trying them all.
double best_of_all(const FieldAccount& field) {
  std::vector<int> worth, view;
  for (const auto& line : field.pieces) {
    worth.push_back(soundness(line));
    view.push_back(view_in(field, line));
  }
  std::vector<std::size_t> order(worth.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  double best = 0;
  do {
    double sum = 0;
    for (std::size_t i = 0; i < order.size(); ++i) sum += double{1} * worth[i] * view[order[i]];
    best = std::max(best, sum);
  } while (std::next_permutation(order.begin(), order.end()));
  return best;
}

}  // namespace

TEST_CASE("the best survivors go to the cells most in view, and nobody moves for nothing") {
  FieldAccount field = field_of(1, 5);
  for (std::size_t i : {2U, 3U}) field.pieces[i].condition = "broken";
  const FieldPlacing placing = allocate(field);
  // The middle three cells are most in view; tile 2 is there already.
  CHECK(placing.survivors == 3);
  CHECK(placing.cells == 5);
  REQUIRE(placing.moves.size() == 2);
  CHECK(placing.moves[0].column == 3);
  CHECK(placing.moves[1].column == 4);
  CHECK(placing.after > placing.before);
  CHECK(allocate(field_of(3, 3)).moves.empty());
}

TEST_CASE("no way of laying the survivors is better than the one proposed") {
  std::mt19937 random(20261125);
  const std::vector<std::string> conditions{"sound", "chipped", "cracked", "broken", ""};
  for (int round = 0; round < 60; ++round) {
    FieldAccount field = field_of(2, 3);
    for (auto& line : field.pieces) {
      line.condition = conditions[random() % conditions.size()];
      if (random() % 3 == 0) line.prominence = static_cast<int>(random() % 101);
    }
    const FieldPlacing placing = allocate(field);
    INFO("round " << round);
    CHECK(placing.after == best_of_all(field));
    CHECK(placing.after >= placing.before);
    std::map<std::pair<int, int>, int> filled;
    std::map<std::string, std::pair<int, int>> moved;
    for (const auto& move : placing.moves) moved[move.piece.code] = {move.row, move.column};
    for (const auto& line : field.pieces) {
      if (soundness(line) == 0) continue;
      const auto to = moved.find(line.record.code);
      ++filled[to == moved.end() ? std::pair(*line.row, *line.column) : to->second];
    }
    for (const auto& [cell, pieces] : filled) CHECK(pieces == 1);
  }
}

TEST_CASE("forbidden pairs: beds, evidence, sizes, pieces that keep their cell") {
  FieldAccount field = field_of(1, 6);
  field.pieces[0].state = "in place";
  field.pieces[1].keeps_cell = "cut to the pipe";
  field.pieces[2].condition = field.pieces[3].condition = "broken";
  field.pieces[2].size.length = 70;  // the most visible two: one of them is for a cut tile
  field.pieces[4].retained = true;
  const FieldPlacing placing = allocate(field);
  REQUIRE(placing.kept.size() == 1);
  CHECK(placing.kept[0].why == "cut to the pipe");
  REQUIRE(placing.moves.size() == 1);
  CHECK(placing.moves[0].piece.code == "F.6");
  CHECK(placing.moves[0].column == 4);
}

// Worked by hand: two from the first supply and one from the second, the dear lane only because it must be.
TEST_CASE("supplies reach demands at least cost, and forbidden lanes stay empty") {
  const auto flow = cheapest({2, 1}, {1, 2}, {{0, 0, 1, 5}, {0, 1, 2, 1}, {1, 1, 1, 9}});
  CHECK(flow == std::vector<std::int64_t>{1, 1, 1});
  CHECK(cheapest({3}, {1}, {{0, 0, 3, 0}}) == std::vector<std::int64_t>{1});
  CHECK(cheapest({1}, {1}, {}).empty());
}

TEST_CASE("a hundred thousand survivors are allocated") {
  FieldAccount field = field_of(250, 400);
  for (std::size_t i = 0; i < field.pieces.size(); i += 3) field.pieces[i].condition = "cracked";
  const FieldPlacing placing = allocate(field);
  CHECK(placing.survivors == 100000);
  CHECK(placing.after > placing.before);
}
