#include "core/storage/index.hpp"

#include <algorithm>

#include "core/base/edtf.hpp"
#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/evidence/encoding.hpp"
#include "core/storage/currentness.hpp"
#include "core/storage/record_facts.hpp"

namespace lathbook {

namespace {

constexpr std::int64_t kTarget = 1;
constexpr std::int64_t kGround = 2;
constexpr std::int64_t kWithdraw = 1;

}  // namespace

SearchText search_text(const Content& content, const Registry& registry) {
  SearchText found;
  const Property* property = registry.find(content.property);
  if (property == nullptr || content.act != Act::state) return found;
  switch (property->type) {
    case ValueType::text:
    case ValueType::code:
    case ValueType::choice:
      found.words = content.value;
      break;
    case ValueType::transcription:
      found.words = content.value;
      found.letters = fold(content.value);
      break;
    default:
      break;
  }
  for (const auto& citation : content.citations) {
    if (citation.quote.empty()) continue;
    if (!found.words.empty()) found.words += '\n';
    found.words += citation.quote;
  }
  if (!found.words.empty()) found.words = fold(found.words);
  return found;
}

Index::Index(const Database& database, const Registry& registry)
    : database_(database),
      registry_(registry),
      find_record_(database.prepare("SELECT id FROM record WHERE uuid = ?1")),
      insert_record_(database.prepare("INSERT INTO record(uuid) VALUES(?1)")),
      insert_link_(database.prepare(
          "INSERT INTO link(statement, role, target) VALUES(?1, ?2, ?3) ON CONFLICT DO NOTHING")),
      insert_citation_(
          database.prepare("INSERT INTO citation(statement, source) VALUES(?1, ?2) ON CONFLICT DO NOTHING")),
      insert_words_(database.prepare("INSERT INTO words(rowid, text) VALUES(?1, ?2)")),
      insert_letters_(database.prepare("INSERT INTO letters(rowid, text) VALUES(?1, ?2)")),
      against_(database.prepare(anything_against("statement"))) {
  auto chains = database.prepare("SELECT id, name FROM chain");
  while (chains.step()) chains_.emplace(chains.text(1), chains.integer(0));
}

std::int64_t Index::chain_row(const ChainId& chain) {
  const std::string name(reinterpret_cast<const char*>(chain.data()), chain.size());
  const auto found = chains_.find(name);
  if (found != chains_.end()) return found->second;
  database_.prepare("INSERT INTO chain(name) VALUES(?1)").bind_blob(1, name).run();
  return chains_.emplace(name, database_.last_row()).first->second;
}

std::optional<std::int64_t> Index::known_record(const Uuid& id) {
  const auto found = records_.find(id);
  if (found != records_.end()) return found->second;
  find_record_.bind(1, id);
  if (!find_record_.step()) return std::nullopt;
  const auto row = find_record_.integer(0);
  find_record_.reset();
  records_.emplace(id, row);
  return row;
}

std::int64_t Index::record_row(const Uuid& id) {
  if (const auto known = known_record(id)) return *known;
  insert_record_.bind(1, id).run();
  return records_.emplace(id, database_.last_row()).first->second;
}

std::int64_t Index::own_closure(const Content& content) const {
  const Property* property = registry_.find(content.property);
  if (content.property == property::private_record) return kClosedForEver;
  if (!content.privacy) return property != nullptr && property->private_by_default ? kClosedForEver : 0;
  if (content.privacy->until.empty()) return kClosedForEver;
  const auto until = Edtf::try_parse(content.privacy->until);
  return until && until->latest() ? *until->latest() + 1 : kClosedForEver;
}

Index::Columns Index::columns(const Content& content) {
  Columns columns;
  columns.closed = own_closure(content);
  if (content.subject != Uuid{}) columns.subject = record_row(content.subject);
  const Property* property = registry_.find(content.property);
  if (property != nullptr && property->type == ValueType::record) {
    if (const auto object = Uuid::parse(content.value)) columns.object = record_row(*object);
  }
  for (const auto& citation : content.citations) record_row(citation.source);
  return columns;
}

void Index::add_rows(std::int64_t row, const Content& content) {
  for (const auto& target : content.targets) insert_link_.bind(1, row).bind(2, kTarget).bind(3, target).run();
  for (const auto& ground : content.grounds) insert_link_.bind(1, row).bind(2, kGround).bind(3, ground).run();
  for (const auto& citation : content.citations) {
    insert_citation_.bind(1, row).bind(2, record_row(citation.source)).run();
  }
  const auto text = search_text(content, registry_);
  if (!text.words.empty()) insert_words_.bind(1, row).bind_text(2, text.words).run();
  if (!text.letters.empty()) insert_letters_.bind(1, row).bind_text(2, text.letters).run();
}

void Index::remove_rows(std::int64_t row, const Content& content) {
  // A table without content of its own needs the old words to forget them.
  const auto text = search_text(content, registry_);
  if (!text.words.empty()) {
    database_.prepare("INSERT INTO words(words, rowid, text) VALUES('delete', ?1, ?2)")
        .bind(1, row)
        .bind_text(2, text.words)
        .run();
  }
  if (!text.letters.empty()) {
    database_.prepare("INSERT INTO letters(letters, rowid, text) VALUES('delete', ?1, ?2)")
        .bind(1, row)
        .bind_text(2, text.letters)
        .run();
  }
  database_.prepare("DELETE FROM link WHERE statement = ?1").bind(1, row).run();
  database_.prepare("DELETE FROM citation WHERE statement = ?1").bind(1, row).run();
}

bool Index::anything_against_it(const Digest& id) {
  against_.bind(1, id);
  const bool any = against_.step();
  against_.reset();
  return any;
}

void Index::set_current(std::int64_t row, bool current) {
  database_.prepare("UPDATE statement SET current = ?2 WHERE id = ?1")
      .bind(1, row)
      .bind(2, current ? 1 : 0)
      .run();
}

std::vector<Digest> Index::within_reach(std::vector<Digest> targets) {
  auto query = database_.prepare(
      "SELECT l.target FROM statement s JOIN link l ON l.statement = s.id AND l.role = 1 WHERE s.digest = "
      "?1");
  const auto direct = targets.size();
  for (std::size_t at = 0; at < direct; ++at) {
    query.bind(1, targets[at]);
    while (query.step()) targets.push_back(query.digest(0));
    query.reset();
  }
  return targets;
}

void Index::settle_chain_of(std::vector<Digest> targets) {
  // Statements name only statements that existed before them, so this ends.
  while (!targets.empty()) {
    const Digest id = targets.back();
    targets.pop_back();
    auto query =
        database_.prepare("SELECT id, current, presence, subject, act FROM statement WHERE digest = ?1");
    query.bind(1, id);
    if (!query.step() || query.integer(2) != 0) continue;
    const auto row = query.integer(0);
    const bool current = !anything_against_it(id);
    if (!query.is_null(3)) touched_.insert(query.integer(3));
    if (current == (query.integer(1) != 0)) continue;
    set_current(row, current);
    if (query.integer(4) != kWithdraw) continue;  // a replacement that is replaced brings nothing back
    std::vector<Digest> theirs;
    auto next = database_.prepare("SELECT target FROM link WHERE statement = ?1 AND role = 1");
    next.bind(1, row);
    while (next.step()) theirs.push_back(next.digest(0));
    for (const auto& one : within_reach(std::move(theirs))) targets.push_back(one);
  }
}

void Index::settle(std::int64_t row, const Digest& id, const Content& content) {
  if (content.subject != Uuid{}) touched_.insert(record_row(content.subject));
  if (anything_against_it(id)) set_current(row, false);
  if (content.act == Act::withdraw) settle_chain_of(within_reach(content.targets));
  if (content.act == Act::state) settle_chain_of(content.targets);
  const auto closed = closed_by_references(row);
  if (closed != 0) {
    database_.prepare("UPDATE statement SET closed = max(closed, ?2) WHERE id = ?1")
        .bind(1, row)
        .bind(2, closed)
        .run();
  }
}

std::int64_t Index::closed_by_references(std::int64_t row) {
  // What is said of, or by naming, a hidden record is hidden with it; so is what rests on an interview
  // without consent, and the taking back of a hidden statement.
  auto query = database_.prepare(R"sql(
    SELECT max(closed) FROM (
      SELECT r.closed AS closed FROM statement s JOIN record r ON r.id = s.subject WHERE s.id = ?1
      UNION ALL SELECT r.closed FROM statement s JOIN record r ON r.id = s.object WHERE s.id = ?1
      UNION ALL SELECT max(r.closed, CASE WHEN r.silent = 1 AND r.id IS NOT s.subject THEN ?2 ELSE 0 END)
        FROM citation c JOIN record r ON r.id = c.source JOIN statement s ON s.id = c.statement
        WHERE c.statement = ?1
      UNION ALL SELECT t.closed FROM statement s JOIN link l ON l.statement = s.id AND l.role = 1
        JOIN statement t ON t.digest = l.target WHERE s.id = ?1 AND s.act = 1))sql");
  query.bind(1, row).bind(2, kClosedForEver);
  return query.step() ? query.integer(0) : 0;
}

void Index::spread_closure(std::int64_t record) {
  std::vector<std::int64_t> rows;
  auto query = database_.prepare(
      "SELECT id FROM statement WHERE subject = ?1 UNION SELECT id FROM statement WHERE object = ?1 "
      "UNION SELECT statement FROM citation WHERE source = ?1");
  query.bind(1, record);
  while (query.step()) rows.push_back(query.integer(0));
  auto content = database_.prepare("SELECT content FROM statement WHERE id = ?1");
  auto update = database_.prepare("UPDATE statement SET closed = ?2 WHERE id = ?1");
  for (const auto row : rows) {
    content.bind(1, row);
    if (!content.step() || content.is_null(0)) {
      content.reset();
      continue;
    }
    const auto own = own_closure(decode_content(content.bytes(0)));
    content.reset();
    update.bind(1, row).bind(2, std::max(own, closed_by_references(row))).run();
  }
}

void Index::refresh_record(std::int64_t record) {
  auto before = database_.prepare("SELECT closed, silent FROM record WHERE id = ?1");
  before.bind(1, record);
  if (!before.step()) return;
  const auto old_closed = before.integer(0);
  const auto old_silent = before.integer(1);
  RecordFacts facts;
  auto query = database_.prepare(
      "SELECT content, closed FROM statement WHERE subject = ?1 AND current = 1 AND presence = 0 AND "
      "property IN (" +
      RecordFacts::wanted() + ") ORDER BY entered, n, digest");
  query.bind(1, record);
  while (query.step()) {
    const auto content = decode_content(query.bytes(0));
    facts.add(content, own_closure(content));
  }
  facts.store(database_, record);
  if (facts.closed() != old_closed || (facts.silent() ? 1 : 0) != old_silent) spread_closure(record);
}

void Index::finish() {
  for (const auto record : touched_) refresh_record(record);
  touched_.clear();
}

void Index::settle_currentness() {
  // Only statements that supersede, or are superseded, can be anything but current.
  std::vector<Digest> targets;
  auto query = database_.prepare("SELECT DISTINCT target FROM link WHERE role = 1");
  while (query.step()) targets.push_back(query.digest(0));
  // Whatever a change of a withdrawal reaches is looked at again, so the order does not matter.
  settle_chain_of(std::move(targets));
  touched_.clear();
}

void Index::settle_all() {
  settle_currentness();
  auto query = database_.prepare(
      "SELECT subject, content FROM statement WHERE subject IS NOT NULL AND current = 1 AND presence = 0 AND "
      "property IN (" +
      RecordFacts::wanted() + ") ORDER BY subject, entered, n, digest");
  std::vector<std::int64_t> hidden;
  std::optional<std::int64_t> record;
  RecordFacts facts;
  const auto store = [&] {
    if (!record) return;
    facts.store(database_, *record);
    if (facts.closed() != 0 || facts.silent()) hidden.push_back(*record);
    facts = RecordFacts();
  };
  while (query.step()) {
    if (record != query.integer(0)) {
      store();
      record = query.integer(0);
    }
    const auto content = decode_content(query.bytes(1));
    facts.add(content, own_closure(content));
  }
  store();
  for (const auto row : hidden) spread_closure(row);
  std::vector<std::int64_t> withdrawals;
  auto taken_back = database_.prepare("SELECT id FROM statement WHERE act = 1");
  while (taken_back.step()) withdrawals.push_back(taken_back.integer(0));
  auto update = database_.prepare("UPDATE statement SET closed = max(closed, ?2) WHERE id = ?1");
  for (const auto row : withdrawals) update.bind(1, row).bind(2, closed_by_references(row)).run();
}

}  // namespace lathbook
