#include "plugins/placing/allocate.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <set>
#include <tuple>

#include "core/base/text.hpp"
#include "core/view/piece_states.hpp"
#include "plugins/placing/transport.hpp"

namespace lathbook::placing {

namespace {

using Cell = std::pair<int, int>;
/// Length and width in tenths of a millimetre, nought where nobody measured, and cells it takes in
/// hundredths.
using Shape = std::tuple<long, long, long, long>;

Shape shape_of(const PieceLine& line) {
  const auto tenths = [](const std::optional<double>& value) {
    return value ? std::lround(*value * 10) : 0L;
  };
  return {tenths(line.size.length), tenths(line.size.width), std::lround(line.wide * 100),
          std::lround(line.high * 100)};
}

// From the top down and the left: the order in which people read a map.
bool reads_before(const Cell& a, const Cell& b) {
  return a.first != b.first ? a.first > b.first : a.second < b.second;
}

class Allocation {
public:
  explicit Allocation(const FieldAccount& field) : field_(field) { out_.element = field.element; }

  FieldPlacing run() {
    sort_pieces();
    empty_cells();
    solve();
    std::sort(out_.moves.begin(), out_.moves.end(), [](const PlacedPiece& a, const PlacedPiece& b) {
      return reads_before({a.row, a.column}, {b.row, b.column});
    });
    return std::move(out_);
  }

private:
  using PieceClass = std::pair<int, Shape>;
  using CellClass = std::pair<int, Shape>;

  void keep(const PieceLine& line, const Cell& cell, const std::string& why) {
    taken_.insert(cell);
    if (!why.empty()) out_.kept.push_back({line.record, why});
    const double worth = double{1} * soundness(line) * view(cell);
    out_.before += worth;
    out_.after += worth;
  }

  void sort_pieces() {
    for (const PieceLine& line : field_.pieces) {
      if (line.is_bag || !line.row || !line.column) continue;
      const Cell own{*line.row, *line.column};
      shapes_.try_emplace(own, shape_of(line));
      if (line.prominence) views_.try_emplace(own, std::clamp(*line.prominence, 0, 100));
      const PieceState state = piece_state_from_word(line.state);
      // What still sits in its bed is not moved for looks.
      if (state == PieceState::in_place || state == PieceState::unknown || line.retained) {
        taken_.insert(own);
        continue;
      }
      if (!is_held(state) || soundness(line) == 0) continue;
      ++out_.survivors;
      if (line.goes_to)
        keep(line, *line.goes_to,
             "it was given row " + std::to_string(line.goes_to->first) + ", column " +
                 std::to_string(line.goes_to->second) + " already");
      else if (!line.keeps_cell.empty())
        keep(line, own, line.keeps_cell);
      else
        pieces_[{soundness(line), shape_of(line)}].push_back(&line);
    }
    for (auto& [kind, lines] : pieces_)
      std::sort(lines.begin(), lines.end(), [](const PieceLine* a, const PieceLine* b) {
        return compare_for_people(a->record.code, b->record.code) < 0;
      });
    for (const auto& [kind, lines] : pieces_)
      for (const PieceLine* line : lines) home_.try_emplace({*line->row, *line->column}, line);
  }

  int view(const Cell& cell) const {
    const auto said = views_.find(cell);
    return said == views_.end() ? nearness(field_, cell.first, cell.second) : said->second;
  }

  void empty_cells() {
    const std::set<Cell> gaps(field_.gaps.begin(), field_.gaps.end());
    for (int row = field_.rows; row >= 1; --row)
      for (int column = 1; column <= field_.columns; ++column) {
        const Cell cell{row, column};
        if (gaps.count(cell) != 0 || taken_.count(cell) != 0) continue;
        const auto known = shapes_.find(cell);
        const Shape shape = known == shapes_.end() ? Shape{0, 0, 100, 100} : known->second;
        cells_[{view(cell), shape}].push_back(cell);
      }
    for (const auto& [kind, cells] : cells_) out_.cells += cells.size();
  }

