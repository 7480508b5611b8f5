#include "core/storage/sqlite_reader.hpp"

#include <algorithm>
#include <cstring>
#include <tuple>

#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/evidence/encoding.hpp"
#include "core/storage/record_facts.hpp"

namespace lathbook {

namespace {

// Whether a code, which goes between the two, is carried by several records. Of one record it is looked up;
// for many all such codes are gathered once.
struct Doubled {
  const char* before;
  const char* after;
};
constexpr Doubled kLookedUp{"(SELECT count(*) FROM record other WHERE other.code = record.", ") > 1"};
constexpr Doubled kGathered{
    "", " IN (SELECT code FROM record WHERE code IS NOT NULL GROUP BY code HAVING count(*) > 1)"};

constexpr std::string_view kColumns = "s.id, s.digest, s.header, s.presence, s.content";

std::string list(const std::vector<std::uint32_t>& ids) {
  std::string text;
  for (const auto id : ids) {
    if (!text.empty()) text += ',';
    text += std::to_string(id);
  }
  return text;
}

std::vector<Digest> heads_now(const Database& database) {
  std::vector<Digest> heads;
  auto query = database.prepare("SELECT digest FROM head");
  while (query.step()) heads.push_back(query.digest(0));
  return heads;
}

std::string with_suffix(const std::string& code, const Uuid& id) {
  return code + "~" + id.text().substr(0, 4);
}

}  // namespace

Statement statement_of(const Prepared& row) {
  Statement statement;
  read_statement(row, statement);
  return statement;
}

void read_statement(const Prepared& row, Statement& into) {
  into.row = row.integer(0);
  into.id = row.digest(1);
  into.header = decode_header(row.bytes(2));
  into.presence = static_cast<Presence>(row.integer(3));
  if (into.presence == Presence::present)
    decode_content(row.bytes(4), into.content);
  else
    into.content = {};
  into.current = row.integer(5) != 0;
}

SqliteReader::SqliteReader(const Database& database, Uuid archive, std::shared_ptr<MediaStore> media,
                           bool with_private, std::optional<Scope> scope, Day day)
    : database_(database),
      archive_(archive),
      media_(std::move(media)),
      with_private_(with_private),
      is_head_(!scope),
      day_(day),
      transaction_(std::make_unique<Transaction>(database, false)) {
  fingerprint_ = fingerprint_of(scope ? scope->heads : heads_now(database));
  if (!is_head_) gather_records();
}

// The record table tells of the head only; an older state has its own names and codes.
void SqliteReader::gather_records() {
  std::unordered_map<std::string, int> codes;
  auto query = database_.prepare("SELECT r.uuid, r.closed, s.content, s.closed, r.id FROM " + from() +
                                 " JOIN record r ON r.id = s.subject WHERE s.current = 1 "
                                 "AND s.presence = 0 AND s.property IN (" +
                                 RecordFacts::wanted() + ") ORDER BY s.subject, s.chain, s.n, s.digest");
  std::optional<Uuid> record;
  std::int64_t closed = 0, row = 0;
  RecordFacts facts;
  const auto keep = [&] {
    if (record && may_show(closed) && facts.kind() != Kind::unknown) {
      RecordInfo info{*record, facts.kind(), facts.code(!with_private_), facts.name(!with_private_)};
      ++codes[info.code];
      then_.emplace(*record, Then{std::move(info), row});
    }
    facts = RecordFacts();
  };
  while (query.step()) {
    if (record != query.uuid(0)) {
      keep();
      record = query.uuid(0);
      closed = query.integer(1);
      row = query.integer(4);
    }
    facts.add(decode_content(query.bytes(2)), query.integer(3));
  }
  keep();
  for (auto& [id, then] : then_) {
    std::string& code = then.info.code;
    if (!code.empty() && codes[code] > 1) code = with_suffix(code, id);
  }
}

SqliteReader::~SqliteReader() = default;

// The statements of the reading, each with its state in it: always open to the reader's eyes.
std::string SqliteReader::from() const {
  std::string sql = is_head_ ? "(SELECT * FROM statement) s"
                             : "(SELECT t.id, t.digest, t.chain, t.n, t.header, "
                               "t.presence, t.content, t.subject, t.property, t.object, t.closed, t.act, "
                               "t.salt, scope.current AS current "
                               "FROM statement t JOIN temp.scope ON scope.id = t.id) s";
  return sql;
}

std::string SqliteReader::may_be_shown() const {
  return with_private_ ? std::string() : " AND (s.closed = 0 OR s.closed <= " + std::to_string(day_) + ")";
}

Reading SqliteReader::reading() const {
  Reading reading;
  reading.fingerprint = fingerprint_;
  reading.known_day = day_;
  reading.is_head = is_head_;
  reading.with_private = with_private_;
  if (!withheld_) withheld_ = count_withheld();
  reading.withheld = *withheld_;
  return reading;
}

std::uint64_t SqliteReader::count_withheld() const {
  // The middle term is that of the index over such statements, so that the open ones are not looked at.
  std::string sql = "SELECT count(*) FROM " + from() +
                    " WHERE s.current = 1 AND (s.presence <> 0 OR s.closed <> 0) AND (s.presence = 1";
  if (!with_private_)
    sql += " OR (s.presence = 0 AND s.closed > " + std::to_string(day_) + " AND s.closed <> 0)";
  return static_cast<std::uint64_t>(database_.number(sql + ")"));
}

// A kind of few records is read by its subjects; of many, in one pass over all statements.
bool SqliteReader::is_rare(Kind kind) const {
  constexpr std::int64_t kFew = 2000;
  return database_.number("SELECT count(*) FROM (SELECT 1 FROM record WHERE kind = " +
                          std::to_string(static_cast<int>(kind)) + " LIMIT " + std::to_string(kFew + 1) +
                          ")") <= kFew;
}

std::vector<std::int64_t> SqliteReader::chains() const {
  std::vector<std::int64_t> rows;
  auto query = database_.prepare("SELECT id FROM chain ORDER BY name");
  while (query.step()) rows.push_back(query.integer(0));
  return rows;
}

bool SqliteReader::run(Prepared& query, const OnStatement& on_statement) const {
  while (query.step()) {
    Statement statement = statement_of(query);
    if (!on_statement(statement)) {
      query.reset();
      return false;
    }
  }
  return true;
}

void SqliteReader::each_statement(const Query& wanted, const OnStatement& on_statement) const {
  std::string where = " WHERE s.presence = 0" + may_be_shown();
  if (wanted.current_only) where += " AND s.current = 1";
  if (wanted.subject) where += " AND s.subject = (SELECT id FROM record WHERE uuid = ?1)";
  if (wanted.object) where += " AND s.object = (SELECT id FROM record WHERE uuid = ?2)";
  if (wanted.source) {
    where +=
        " AND s.id IN (SELECT statement FROM citation WHERE source = (SELECT id FROM record WHERE uuid = "
        "?3))";
  }
  if (wanted.kind) {
    where += " AND s.subject IN (SELECT id FROM record WHERE kind = " +
             std::to_string(static_cast<int>(*wanted.kind)) + ")";
  }
  if (!wanted.properties.empty()) where += " AND s.property IN (" + list(wanted.properties) + ")";
  const auto bound = [&wanted](Prepared query) {
    if (wanted.subject) query.bind(1, *wanted.subject);
    if (wanted.object) query.bind(2, *wanted.object);
    if (wanted.source) query.bind(3, *wanted.source);
    return query;
  };
  const std::string head = "SELECT " + std::string(kColumns) + ", s.current FROM " + from();
  if (wanted.subject || wanted.object || wanted.source || (wanted.kind && is_rare(*wanted.kind))) {
    // Few rows: sort them. The exchange order is by the chain's name.
    auto query = bound(database_.prepare(head + " JOIN chain c ON c.id = s.chain" + where +
                                         " ORDER BY c.name, s.n, s.digest"));
    run(query, on_statement);
    return;
  }
  // Many rows: one pass of the ordered index for each chain, nothing to sort.
  for (const auto chain : chains()) {
    auto query = bound(database_.prepare(head + where + " AND s.chain = " + std::to_string(chain) +
                                         " ORDER BY s.n, s.digest"));
    if (!run(query, on_statement)) return;
  }
}

// "uuid, kind, code, name, closed, id, whether several carry the code".
std::string SqliteReader::record_columns(bool for_many) const {
  const std::string code = with_private_ ? "code" : "open_code";
  const Doubled& doubled = for_many ? kGathered : kLookedUp;
  return "uuid, kind, " + code + (with_private_ ? ", name" : ", open_name") + ", closed, id, " +
         doubled.before + code + doubled.after;
}

RecordInfo SqliteReader::info(const Prepared& row) const {
  RecordInfo record{row.uuid(0), static_cast<Kind>(row.integer(1)), row.text(2), row.text(3)};
  if (!record.code.empty() && row.integer(6) != 0) record.code = with_suffix(record.code, record.id);
  return record;
}

std::vector<SqliteReader::Listed> SqliteReader::listed(Kind kind) const {
  std::vector<Listed> found;
  // Codes are mostly given in their order: keys are kept only where they are not.
  bool in_order = true;
  std::string last;
  const auto keep = [&](RecordInfo info, std::int64_t row) {
    if (kind != Kind::unknown && info.kind != kind) return;
    if (in_order) {
      std::string key = sort_key(info.code);
      in_order = found.empty() || last < key ||
                 (last == key &&
                  std::tie(found.back().info.code, found.back().info.id) < std::tie(info.code, info.id));
      last.swap(key);
    }
    found.push_back({{}, std::move(info), row});
  };
  if (is_head_) {
    auto query = database_.prepare(
        "SELECT " + record_columns(true) + " FROM record WHERE kind " +
        (kind == Kind::unknown ? std::string("<> 0") : "= " + std::to_string(static_cast<int>(kind))));
    while (query.step()) {
      if (may_show(query.integer(4))) keep(info(query), query.integer(5));
    }
  } else {
    for (const auto& [id, then] : then_) keep(then.info, then.row);
  }
  if (in_order) return found;
  for (Listed& one : found) one.key = sort_key(one.info.code);
  std::sort(found.begin(), found.end(), [](const Listed& a, const Listed& b) {
    return std::tie(a.key, a.info.code, a.info.id) < std::tie(b.key, b.info.code, b.info.id);
  });
  return found;
}

void SqliteReader::each_record(Kind kind, const OnRecord& on_record) const {
  for (const auto& one : listed(kind)) {
    if (!on_record(one.info)) return;
  }
}

// The statements of a record lie together in their index; looking up each property there takes longer than
// passing over all of them. Which are wanted is asked here: SQLite would make its list anew for each record.
void SqliteReader::each_record_with(Kind kind, const std::vector<std::uint32_t>& properties,
                                    const OnRecordWith& on_record) const {
  auto query =
      database_.prepare("SELECT " + std::string(kColumns) + ", s.current, s.property FROM " + from() +
                        " WHERE s.subject = ?1 AND s.presence = 0 AND s.current = 1" + may_be_shown());
  const auto is_wanted = [&](std::int64_t property) {
    return properties.empty() ||
           std::find(properties.begin(), properties.end(), property) != properties.end();
  };
  std::vector<Statement> facts;
  const auto earlier = [](const Statement& a, const Statement& b) {
    return std::tie(a.header.chain, a.header.number, a.id) < std::tie(b.header.chain, b.header.number, b.id);
  };
  for (const auto& one : listed(kind)) {
    std::size_t read = 0;
    query.bind(1, one.row);
    while (query.step()) {
      if (!is_wanted(query.integer(6))) continue;
      if (read == facts.size()) facts.emplace_back();
      read_statement(query, facts[read++]);
    }
    facts.resize(read);
    if (!std::is_sorted(facts.begin(), facts.end(), earlier)) std::sort(facts.begin(), facts.end(), earlier);
    if (!on_record(one.info, facts)) return;
  }
}

std::optional<RecordInfo> SqliteReader::record(const Uuid& id) const {
  if (!is_head_) {
    const auto found = then_.find(id);
    return found == then_.end() ? std::nullopt : std::optional<RecordInfo>(found->second.info);
  }
  auto query =
      database_.prepare("SELECT " + record_columns(false) + " FROM record WHERE uuid = ?1 AND kind <> 0");
  query.bind(1, id);
  if (!query.step() || !may_show(query.integer(4))) return std::nullopt;
  return info(query);
}

std::vector<RecordInfo> SqliteReader::carriers(const std::string& code) const {
  std::vector<RecordInfo> found;
  if (!is_head_) {
    for (const auto& [id, then] : then_) {
      if (then.info.code == code || then.info.code.rfind(code + "~", 0) == 0) found.push_back(then.info);
    }
    return found;
  }
  auto query = database_.prepare(std::string("SELECT uuid FROM record WHERE ") +
                                 (with_private_ ? "code = ?1" : "code = ?1 AND open_code = ?1"));
  query.bind_text(1, code);
  while (query.step()) {
    if (auto one = record(query.uuid(0))) found.push_back(std::move(*one));
  }
  return found;
}

std::optional<RecordInfo> SqliteReader::by_code(
    std::string_view code, const std::function<std::vector<RecordInfo>(const std::string&)>& carriers) {
  const std::string bare(code.substr(0, code.rfind('~')));
  auto found = carriers(bare);
  if (bare != code) {
    found.erase(
        std::remove_if(found.begin(), found.end(), [&](const RecordInfo& one) { return one.code != code; }),
        found.end());
  }
  if (found.empty()) return std::nullopt;
  if (found.size() > 1) {
    std::string names;
    for (const auto& one : found) names += (names.empty() ? "" : " or ") + one.code;
    fail(ErrorKind::invalid, "the code " + quote(bare) + " is carried by " + std::to_string(found.size()) +
                                 " records; write " + names + ", or give one of them another code");
  }
  return found.front();
}

std::optional<RecordInfo> SqliteReader::record_by_code(std::string_view code) const {
  return by_code(code, [this](const std::string& bare) { return carriers(bare); });
}

std::optional<Statement> SqliteReader::statement(const Digest& id) const {
  std::string sql = "SELECT " + std::string(kColumns) + ", s.current FROM " + from() + " WHERE s.digest = ?1";
  auto query = database_.prepare(sql + may_be_shown());
  query.bind(1, id);
  if (!query.step()) return std::nullopt;
  return statement_of(query);
}

void SqliteReader::each_sealed(const std::function<bool(const Sealed&)>& on_sealed) const {
  for (const auto chain : chains()) {
    auto query =
        database_.prepare("SELECT s.header, s.presence, s.salt, s.content, s.closed, s.digest FROM " +
                          from() + " WHERE s.chain = " + std::to_string(chain) + " ORDER BY s.n, s.digest");
    while (query.step()) {
      Sealed sealed;
      sealed.header = decode_header(query.bytes(0));
      if (sealed.id() != query.digest(5)) {
        fail(ErrorKind::corrupt, "statement " + short_name(sealed.header.chain, sealed.header.number) +
                                     " has been changed: its header does not fit its digest; run the check");
      }
      sealed.presence = static_cast<Presence>(query.integer(1));
      const auto closed = query.integer(4);
      if (!with_private_ && sealed.presence == Presence::present && closed != 0 && closed > day_) {
        sealed.presence = Presence::withheld;
      }
      if (sealed.presence == Presence::present) {
        const auto salt = query.bytes(2);
        if (salt.size() != sealed.salt.size())
          fail(ErrorKind::corrupt, "the salt of a statement has a wrong length");
        std::memcpy(sealed.salt.data(), salt.data(), salt.size());
        sealed.content = query.bytes(3);
      }
      if (!on_sealed(sealed)) return;
    }
  }
}

std::uint64_t SqliteReader::count() const {
  return static_cast<std::uint64_t>(database_.number("SELECT count(*) FROM " + from()));
}

std::vector<MediaFile> SqliteReader::media() const {
  std::vector<Digest> digests;
  Query wanted;
  wanted.properties = {property::media};
  wanted.current_only = false;
  each_statement(wanted, [&](const Statement& statement) {
    if (const auto digest = Digest::from_hex(statement.content.value)) digests.push_back(*digest);
    return true;
  });
  std::sort(digests.begin(), digests.end());
  digests.erase(std::unique(digests.begin(), digests.end()), digests.end());
  std::vector<MediaFile> files;
  for (const auto& digest : digests) {
    if (media_->holds(digest)) files.push_back(media_->find(digest));
  }
  return files;
}

}  // namespace lathbook
