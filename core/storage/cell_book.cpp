#include "core/storage/cell_book.hpp"

#include "core/evidence/encoding.hpp"
#include "core/evidence/registry.hpp"

namespace lathbook {

std::optional<Cell> cell_of(const Content& position) {
  Cell cell{std::string(position.qualifier("field")), std::string(position.qualifier("row")),
            std::string(position.qualifier("column"))};
  if (cell.row.empty() || cell.column.empty()) return std::nullopt;
  return cell;
}

const std::vector<std::int64_t>& CellBook::pieces_in(const Database& database, std::int64_t element,
                                                     const Cell& cell) {
  const auto [found, unread] = elements_.try_emplace(element);
  Cells& cells = found->second;
  if (unread) {
    auto query = database.prepare(
        "SELECT p.subject, p.content FROM statement o JOIN statement p ON p.subject = o.subject AND "
        "p.property = ?3 AND p.presence = 0 WHERE o.object = ?1 AND o.property = ?2");
    query.bind(1, element).bind(2, kPieceOf).bind(3, kPosition);
    while (query.step()) {
      if (const auto seat = cell_of(decode_content(query.bytes(1)))) cells[*seat].push_back(query.integer(0));
    }
  }
  return cells[cell];
}

void CellBook::entered(const Database& database, const Content& content) {
  if (elements_.empty() || (content.property != kPosition && content.property != kPieceOf)) return;
  // All seats of the piece in all elements it was ever said to be of: a pair too many does no harm.
  auto query = database.prepare(
      "SELECT o.object, p.subject, p.content FROM record r JOIN statement o ON o.subject = r.id AND "
      "o.property = ?2 AND o.object IS NOT NULL JOIN statement p ON p.subject = r.id AND p.property = ?3 AND "
      "p.presence = 0 WHERE r.uuid = ?1");
  query.bind(1, content.subject).bind(2, kPieceOf).bind(3, kPosition);
  while (query.step()) {
    const auto read = elements_.find(query.integer(0));
    if (read == elements_.end()) continue;
    if (const auto seat = cell_of(decode_content(query.bytes(2))))
      read->second[*seat].push_back(query.integer(1));
  }
}

}  // namespace lathbook
