#include "core/cli/seats.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "core/base/error.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/view/piece_states.hpp"

namespace lathbook::cli {

namespace {

using Cell = std::pair<int, int>;

std::optional<Cell> cell_in(std::string_view row, std::string_view column) {
  const auto of_row = number_in<int>(trim(row)), of_column = number_in<int>(trim(column));
  if (!of_row || !of_column) return std::nullopt;
  return Cell{*of_row, *of_column};
}

Cell typed_cell(const std::string& typed) {
  const auto parts = split(typed, ',');
  const auto cell = parts.size() == 2 ? cell_in(parts[0], parts[1]) : std::nullopt;
  if (!cell || cell->first < 1 || cell->second < 1)
    fail(ErrorKind::invalid,
         "a cell is written ROW,COLUMN, the row from the bottom and the column from the left: "
         "2,4; not " +
             quote(typed));
  return *cell;
}

std::optional<Cell> said_cell(const RecordView& piece, const char* property) {
  const Statement* said = piece.best(property);
  if (said == nullptr) return std::nullopt;
  return cell_in(said->content.qualifier("row"), said->content.qualifier("column"));
}

std::optional<Cell> home_of(const PieceView& piece) {
  if (!piece.row || !piece.column) return std::nullopt;
  return Cell{*piece.row, *piece.column};
}

// Two wide and one high takes the cell to its right as well.
std::vector<Cell> covered(const PieceView& piece, const Cell& from) {
  const auto cells = [&](const char* side) {
    const Statement* position = piece.record.best("position");
    const double said =
        position == nullptr ? 1 : number_in<double>(position->content.qualifier(side)).value_or(1);
    return said > 0 && said <= 100 ? static_cast<int>(std::ceil(said)) : 1;
  };
  std::vector<Cell> taken;
  for (int up = 0; up < cells("high"); ++up)
    for (int on = 0; on < cells("wide"); ++on) taken.emplace_back(from.first + up, from.second + on);
  return taken;
}

void refuse_outside(const RecordView& element, const Cell& cell) {
  const Statement* map = element.best("piece-map");
  if (map == nullptr) return;
  const int rows = number_in<int>(map->content.qualifier("rows")).value_or(0);
  const int columns = number_in<int>(map->content.qualifier("columns")).value_or(0);
  if (rows > 0 && columns > 0 && (cell.first > rows || cell.second > columns))
    fail(ErrorKind::invalid, display(element.info) + " has " + std::to_string(rows) + " rows and " +
                                 std::to_string(columns) + " columns, so nothing is laid in " +
                                 cell_words(cell) + "; nothing was entered");
  for (const auto& gap : split(std::string(map->content.qualifier("gaps")), ';')) {
    const auto parts = split(gap, ',');
    if (parts.size() == 2 && cell_in(parts[0], parts[1]) == cell)
      fail(ErrorKind::invalid, cell_words(cell) + " of " + display(element.info) +
                                   " is a gap that never held a piece; nothing was entered");
  }
}

class Seating {
public:
  Seating(const Snapshot& archive, const std::vector<PieceView>& pieces) : archive_(archive) {
    for (const auto& piece : pieces) moving_[piece.record.info.id] = true;
    std::map<Uuid, bool> elements;
    for (const auto& piece : pieces)
      if (piece.element) elements[*piece.element] = true;
    archive_.each(Kind::piece, {"piece-of", "position", "piece-state", "laid-at", "fragment-of"},
                  [&](RecordView& view) {
                    const PieceView other(view);
                    if (!other.element || elements.count(*other.element) == 0 || other.fragment_of) return;
                    if (moving_.count(view.info.id) != 0 || other.state != word(PieceState::in_place)) return;
                    const auto seat = other.laid_at ? other.laid_at : home_of(other);
                    if (seat) take(*other.element, other, *seat);
                  });
  }

  Seat seat(const PieceView& piece, const Cell& cell) {
    const auto element = archive_.find(*piece.element);
    if (element) refuse_outside(*element, cell);
    for (const Cell& one : covered(piece, cell)) {
      const auto other = taken_.find({*piece.element, one});
      if (other != taken_.end())
        fail(ErrorKind::invalid,
             display(other->second) + " sits in " + cell_words(one) +
                 "; two pieces cannot sit in one cell, so take that one down first or say with "
                 "--cell ROW,COLUMN where " +
                 piece.record.info.code + " was laid; nothing was entered");
    }
    take(*piece.element, piece, cell);
    Seat seat{cell, false, {}};
    const auto home = home_of(piece), goes = said_cell(piece.record, "goes-to");
    seat.to_enter = home != cell || !piece.record.all("laid-at").empty();
    if (home && home != cell && goes != cell)
      seat.warning = display(piece.record.info) + " came from " + cell_words(*home) + " and is laid in " +
                     cell_words(cell) + "; where it came from stays on record";
    const std::string keeps = piece.record.text("keeps-its-cell");
    if (!seat.warning.empty() && !keeps.empty())
      seat.warning += "; it is said to go back to its own cell, for: " + keeps;
    return seat;
  }

private:
  void take(const Uuid& element, const PieceView& piece, const Cell& seat) {
    for (const Cell& one : covered(piece, seat)) taken_.emplace(std::pair(element, one), piece.record.info);
  }

  const Snapshot& archive_;
  std::map<Uuid, bool> moving_;
  std::map<std::pair<Uuid, Cell>, RecordInfo> taken_;
};

}  // namespace

std::string cell_words(const std::pair<int, int>& cell) {
  return "row " + std::to_string(cell.first) + ", column " + std::to_string(cell.second);
}

std::map<Uuid, Seat> seats_for(const Snapshot& archive, const std::vector<PieceView>& pieces,
                               const std::string& typed) {
  std::optional<Cell> asked;
  if (!typed.empty()) asked = typed_cell(typed);
  if (asked && pieces.size() != 1)
    fail(ErrorKind::invalid, "--cell says where one piece is laid; name one piece only");
  if (asked && !pieces.front().element)
    fail(ErrorKind::invalid,
         display(pieces.front().record.info) +
             " is a piece of nothing, so it is laid in no cell; say first what it is a piece of");
  std::map<Uuid, Seat> seats;
  Seating seating(archive, pieces);
  for (const auto& piece : pieces) {
    if (!piece.element || piece.fragment_of) continue;
    auto cell = asked;
    if (!cell) cell = said_cell(piece.record, "goes-to");
    if (!cell) cell = home_of(piece);
    if (cell) seats.emplace(piece.record.info.id, seating.seat(piece, *cell));
  }
  return seats;
}

}  // namespace lathbook::cli
