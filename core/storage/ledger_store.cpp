#include "core/storage/ledger_store.hpp"

#include <algorithm>
#include <optional>

#include "core/base/error.hpp"
#include "core/evidence/encoding.hpp"
#include "core/storage/schema.hpp"

namespace lathbook {

namespace {

std::string_view view(const Salt& salt) {
  return {reinterpret_cast<const char*>(salt.data()), salt.size()};
}

}  // namespace

LedgerStore::LedgerStore(const Database& database, const Registry& registry, bool bulk)
    : database_(database),
      registry_(registry),
      bulk_(bulk),
      index_(database, registry),
      find_(database.prepare("SELECT id, presence FROM statement WHERE digest = ?1")),
      find_erased_(database.prepare("SELECT 1 FROM erased WHERE digest = ?1")),
      insert_(database.prepare(
          "INSERT INTO statement(digest, chain, n, previous, entered, header, presence, salt, content, act, "
          "subject, property, object, current, closed) "
          "VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15)")),
      insert_seen_(database.prepare("INSERT INTO seen(statement, head) VALUES(?1, ?2)")) {
  if (bulk_) drop_indexes(database_);
}

LedgerStore::~LedgerStore() = default;

bool LedgerStore::is_erased(const Digest& id) {
  find_erased_.bind(1, id);
  const bool found = find_erased_.step();
  if (found) find_erased_.reset();
  return found;
}

Taken LedgerStore::take(const Sealed& sealed) {
  require_sound(sealed);
  const std::string header = encode_header(sealed.header);
  const Digest id = sha256(header);
  if (!bulk_) {
    find_.bind(1, id);
    if (find_.step()) {
      const auto row = find_.integer(0);
      const auto here = static_cast<Presence>(find_.integer(1));
      find_.reset();
      return take_known(row, here, sealed);
    }
  }
  // Another copy's word that a content is gone counts only with the expunge statement itself.
  const bool erased = is_erased(id);
  insert(sealed, id, header, erased);
  return erased ? Taken::expunged : Taken::added;
}

Taken LedgerStore::take_known(std::int64_t row, Presence here, const Sealed& sealed) {
  if (here == Presence::expunged) return Taken::expunged;
  if (here == Presence::present || sealed.presence != Presence::present) return Taken::known;
  fill(row, sealed, sealed.id());
  return Taken::filled;
}

void LedgerStore::insert(const Sealed& sealed, const Digest& id, const std::string& header, bool erased) {
  const auto& head = sealed.header;
  const bool present = sealed.presence == Presence::present && !erased;
  std::optional<Content> content;
  Index::Columns columns;
  if (present) {
    content = decode_content(sealed.content);
    columns = index_.columns(*content);
  }
  const auto presence = erased ? Presence::expunged : present ? Presence::present : Presence::withheld;
  const auto optional = [this](int index, const std::optional<std::int64_t>& value) {
    if (value) {
      insert_.bind(index, *value);
    } else {
      insert_.bind_null(index);
    }
  };
  insert_.bind(1, id).bind(2, index_.chain_row(head.chain)).bind(3, static_cast<std::int64_t>(head.number));
  if (head.previous) {
    insert_.bind(4, *head.previous);
  } else {
    insert_.bind_null(4);
  }
  insert_.bind(5, head.entered.seconds).bind_blob(6, header).bind(7, static_cast<std::int64_t>(presence));
  if (present) {
    insert_.bind_blob(8, view(sealed.salt)).bind_blob(9, sealed.content);
    insert_.bind(10, static_cast<std::int64_t>(content->act));
  } else {
    insert_.bind_null(8).bind_null(9).bind_null(10);
  }
  optional(11, columns.subject);
  optional(12,
           present && content->property != 0 ? std::optional<std::int64_t>(content->property) : std::nullopt);
  optional(13, columns.object);
  insert_.bind(14, erased ? 0 : 1).bind(15, columns.closed).run();
  const auto row = database_.last_row();
  for (const auto& seen : head.seen) insert_seen_.bind(1, row).bind(2, seen).run();
  if (content) index_.add_rows(row, *content);
  if (erased) database_.prepare("INSERT OR IGNORE INTO erased(digest) VALUES(?1)").bind(1, id).run();
  if (content && content->act == Act::expunge) {
    erase_later_.insert(erase_later_.end(), content->targets.begin(), content->targets.end());
  }
  if (bulk_) return;
  if (content) index_.settle(row, id, *content);
  move_heads(sealed, id);
}

void LedgerStore::fill(std::int64_t row, const Sealed& sealed, const Digest& id) {
  const auto content = decode_content(sealed.content);
  const auto columns = index_.columns(content);
  auto update = database_.prepare(
      "UPDATE statement SET presence = 0, salt = ?2, content = ?3, act = ?4, subject = ?5, property = ?6, "
      "object = ?7, closed = ?8 WHERE id = ?1");
  update.bind(1, row).bind_blob(2, view(sealed.salt)).bind_blob(3, sealed.content);
  update.bind(4, static_cast<std::int64_t>(content.act));
  const auto optional = [&update](int index, const std::optional<std::int64_t>& value) {
    if (value) {
      update.bind(index, *value);
    } else {
      update.bind_null(index);
    }
  };
  optional(5, columns.subject);
  optional(6, content.property != 0 ? std::optional<std::int64_t>(content.property) : std::nullopt);
  optional(7, columns.object);
  update.bind(8, columns.closed).run();
  index_.add_rows(row, content);
  if (content.act == Act::expunge) {
    erase_later_.insert(erase_later_.end(), content.targets.begin(), content.targets.end());
  }
  index_.settle(row, id, content);
}

void LedgerStore::move_heads(const Sealed& sealed, const Digest& id) {
  auto remove = database_.prepare("DELETE FROM head WHERE digest = ?1");
  if (sealed.header.previous) remove.bind(1, *sealed.header.previous).run();
  for (const auto& seen : sealed.header.seen) remove.bind(1, seen).run();
  database_
      .prepare(
          "INSERT OR IGNORE INTO head(digest) SELECT ?1 WHERE NOT EXISTS(SELECT 1 FROM statement WHERE "
          "previous = ?1) "
          "AND NOT EXISTS(SELECT 1 FROM seen WHERE head = ?1)")
      .bind(1, id)
      .run();
}

void LedgerStore::build_heads() {
  database_.execute(
      "INSERT INTO head(digest) SELECT s.digest FROM statement s "
      "WHERE NOT EXISTS(SELECT 1 FROM statement t WHERE t.previous = s.digest) "
      "AND NOT EXISTS(SELECT 1 FROM seen WHERE seen.head = s.digest)");
}

void LedgerStore::erase(const std::vector<Digest>& targets) {
  for (const auto& target : targets) {
    database_.prepare("INSERT OR IGNORE INTO erased(digest) VALUES(?1)").bind(1, target).run();
    find_.bind(1, target);
    if (!find_.step()) continue;
    const auto row = find_.integer(0);
    const bool gone = static_cast<Presence>(find_.integer(1)) == Presence::expunged;
    find_.reset();
    if (!gone) erase_row(row);
  }
}

void LedgerStore::erase_row(std::int64_t row) {
  auto query = database_.prepare("SELECT content, digest FROM statement WHERE id = ?1");
  query.bind(1, row);
  query.step();
  std::optional<Content> content;
  if (!query.is_null(0)) content = decode_content(query.bytes(0));
  const Digest id = query.digest(1);
  query.reset();
  if (content && content->act == Act::expunge) return;  // what says that words are gone must stay readable
  if (content) index_.remove_rows(row, *content);
  database_
      .prepare(
          "UPDATE statement SET presence = 2, salt = NULL, content = NULL, act = NULL, subject = NULL, "
          "property = NULL, "
          "object = NULL, current = 0, closed = 0 WHERE id = ?1")
      .bind(1, row)
      .run();
  erased_something_ = true;
  if (!content) return;
  index_.settle(row, id, *content);
  if (content->property == property::media) {
    if (const auto digest = Digest::from_hex(content->value)) orphans_.push_back(*digest);
  }
}

void LedgerStore::finish() {
  if (bulk_) {
    create_indexes(database_);
    build_heads();
    index_.settle_all();
    bulk_ = false;
  }
  const auto later = std::move(erase_later_);
  erase_later_.clear();
  erase(later);
  index_.finish();
  auto others = database_.prepare("SELECT content FROM statement WHERE property = ?1 AND presence = 0");
  if (orphans_.empty()) return;
  others.bind(1, property::media);
  while (others.step()) {
    const auto digest = Digest::from_hex(decode_content(others.bytes(0)).value);
    if (digest) orphans_.erase(std::remove(orphans_.begin(), orphans_.end(), *digest), orphans_.end());
  }
}

std::vector<Digest> LedgerStore::heads() const {
  std::vector<Digest> heads;
  auto query = database_.prepare("SELECT digest FROM head ORDER BY digest");
  while (query.step()) heads.push_back(query.digest(0));
  return heads;
}

}  // namespace lathbook
