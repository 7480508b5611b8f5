// Which pieces were ever said to be in which cell of a field, by element: so that entering many pieces of one
// field need not look through all of them for each.
#pragma once

#include <compare>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/evidence/statement.hpp"
#include "core/storage/database.hpp"

namespace lathbook {

// Permanent ids of the properties that seat a piece.
inline constexpr std::uint32_t kPieceOf = 120;
inline constexpr std::uint32_t kPosition = 121;

struct Cell {
  std::string field, row, column;
  bool operator==(const Cell&) const = default;
  auto operator<=>(const Cell&) const = default;
};

/// The cell that a position names; nothing for a position of another sort.
std::optional<Cell> cell_of(const Content& position);

/// A hint and no judgement: it also holds what has since been withdrawn or moved, and never lacks a seat that
/// is current. Records are given by their rows.
class CellBook {
public:
  /// Pieces ever said to be of this element and in this cell. An element is read once, when first asked for.
  const std::vector<std::int64_t>& pieces_in(const Database& database, std::int64_t element,
                                             const Cell& cell);
  /// After a statement was entered: keeps the elements that were read whole.
  void entered(const Database& database, const Content& content);
  /// After statements came in by any other way.
  void forget() { elements_.clear(); }

private:
  using Cells = std::map<Cell, std::vector<std::int64_t>>;
  std::map<std::int64_t, Cells> elements_;
};

}  // namespace lathbook
