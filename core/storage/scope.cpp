#include "core/storage/scope.hpp"

#include <algorithm>
#include <cstring>
#include <unordered_set>

#include "core/base/error.hpp"
#include "core/evidence/encoding.hpp"
#include "core/storage/currentness.hpp"

namespace lathbook {

namespace {

struct Node {
  std::int64_t row = 0;
  Header header;
};

std::optional<Node> node(Prepared& query, const Digest& id) {
  query.bind(1, id);
  if (!query.step()) return std::nullopt;
  Node found{query.integer(0), decode_header(query.bytes(1))};
  query.reset();
  return found;
}

constexpr std::string_view kNode = "SELECT id, header FROM statement WHERE digest = ?1";

// A temporary table is private to the connection, so even a reader may have one.
class MayWrite {
public:
  explicit MayWrite(const Database& database)
      : database_(database), reads_only_(database.number("PRAGMA query_only") != 0) {
    if (reads_only_) database_.execute("PRAGMA query_only=OFF");
  }
  ~MayWrite() {
    if (reads_only_) database_.execute("PRAGMA query_only=ON");
  }
  MayWrite(const MayWrite&) = delete;
  MayWrite& operator=(const MayWrite&) = delete;

private:
  const Database& database_;
  bool reads_only_;
};

void make_table(const Database& database) {
  database.execute(
      "DROP TABLE IF EXISTS temp.scope; CREATE TEMP TABLE scope(id INTEGER PRIMARY KEY, current INTEGER NOT "
      "NULL)");
}

// The statements of the state, with who is current in it.
constexpr std::string_view kInScope =
    "(SELECT t.id, t.digest, t.presence, t.act, scope.current FROM temp.scope JOIN statement t ON t.id = "
    "scope.id)";

// As in the archive of now (currentness.hpp), with what the state holds.
void settle(const Database& database) {
  std::vector<std::int64_t> work;
  const auto gather = [&work](Prepared& query) {
    while (query.step()) work.push_back(query.integer(0));
    query.reset();
  };
  auto named = database.prepare(
      "SELECT DISTINCT t.id FROM link l JOIN temp.scope c ON c.id = l.statement JOIN statement t ON t.digest "
      "= l.target JOIN temp.scope d ON d.id = t.id WHERE l.role = 1");
  gather(named);
  auto against = database.prepare(anything_against(kInScope));
  auto read = database.prepare(
      "SELECT scope.current, t.digest, t.act FROM temp.scope JOIN statement t ON t.id = scope.id WHERE "
      "scope.id = ?1");
  auto write = database.prepare("UPDATE temp.scope SET current = ?2 WHERE id = ?1");
  // What a withdrawal names, and what that names.
  auto reach = database.prepare(
      "WITH named(id) AS (SELECT t.id FROM link l JOIN statement t ON t.digest = l.target WHERE l.statement "
      "= "
      "?1 AND l.role = 1) SELECT id FROM named UNION ALL SELECT t.id FROM named JOIN link l ON l.statement = "
      "named.id AND l.role = 1 JOIN statement t ON t.digest = l.target");
  while (!work.empty()) {
    const auto row = work.back();
    work.pop_back();
    read.bind(1, row);
    if (!read.step()) continue;
    const bool was = read.integer(0) != 0;
    const Digest id = read.digest(1);
    const bool withdraws = read.integer(2) == 1;
    read.reset();
    against.bind(1, id);
    const bool current = !against.step();
    against.reset();
    if (current == was) continue;
    write.bind(1, row).bind(2, current ? 1 : 0).run();
    if (!withdraws) continue;
    reach.bind(1, row);
    gather(reach);
  }
}

Scope closure(const Database& database, std::vector<Digest> heads) {
  const MayWrite may_write(database);
  make_table(database);
  std::sort(heads.begin(), heads.end());
  auto query = database.prepare(kNode);
  auto insert = database.prepare(
      "INSERT INTO scope(id, current) SELECT id, presence <> 2 FROM statement WHERE id = ?1");
  std::unordered_set<Digest> reached(heads.begin(), heads.end());
  std::unordered_set<Digest> named;
  std::vector<Digest> work = heads;
  while (!work.empty()) {
    const Digest id = work.back();
    work.pop_back();
    const auto found = node(query, id);
    if (!found) continue;  // a gap: check() reports it
    insert.bind(1, found->row).run();
    const auto follow = [&](const Digest& next) {
      named.insert(next);
      if (reached.insert(next).second) work.push_back(next);
    };
    if (found->header.previous) follow(*found->header.previous);
    for (const auto& seen : found->header.seen) follow(seen);
  }
  heads.erase(
      std::remove_if(heads.begin(), heads.end(), [&](const Digest& id) { return named.contains(id); }),
      heads.end());
  settle(database);
  return {heads};
}

std::vector<Digest> unpack(std::string_view bytes) {
  std::vector<Digest> heads(bytes.size() / sizeof(Digest::bytes));
  for (std::size_t i = 0; i < heads.size(); ++i) {
    std::memcpy(heads[i].bytes.data(), bytes.data() + i * sizeof(Digest::bytes), sizeof(Digest::bytes));
  }
  return heads;
}

}  // namespace

Scope as_known_on(const Database& database, const std::optional<ChainId>& own, Day day) {
  if (!own) return by_entry_day(database, day);
  std::vector<Digest> work;
  auto last = database.prepare(
      "SELECT s.digest FROM statement s JOIN chain c ON c.id = s.chain WHERE c.name = ?1 ORDER BY s.n DESC "
      "LIMIT 1");
  last.bind_blob(1, {reinterpret_cast<const char*>(own->data()), own->size()});
  if (last.step()) work.push_back(last.digest(0));
  last.reset();
  // Walk back along what this copy wrote until the day is reached. Where its chain begins, what it saw
  // then is what it began from; what it merged later came later.
  std::vector<Digest> heads;
  std::unordered_set<Digest> done;
  auto query = database.prepare(kNode);
  while (!work.empty()) {
    const Digest id = work.back();
    work.pop_back();
    if (!done.insert(id).second) continue;
    const auto found = node(query, id);
    if (!found) continue;
    if (found->header.entered.local_day() <= day) {
      heads.push_back(id);
    } else if (found->header.previous) {
      work.push_back(*found->header.previous);
    } else {
      work.insert(work.end(), found->header.seen.begin(), found->header.seen.end());
    }
  }
  return closure(database, heads);
}

Scope by_entry_day(const Database& database, Day day) {
  const MayWrite may_write(database);
  make_table(database);
  auto insert = database.prepare("INSERT INTO scope(id, current) VALUES(?1, ?2)");
  auto query = database.prepare("SELECT id, digest, header, presence FROM statement");
  std::unordered_set<Digest> named;
  std::vector<Digest> inside;
  while (query.step()) {
    const auto header = decode_header(query.bytes(2));
    if (header.entered.local_day() > day) continue;
    insert.bind(1, query.integer(0)).bind(2, query.integer(3) != 2 ? 1 : 0).run();
    inside.push_back(query.digest(1));
    if (header.previous) named.insert(*header.previous);
    named.insert(header.seen.begin(), header.seen.end());
  }
  std::vector<Digest> heads;
  std::copy_if(inside.begin(), inside.end(), std::back_inserter(heads),
               [&](const Digest& id) { return !named.contains(id); });
  std::sort(heads.begin(), heads.end());
  settle(database);
  return {heads};
}

std::optional<std::vector<Digest>> heads_of(const Database& database, const Digest& fingerprint) {
  auto known = database.prepare("SELECT heads FROM state WHERE fingerprint = ?1");
  known.bind(1, fingerprint);
  if (known.step()) return unpack(known.bytes(0));
  // A state that ended with one statement which had seen all others needs no list.
  auto query = database.prepare("SELECT digest FROM statement");
  while (query.step()) {
    const Digest id = query.digest(0);
    if (fingerprint_of({id}) == fingerprint) return std::vector<Digest>{id};
  }
  return std::nullopt;
}

Scope by_fingerprint(const Database& database, const Digest& fingerprint) {
  const auto heads = heads_of(database, fingerprint);
  if (!heads) {
    fail(ErrorKind::not_found, "this archive never was in the state " + fingerprint.hex() +
                                   "; it was another archive, or statements of it are lost");
  }
  return closure(database, *heads);
}

}  // namespace lathbook