  // Two lanes between a class of pieces and a class of cells: the cheaper for as many as are there already.
  void solve() {
    std::vector<std::int64_t> supplies, demands;
    for (const auto& [kind, lines] : pieces_) supplies.push_back(static_cast<std::int64_t>(lines.size()));
    for (const auto& [kind, cells] : cells_) demands.push_back(static_cast<std::int64_t>(cells.size()));
    std::vector<Lane> lanes;
    const auto stay = static_cast<std::int64_t>(out_.survivors) + 1;
    std::size_t supply = 0;
    for (const auto& [kind, lines] : pieces_) {
      std::size_t demand = 0;
      for (const auto& [place, cells] : cells_) {
        if (kind.second == place.second) {
          const std::int64_t cost = (400 - std::int64_t{kind.first} * place.first) * stay;
          const auto at_home = static_cast<std::int64_t>(own_in(lines, cells).size());
          lanes.push_back({supply, demand, at_home, cost});
          lanes.push_back({supply, demand, demands[demand], cost + 1});
        }
        ++demand;
      }
      ++supply;
    }
    const auto flow = cheapest(supplies, demands, lanes);
    std::vector<std::vector<std::int64_t>> amounts(supplies.size(),
                                                   std::vector<std::int64_t>(demands.size()));
    for (std::size_t i = 0; i < lanes.size(); ++i) amounts[lanes[i].supply][lanes[i].demand] += flow[i];
    hand_out(amounts);
  }

  // Those of the class whose own cell is among these; of two pieces recorded in one cell the first by code.
  std::vector<const PieceLine*> own_in(const std::vector<const PieceLine*>& lines,
                                       const std::vector<Cell>& cells) const {
    const std::set<Cell> here(cells.begin(), cells.end());
    std::vector<const PieceLine*> own;
    for (const PieceLine* line : lines) {
      const Cell cell{*line->row, *line->column};
      if (here.count(cell) != 0 && home_.at(cell) == line) own.push_back(line);
    }
    return own;
  }

  void hand_out(const std::vector<std::vector<std::int64_t>>& amounts) {
    std::set<const PieceLine*> placed;
    std::set<Cell> filled;
    const auto each = [&](auto&& use) {
      std::size_t supply = 0;
      for (const auto& [kind, lines] : pieces_) {
        std::size_t demand = 0;
        for (const auto& [place, cells] : cells_) {
          use(static_cast<std::size_t>(amounts[supply][demand]), lines, cells, supply, demand);
          ++demand;
        }
        ++supply;
      }
    };
    std::map<std::pair<std::size_t, std::size_t>, std::size_t> left;
    each([&](std::size_t amount, const auto& lines, const auto& cells, std::size_t supply,
             std::size_t demand) {
      for (const PieceLine* line : own_in(lines, cells)) {
        if (amount == 0) break;
        placed.insert(line);
        filled.insert({*line->row, *line->column});
        tell(*line, {*line->row, *line->column});
        --amount;
      }
      left[{supply, demand}] = amount;
    });
    each([&](std::size_t, const auto& lines, const auto& cells, std::size_t supply, std::size_t demand) {
      std::size_t amount = left[{supply, demand}];
      auto cell = cells.begin();
      for (const PieceLine* line : lines) {
        if (amount == 0) break;
        if (placed.count(line) != 0) continue;
        while (filled.count(*cell) != 0) ++cell;
        placed.insert(line);
        filled.insert(*cell);
        tell(*line, *cell);
        --amount;
      }
    });
  }

  void tell(const PieceLine& line, const Cell& cell) {
    const Cell own{*line.row, *line.column};
    const int sound = soundness(line);
    const int from = view(own), in = view(cell);
    out_.before += double{1} * sound * from;
    out_.after += double{1} * sound * in;
    if (cell != own)
      out_.moves.push_back({line.record, own.first, own.second, cell.first, cell.second, sound, from, in});
  }

  const FieldAccount& field_;
  FieldPlacing out_;
  std::map<Cell, Shape> shapes_;
  std::map<Cell, int> views_;
  std::map<Cell, const PieceLine*> home_;
  std::set<Cell> taken_;
  std::map<PieceClass, std::vector<const PieceLine*>> pieces_;
  std::map<CellClass, std::vector<Cell>> cells_;
};

}  // namespace

int soundness(const PieceLine& line) {
  if (line.condition == "broken" || line.condition == "fragments only" || line.incomplete) return 0;
  if (line.condition == "cracked" || line.condition == "worn") return 1;
  if (line.condition == "chipped" || line.condition == "glaze lost") return 2;
  return line.condition == "sound" ? 4 : 3;
}

int nearness(const FieldAccount& field, int row, int column) {
  const int across = std::abs(2 * column - field.columns - 1);
  const int up = std::abs(2 * row - field.rows - 1);
  const int most = std::max(1, field.columns - 1 + field.rows - 1);
  return std::clamp(100 - 100 * (across + up) / most, 0, 100);
}

FieldPlacing allocate(const FieldAccount& field) {
  return Allocation(field).run();
}

}  // namespace lathbook::placing
