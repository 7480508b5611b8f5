#include "plugins/pieces/account.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <numeric>
#include <set>

#include "core/base/text.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/piece_states.hpp"
#include "core/view/record_view.hpp"
#include "plugins/pieces/quantities.hpp"

namespace lathbook::pieces {

namespace {

using Cell = std::pair<int, int>;

std::optional<Cell> cell_of(const PieceLine& line) {
  if (!line.row || !line.column) return std::nullopt;
  return Cell{*line.row, *line.column};
}

std::string words(const Cell& cell) {
  return "row " + std::to_string(cell.first) + ", column " + std::to_string(cell.second);
}

bool is_broken(const PieceLine& line) {
  return line.condition == "broken" || line.condition == "fragments only" || line.incomplete;
}

bool before(const PieceLine& a, const PieceLine& b) {
  const int a_row = a.row.value_or(0), b_row = b.row.value_or(0);
  if (a_row != b_row) return a_row > b_row;
  const int a_column = a.column.value_or(0), b_column = b.column.value_or(0);
  if (a_column != b_column) return a_column < b_column;
  return compare_for_people(a.record.code, b.record.code) < 0;
}

// Sorts places and moves each piece once: a piece is too large to be swapped about.
void sort_for_people(std::vector<PieceLine>& pieces) {
  if (std::is_sorted(pieces.begin(), pieces.end(), before)) return;
  std::vector<std::uint32_t> places(pieces.size());
  std::iota(places.begin(), places.end(), 0U);
  std::sort(places.begin(), places.end(),
            [&](std::uint32_t one, std::uint32_t other) { return before(pieces[one], pieces[other]); });
  std::vector<PieceLine> sorted;
  sorted.reserve(pieces.size());
  for (const auto place : places) sorted.push_back(std::move(pieces[place]));
  pieces = std::move(sorted);
}

class Counter {
public:
  explicit Counter(FieldAccount& field) : field_(field), gaps_(field.gaps.begin(), field.gaps.end()) {}

  void run() {
    sort_for_people(field_.pieces);
    for (const auto& state : Registry::standard().choices("piece-state"))
      field_.by_state.emplace_back(state, 0);
    for (const auto& line : field_.pieces) take(line);
    look_at_seats();
    empty_cells();
  }

private:
  void mismatch(const std::string& code, const std::string& text, const RecordInfo& record) {
    field_.mismatches.push_back({Severity::warning, "pieces." + code, text, display(record)});
  }

  void take(const PieceLine& line) {
    if (line.is_bag) return;  // a bag of fragments is no piece
    ++field_.laid;
    const PieceState state = piece_state_from_word(line.state);
    for (auto& [word_of, number] : field_.by_state)
      if (word_of == line.state) ++number;
    if (state != PieceState::unknown && !is_held(state))
      ++field_.missing;
    else if (is_broken(line))
      ++field_.broken;
    else
      ++field_.whole;
    look_at_state(line, state);
    look_at_cell(line);
  }

  void look_at_state(const PieceLine& line, PieceState state) {
    if (state == PieceState::unknown)
      mismatch("no-state", display(line.record) + " has no state; say whether it is in place", line.record);
    if (state == PieceState::in_container && !line.container)
      mismatch("no-container", display(line.record) + " is in a container that is not named", line.record);
  }

  void look_at_cell(const PieceLine& line) {
    const auto cell = cell_of(line);
    if (!cell) {
      if (field_.rows > 0 && !line.x)
        mismatch("no-cell", display(line.record) + " has no cell in the map", line.record);
      return;
    }
    for (const Cell& one : covered(line, *cell))
      if (!look_at_one(line, one)) return;
  }

  // Where pieces sit now, when one was laid in another cell than the one it came from.
  void look_at_seats() {
    if (std::none_of(field_.pieces.begin(), field_.pieces.end(),
                     [](const PieceLine& line) { return line.laid_at.has_value(); }))
      return;
    std::map<Cell, const PieceLine*> seats;
    for (const auto& line : field_.pieces) {
      if (line.is_bag || piece_state_from_word(line.state) != PieceState::in_place) continue;
      const auto seat = line.laid_at ? line.laid_at : cell_of(line);
      if (!seat) continue;
      if (line.laid_at && line.goes_to != line.laid_at)
        mismatch("other-cell",
                 display(line.record) + " is laid in " + words(*seat) +
                     (cell_of(line) ? ", and came from " + words(*cell_of(line)) : std::string()) +
                     "; look whether that was meant",
                 line.record);
      for (const Cell& cell : covered(line, *seat)) {
        const auto [known, fresh] = seats.try_emplace(cell, &line);
        if (fresh || (!line.laid_at && !known->second->laid_at)) continue;
        mismatch("shared-seat",
                 display(line.record) + " and " + display(known->second->record) + " are both laid in " +
                     words(cell) + "; two pieces cannot sit in one cell",
                 line.record);
        break;
      }
    }
  }

  // Two wide and one high takes the cell to its right as well; half a tile takes one.
  static std::vector<Cell> covered(const PieceLine& line, const Cell& from) {
    std::vector<Cell> cells;
    for (int up = 0; up < std::max(1, static_cast<int>(std::ceil(line.high))); ++up)
      for (int on = 0; on < std::max(1, static_cast<int>(std::ceil(line.wide))); ++on)
        cells.emplace_back(from.first + up, from.second + on);
    return cells;
  }

  // One fault is enough for a piece.
  bool look_at_one(const PieceLine& line, const Cell& cell) {
    const auto [known, fresh] = taken_.try_emplace(cell, &line.record);
    if (!fresh) {
      mismatch("shared-cell",
               display(line.record) + " and " + display(*known->second) + " sit in one cell, " + words(cell),
               line.record);
      return false;
    }
    if (field_.rows == 0) return true;
    const bool inside =
        cell.first >= 1 && cell.first <= field_.rows && cell.second >= 1 && cell.second <= field_.columns;
    if (!inside)
      mismatch("outside", display(line.record) + " lies outside the map, " + words(cell), line.record);
    else if (gaps_.count(cell) != 0)
      mismatch("in-gap", display(line.record) + " lies in a gap of the map, " + words(cell), line.record);
    return inside && gaps_.count(cell) == 0;
  }

  // A cell of the map that nobody recorded a piece for: laid once, and missing until somebody says.
  void empty_cells() {
    std::vector<std::string> empty;
    for (int row = field_.rows; row >= 1; --row)
      for (int column = 1; column <= field_.columns; ++column) {
        const Cell cell{row, column};
        if (gaps_.count(cell) != 0 || taken_.count(cell) != 0) continue;
        ++field_.laid;
        ++field_.missing;
        empty.push_back(std::to_string(row) + "," + std::to_string(column));
      }
    if (empty.empty()) return;
    const std::size_t number = empty.size();
    if (number > 12) empty.resize(12);
    mismatch("empty-cells",
             std::to_string(number) + (number == 1 ? " cell has" : " cells have") +
                 " no piece on record (row,column): " + join(empty, "; ") + (number > 12 ? " ..." : "") +
                 "; record the piece, or name the cell as a gap",
             field_.element);
  }

  FieldAccount& field_;
  std::set<Cell> gaps_;
  std::map<Cell, const RecordInfo*> taken_;
};

}  // namespace

void count(FieldAccount& field) {
  Counter(field).run();
}

void order_missing(FieldAccount& field, const Buying& buying) {
  field.order.needed = field.missing + field.broken;
  field.order.to_buy = against_rejects(field.order.needed, buying.rejects);
  field.order.spares = buying.spares;
}

}  // namespace lathbook::pieces
