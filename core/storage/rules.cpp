#include "core/storage/rules.hpp"

#include <algorithm>
#include <map>
#include <tuple>
#include <unordered_map>
#include <vector>

#include "core/base/text.hpp"
#include "core/evidence/encoding.hpp"

namespace lathbook {

namespace {

// Properties in which nothing may contain itself, by permanent id.
constexpr std::uint32_t kWithin = 11;
constexpr std::uint32_t kPartOf = 34;
constexpr std::uint32_t kFragmentOf = 123;
constexpr std::uint32_t kInContainer = 124;
constexpr std::uint32_t kPieceState = 122;
constexpr std::uint32_t kNesting[] = {kWithin, kPartOf, kFragmentOf, kInContainer};

std::string who(const Database& database, const Uuid& id) {
  auto query = database.prepare("SELECT code, name FROM record WHERE uuid = ?1");
  query.bind(1, id);
  if (!query.step()) return id.text();
  if (!query.is_null(0)) return query.text(0);
  return query.is_null(1) ? id.text() : quote(query.text(1));
}

std::string name_of(const Database& database, std::int64_t row) {
  auto query =
      database.prepare("SELECT c.name, s.n FROM statement s JOIN chain c ON c.id = s.chain WHERE s.id = ?1");
  query.bind(1, row);
  if (!query.step()) return "?";
  ChainId chain{};
  const auto bytes = query.bytes(0);
  std::copy_n(bytes.begin(), std::min(bytes.size(), chain.size()), chain.begin());
  return short_name(chain, static_cast<std::uint64_t>(query.integer(1)));
}

bool replaced_by(const Content& content, const Digest& id) {
  return std::find(content.targets.begin(), content.targets.end(), id) != content.targets.end();
}

// Codes that differ by capitals alone would be taken for one another.
std::optional<std::string> code_taken(const Database& database, const Content& content) {
  auto query = database.prepare(
      "SELECT uuid, code FROM record WHERE code IN (?1, upper(?1), lower(?1)) ORDER BY code <> ?1");
  query.bind_text(1, content.value);
  while (query.step()) {
    if (query.uuid(0) == content.subject) continue;
    if (query.text(1) == content.value)
      return "the code " + quote(content.value) + " is already in use; every record needs a code of its own";
    return "the code " + quote(content.value) + " differs from " + quote(query.text(1)) +
           " by capitals alone and would be taken for it; choose another";
  }
  return std::nullopt;
}

std::optional<std::string> second_answer(const Database& database, const Property& property,
                                         const Content& content) {
  auto query = database.prepare(
      "SELECT digest, id, content FROM statement WHERE subject = (SELECT id FROM record WHERE uuid = ?1) AND "
      "property = ?2 "
      "AND current = 1 AND presence = 0");
  query.bind(1, content.subject).bind(2, property.id);
  while (query.step()) {
    if (replaced_by(content, query.digest(0))) continue;
    return who(database, content.subject) + " already has an answer to " + quote(property.label) +
           " (statement " + name_of(database, query.integer(1)) + ": " +
           quote(decode_content(query.bytes(2)).value) + "); amend that statement instead of adding a second";
  }
  return std::nullopt;
}

std::optional<std::string> circle(const Database& database, const Property& property,
                                  const Content& content) {
  const auto target = Uuid::parse(content.value);
  if (!target) return std::nullopt;
  auto up = database.prepare(
      "SELECT o.uuid FROM statement s JOIN record o ON o.id = s.object WHERE s.subject = (SELECT id FROM "
      "record WHERE "
      "uuid = ?1) AND s.property = ?2 AND s.current = 1 AND s.presence = 0");
  std::vector<Uuid> work{*target};
  std::vector<Uuid> done;
  while (!work.empty()) {
    const Uuid here = work.back();
    work.pop_back();
    if (here == content.subject) {
      return who(database, content.subject) + " " + property.label + " " + who(database, *target) +
             " would make a circle: " + who(database, *target) + " is itself inside " +
             who(database, content.subject);
    }
    if (std::find(done.begin(), done.end(), here) != done.end()) continue;
    done.push_back(here);
    up.bind(1, here).bind(2, property.id);
    while (up.step()) work.push_back(up.uuid(0));
  }
  return std::nullopt;
}

bool nests(std::uint32_t id) {
  return std::find(std::begin(kNesting), std::end(kNesting), id) != std::end(kNesting);
}

// Where a piece is changes from day to day; on one day it has one answer.
bool is_of_a_day(std::uint32_t id) {
  return id == kInContainer || id == kPieceState;
}

std::optional<std::string> same_day(const Database& database, const Property& property,
                                    const Content& content) {
  auto query = database.prepare(
      "SELECT digest, id, content FROM statement WHERE subject = (SELECT id FROM record WHERE uuid = ?1) AND "
      "property = ?2 AND current = 1 AND presence = 0");
  query.bind(1, content.subject).bind(2, property.id);
  while (query.step()) {
    if (replaced_by(content, query.digest(0))) continue;
    if (decode_content(query.bytes(2)).qualifier("on") != content.qualifier("on")) continue;
    const auto day = content.qualifier("on");
    return who(database, content.subject) + " already has an answer to " + quote(property.label) +
           (day.empty() ? " without a day" : " for " + std::string(day)) + " (statement " +
           name_of(database, query.integer(1)) + "); " +
           (day.empty() ? "say since when with the detail on=DAY" : "amend that statement");
  }
  return std::nullopt;
}

// Among the pieces of the same element only. The book says where to look; what is current decides.
std::optional<std::string> cell_taken(const Database& database, const Content& content, CellBook& book) {
  const auto cell = cell_of(content);
  if (!cell) return std::nullopt;
  auto mine = database.prepare(
      "SELECT r.id, s.object FROM record r JOIN statement s ON s.subject = r.id WHERE r.uuid = ?1 AND "
      "s.property = ?2 AND s.current = 1 AND s.object IS NOT NULL");
  mine.bind(1, content.subject).bind(2, kPieceOf);
  while (mine.step()) {
    for (const auto piece : book.pieces_in(database, mine.integer(1), *cell)) {
      if (piece == mine.integer(0)) continue;
      auto query = database.prepare(
          "SELECT r.uuid, p.digest, p.content FROM statement other JOIN statement p ON p.subject = "
          "other.subject AND p.property = ?3 AND p.current = 1 AND p.presence = 0 JOIN record r ON r.id = "
          "p.subject WHERE other.subject = ?1 AND other.property = ?2 AND other.object = ?4 AND "
          "other.current "
          "= 1");
      query.bind(1, piece).bind(2, kPieceOf).bind(3, kPosition).bind(4, mine.integer(1));
      while (query.step()) {
        if (replaced_by(content, query.digest(1)) || cell_of(decode_content(query.bytes(2))) != cell)
          continue;
        return who(database, query.uuid(0)) + " is already recorded in row " + cell->row + ", column " +
               cell->column + "; two pieces cannot sit in one cell, so look at the number again";
      }
    }
  }
  return std::nullopt;
}

void clashing_codes(const Database& database, Findings& findings) {
  auto query = database.prepare(
      "SELECT r.code, min(s.id), max(s.id) FROM record r JOIN statement s ON s.subject = r.id AND s.property "
      "= 2 AND "
      "s.current = 1 AND s.presence = 0 WHERE r.code IS NOT NULL GROUP BY r.code HAVING count(DISTINCT r.id) "
      "> 1");
  while (query.step()) {
    findings.push_back({Severity::warning, "rule.code",
                        "two records carry the code " + quote(query.text(0)) + "; give one of them another",
                        name_of(database, query.integer(1)) + ", " + name_of(database, query.integer(2))});
  }
}

void several_answers(const Database& database, const Registry& registry, Findings& findings) {
  auto query = database.prepare(
      "SELECT r.uuid, s.property, min(s.id), max(s.id) FROM statement s JOIN record r ON r.id = s.subject "
      "WHERE s.current = 1 AND s.presence = 0 GROUP BY s.subject, s.property HAVING count(*) > 1");
  while (query.step()) {
    const auto* property = registry.find(static_cast<std::uint32_t>(query.integer(1)));
    if (property == nullptr || property->many) continue;
    findings.push_back({Severity::warning, "rule.answer",
                        who(database, query.uuid(0)) + " has two answers to " + quote(property->label) +
                            "; replace one of them",
                        name_of(database, query.integer(2)) + ", " + name_of(database, query.integer(3))});
  }
}

// Two answers of one day, and two pieces in one cell: neither can be entered, a merge can bring them.
void clashes_of_pieces(const Database& database, const Registry& registry, Findings& findings) {
  std::map<std::tuple<std::int64_t, std::int64_t, std::string>, std::int64_t> answers;
  std::map<std::pair<std::int64_t, Cell>, std::pair<std::int64_t, std::int64_t>> cells;
  auto query = database.prepare(
      "SELECT s.id, s.subject, s.property, s.content, r.uuid, (SELECT e.object FROM statement e WHERE "
      "e.subject = s.subject AND e.property = ?4 AND e.current = 1 LIMIT 1) FROM statement s JOIN record r "
      "ON r.id = s.subject WHERE s.property IN (?1, ?2, ?3) AND s.current = 1 AND s.presence = 0 ORDER BY "
      "s.id");
  query.bind(1, kInContainer).bind(2, kPieceState).bind(3, kPosition).bind(4, kPieceOf);
  while (query.step()) {
    const auto row = query.integer(0);
    const auto property = query.integer(2);
    const Content content = decode_content(query.bytes(3));
    const std::string places = name_of(database, row);
    if (property != kPosition) {
      const auto [known, first] =
          answers.try_emplace({query.integer(1), property, std::string(content.qualifier("on"))}, row);
      if (first) continue;
      findings.push_back({Severity::warning, property == kInContainer ? "rule.place" : "rule.answer",
                          who(database, query.uuid(4)) + " has two answers for one day to " +
                              quote(registry.find(static_cast<std::uint32_t>(property))->label) +
                              "; replace one of them",
                          name_of(database, known->second) + ", " + places});
      continue;
    }
    const auto cell = cell_of(content);
    if (!cell || query.is_null(5)) continue;
    const auto [known, first] =
        cells.try_emplace({query.integer(5), *cell}, std::pair(query.integer(1), row));
    if (first || known->second.first == query.integer(1)) continue;
    findings.push_back({Severity::warning, "rule.cell",
                        who(database, query.uuid(4)) + " sits in the cell of another piece, row " +
                            cell->row + ", column " + cell->column + "; look at the numbers again",
                        name_of(database, known->second.second) + ", " + places});
  }
}

// Every circle once: walks up from each record, colouring as it goes.
void circles(const Database& database, const Registry& registry, Findings& findings) {
  for (const auto id : kNesting) {
    std::unordered_map<std::int64_t, std::vector<std::pair<std::int64_t, std::int64_t>>> up;
    auto query = database.prepare(
        "SELECT subject, object, id FROM statement WHERE property = ?1 AND current = 1 AND presence = 0 AND "
        "object IS NOT NULL "
        "ORDER BY id");
    query.bind(1, id);
    std::vector<std::int64_t> starts;
    while (query.step()) {
      up[query.integer(0)].emplace_back(query.integer(1), query.integer(2));
      starts.push_back(query.integer(0));
    }
    std::unordered_map<std::int64_t, int> colour;  // 1 = on the way, 2 = done
    for (const auto start : starts) {
      std::vector<std::pair<std::int64_t, std::size_t>> path{{start, 0}};
      if (colour[start] != 0) continue;
      colour[start] = 1;
      while (!path.empty()) {
        auto& [here, next] = path.back();
        if (next == up[here].size()) {
          colour[here] = 2;
          path.pop_back();
          continue;
        }
        const auto [to, row] = up[here][next++];
        if (colour[to] == 1) {
          const auto& back = up[to].front();
          findings.push_back({Severity::warning, "rule.circle",
                              "records contain each other in a circle by " + quote(registry.find(id)->label) +
                                  "; withdraw one of the statements",
                              name_of(database, back.second) + ", " + name_of(database, row)});
        } else if (colour[to] == 0) {
          colour[to] = 1;
          path.emplace_back(to, 0);
        }
      }
    }
  }
}

}  // namespace

std::optional<std::string> breach(const Database& database, const Registry& registry, const Content& content,
                                  CellBook& book) {
  if (content.act != Act::state) return std::nullopt;
  const Property* property = registry.find(content.property);
  if (property == nullptr) return std::nullopt;
  if (property->id == property::code) {
    if (auto taken = code_taken(database, content)) return taken;
  }
  if (!property->many) {
    if (auto second = second_answer(database, *property, content)) return second;
  }
  if (is_of_a_day(property->id)) {
    if (auto second = same_day(database, *property, content)) return second;
  }
  if (property->id == kPosition) return cell_taken(database, content, book);
  if (nests(property->id)) return circle(database, *property, content);
  return std::nullopt;
}

Findings breaches(const Database& database, const Registry& registry) {
  Findings findings;
  clashing_codes(database, findings);
  several_answers(database, registry, findings);
  clashes_of_pieces(database, registry, findings);
  circles(database, registry, findings);
  return findings;
}

}  // namespace lathbook
