#include "core/storage/archive.hpp"

#include <algorithm>
#include <charconv>

#include "core/base/text.hpp"
#include "core/evidence/encoding.hpp"
#include "core/storage/check.hpp"
#include "core/storage/index.hpp"
#include "core/storage/layout.hpp"
#include "core/storage/schema.hpp"
#include "core/storage/scope.hpp"
#include "core/storage/session.hpp"
#include "core/storage/sqlite_reader.hpp"
#include "core/storage/sweep.hpp"

namespace lathbook {

namespace fs = std::filesystem;

struct Archive::Inside {
  fs::path folder;
  const Clock& clock;
  OpenOptions options;
  Database database;
  std::shared_ptr<MediaStore> media;
  Uuid id;

  Inside(fs::path where, const Clock& time, OpenOptions how)
      : folder(std::move(where)),
        clock(time),
        options(std::move(how)),
        database(layout::database(folder), options.write ? OpenMode::write : OpenMode::read, options.vfs),
        media(std::make_shared<MediaStore>(folder, options.media_disk)) {
    if (needs_migration(database)) {
      if (!options.write) {
        fail(ErrorKind::unsupported,
             "this archive was written by an older program; open it once for writing "
             "(lathbook check --bring-forward) to bring it forward");
      }
      Transaction transaction(database);
      migrate(database, released_steps(), layout::schema_version);
      Index(database, Registry::standard()).settle_all();
      transaction.commit();
    }
    auto query = database.prepare("SELECT value FROM meta WHERE key = 'archive'");
    if (!query.step())
      fail(ErrorKind::corrupt, "the archive's database lacks its name; restore it from a copy");
    id = query.uuid(0);
    if (options.write) finish_sweep();
  }

  // What an interrupted expunging left is wiped as soon as it can be; until then the note stays.
  void finish_sweep() const {
    try {
      sweep(database, *media);
    } catch (const Error&) {
      return;
    }
  }

  std::optional<ChainId> own_chain() const {
    auto query = database.prepare("SELECT value FROM meta WHERE key = 'own_chain'");
    if (!query.step()) return std::nullopt;
    ChainId chain{};
    const auto name = query.bytes(0);
    std::copy_n(name.begin(), std::min(name.size(), chain.size()), chain.begin());
    return chain;
  }

  std::optional<Moment> last_entry() const {
    // CROSS keeps the few heads first; SQLite would walk through all statements instead.
    auto query = database.prepare(
        "SELECT s.header FROM head CROSS JOIN statement s ON s.digest = head.digest ORDER BY s.entered DESC, "
        "s.digest LIMIT 1");
    if (!query.step()) return std::nullopt;
    return decode_header(query.bytes(0)).entered;
  }

  std::unique_ptr<SqliteReader> reader(const ReadOptions& wanted) const {
    if (wanted.fingerprint && wanted.known_on) {
      fail(ErrorKind::invalid, "ask either for a day or for a fingerprint, not for both");
    }
    std::optional<Scope> scope;
    if (wanted.fingerprint) {
      scope = by_fingerprint(database, *wanted.fingerprint);
    } else if (wanted.known_on) {
      scope = wanted.by_entry_day ? by_entry_day(database, *wanted.known_on)
                                  : as_known_on(database, own_chain(), *wanted.known_on);
    }
    // The day of a reading is that of its last entry, never the wall clock, so that it can be repeated.
    Day day = 0;
    if (scope) {
      const auto seconds =
          database.number("SELECT max(t.entered) FROM temp.scope JOIN statement t ON t.id = scope.id");
      day = wanted.known_on.value_or(Moment{seconds, 0}.local_day());
    } else if (const auto last = last_entry()) {
      day = last->local_day();
    }
    return std::make_unique<SqliteReader>(database, id, media, wanted.with_private, scope, day);
  }
};

void Archive::create(const fs::path& folder, const OpenOptions& options) {
  std::error_code failed;
  if (fs::exists(folder, failed)) {
    if (!fs::is_directory(folder, failed)) {
      fail(ErrorKind::invalid, quote(folder.string()) + " is a file; name a new folder for the archive");
    }
    if (!fs::is_empty(folder, failed)) {
      fail(ErrorKind::invalid, quote(folder.string()) + " is not empty; name a new folder for the archive");
    }
  }
  fs::create_directories(folder, failed);
  if (!failed) fs::create_directories(layout::media(folder), failed);
  if (failed)
    fail(ErrorKind::io, "cannot make the folder " + quote(folder.string()) + ": " + failed.message());
  const Database database(layout::database(folder), OpenMode::create, options.vfs);
  Transaction transaction(database);
  create_tables(database);
  create_indexes(database);
  database.prepare("INSERT INTO meta(key, value) VALUES('archive', ?1)").bind(1, Uuid::random()).run();
  transaction.commit();
}

Archive::Archive(const fs::path& folder, const Clock& clock, const OpenOptions& options) {
  std::error_code failed;
  if (!fs::exists(layout::database(folder), failed)) {
    fail(ErrorKind::not_found,
         "there is no archive in " + quote(folder.string()) + "; make one with 'lathbook begin'");
  }
  inside_ = std::make_unique<Inside>(folder, clock, options);
}

Archive::~Archive() = default;

Uuid Archive::id() const {
  return inside_->id;
}
const fs::path& Archive::folder() const {
  return inside_->folder;
}
Digest Archive::fingerprint() const {
  return inside_->reader({})->fingerprint();
}
std::optional<Moment> Archive::last_entry() const {
  return inside_->last_entry();
}

std::unique_ptr<StatementReader> Archive::read(const ReadOptions& options) const {
  return inside_->reader(options);
}
std::unique_ptr<LedgerSource> Archive::ledger(const ReadOptions& options) const {
  return inside_->reader(options);
}

std::unique_ptr<Writer> Archive::write(bool bulk) {
  if (!inside_->options.write) fail(ErrorKind::denied, "the archive was opened for reading only");
  auto session = std::make_unique<Session>(inside_->database, layout::database(inside_->folder), inside_->id,
                                           inside_->media, inside_->clock, bulk);
  if (bulk && inside_->database.number("SELECT count(*) FROM statement") != 0) {
    fail(ErrorKind::invalid, "only an empty archive can be restored into; make a new one, or merge instead");
  }
  return session;
}

MergeReport Archive::merge(const Archive& other) {
  MergeReport report;
  const Findings before = gaps(inside_->database);
  auto session = write();
  const auto theirs =
      other.ledger({.with_private = true, .known_on = {}, .by_entry_day = false, .fingerprint = {}});
  theirs->each_sealed([&](const Sealed& sealed) {
    ++report.offered;
    switch (session->take(sealed)) {
      case Taken::added:
        ++report.added;
        break;
      case Taken::filled:
        ++report.filled;
        break;
      case Taken::expunged:
        ++report.expunged;
        break;
      case Taken::known:
        break;
    }
    return true;
  });
  for (const auto& finding : gaps(inside_->database)) {
    if (std::find(before.begin(), before.end(), finding) == before.end()) {
      fail(ErrorKind::corrupt, "the other archive is not whole: " + finding.text + " (" + finding.place +
                                   "); nothing was merged");
    }
  }
  // A file cited only by what is expunged here must not come back.
  const auto named = named_media(inside_->database);
  for (const auto& file : theirs->media()) {
    if (named.count(file.digest) == 0 || inside_->media->holds(file.digest)) continue;
    if (inside_->media->add(file.path).digest != file.digest) {
      fail(ErrorKind::corrupt, "a file of the other archive has been changed: " + file.digest.hex());
    }
    ++report.media;
  }
  session->commit();
  report.findings = forks(inside_->database);
  const auto clashes = rule_findings(inside_->database);
  report.findings.insert(report.findings.end(), clashes.begin(), clashes.end());
  return report;
}

Findings Archive::check(const std::optional<Digest>& known_fingerprint, bool media) const {
  auto findings = check_database(inside_->database, known_fingerprint);
  if (media) {
    std::vector<Digest> digests;
    for (const auto& digest : named_media(inside_->database)) digests.push_back(digest);
    const auto more = inside_->media->check(digests);
    findings.insert(findings.end(), more.begin(), more.end());
  }
  return findings;
}

std::vector<SearchHit> Archive::search(const std::string& words, const ReadOptions& options,
                                       std::size_t most) const {
  // Each word is looked for as it stands, as the beginning of a longer one; nothing typed is an operator.
  std::string match;
  for (const auto& word : split(fold(words), ' ')) {
    if (word.empty()) continue;
    std::string safe;
    for (const char c : word) safe += c == '"' ? std::string("\"\"") : std::string(1, c);
    match += (match.empty() ? "\"" : " \"") + safe + "\"*";
  }
  std::vector<SearchHit> hits;
  if (match.empty()) return hits;
  const auto reader = inside_->reader(options);
  const auto& database = inside_->database;
  std::vector<Digest> found;
  const auto gather = [&](const std::string& sql, const std::string& what) {
    auto query = database.prepare(sql);
    query.bind_text(1, what);
    while (query.step()) {
      const auto id = query.digest(0);
      if (std::find(found.begin(), found.end(), id) == found.end()) found.push_back(id);
    }
  };
  gather(
      "SELECT s.digest FROM words w JOIN statement s ON s.id = w.rowid WHERE words MATCH ?1 ORDER BY w.rank, "
      "s.id",
      match);
  // Letters of marks: any run of three or more, wherever it stands.
  const std::string letters = fold(words);
  if (code_points(letters).size() >= 3) {
    std::string safe = "\"";
    for (const char c : letters) safe += c == '"' ? std::string("\"\"") : std::string(1, c);
    gather(
        "SELECT s.digest FROM letters w JOIN statement s ON s.id = w.rowid WHERE letters MATCH ?1 ORDER BY "
        "s.id",
        safe + "\"");
  }
  for (const auto& id : found) {
    if (hits.size() == most) break;
    const auto statement = reader->statement(id);
    if (!statement || !statement->current) continue;
    const auto record = reader->record(statement->content.subject);
    if (!record) continue;
    const Property* property = Registry::standard().find(statement->content.property);
    hits.push_back({*record, id, property == nullptr ? "" : property->name, statement->content.value});
  }
  return hits;
}

Digest Archive::statement_named(std::string_view name) const {
  if (const auto id = Digest::from_hex(name)) return *id;
  const auto hyphen = name.rfind('-');
  const std::string what = "statements are named like 3fa9c2d1-12; " + quote(name) + " is not of that form";
  if (hyphen == std::string_view::npos || hyphen == 0) fail(ErrorKind::invalid, what);
  const std::string prefix(name.substr(0, hyphen));
  const std::string digits(name.substr(hyphen + 1));
  if (digits.empty() || digits.size() > 18 || digits.find_first_not_of("0123456789") != std::string::npos) {
    fail(ErrorKind::invalid, what);
  }
  auto query = inside_->database.prepare(
      "SELECT s.digest FROM statement s JOIN chain c ON c.id = s.chain WHERE substr(lower(hex(c.name)), 1, "
      "length(?1)) = ?1 "
      "AND s.n = ?2");
  query.bind_text(1, prefix).bind(2, std::stoll(digits));
  std::vector<Digest> found;
  while (query.step()) found.push_back(query.digest(0));
  if (found.empty()) fail(ErrorKind::not_found, "there is no statement " + quote(name) + " in this archive");
  if (found.size() > 1) {
    fail(ErrorKind::invalid, std::to_string(found.size()) + " statements are called " + quote(name) +
                                 "; write more digits of the chain, or the whole id " + found.front().hex() +
                                 " or " + found.back().hex());
  }
  return found.front();
}

std::vector<Uuid> Archive::sources_of(const Digest& medium) const {
  std::vector<Uuid> sources;
  auto query = inside_->database.prepare(
      "SELECT content FROM statement WHERE property = ?1 AND presence = 0 AND current = 1 ORDER BY entered, "
      "n");
  query.bind(1, property::media);
  while (query.step()) {
    const auto content = decode_content(query.bytes(0));
    if (content.value == medium.hex()) sources.push_back(content.subject);
  }
  return sources;
}

std::string Archive::free_code(const std::string& stem) const {
  constexpr std::uint64_t kMostCounted = 999'999'999;  // more is a date or a catalogue number
  const std::string front = stem + "-";
  std::uint64_t last = 0;
  std::size_t width = 0;
  auto query = inside_->database.prepare("SELECT code FROM record WHERE substr(code, 1, ?1) = ?2");
  query.bind(1, static_cast<std::int64_t>(front.size())).bind_text(2, front);
  while (query.step()) {
    const std::string digits = query.text(0).substr(front.size());
    std::uint64_t number = 0;
    const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), number);
    if (read.ec != std::errc() || read.ptr != digits.data() + digits.size() || number > kMostCounted)
      continue;
    last = std::max(last, number);
    if (digits.front() == '0') width = std::max(width, digits.size());
  }
  std::string digits = std::to_string(last + 1);
  if (digits.size() < width) digits.insert(0, width - digits.size(), '0');
  return front + digits;
}

Statistics Archive::statistics() const {
  Statistics statistics;
  const auto& database = inside_->database;
  const auto count = [&](const char* sql) { return static_cast<std::uint64_t>(database.number(sql)); };
  statistics.statements = count("SELECT count(*) FROM statement");
  statistics.current = count("SELECT count(*) FROM statement WHERE current = 1");
  statistics.withheld = count("SELECT count(*) FROM statement WHERE presence = 1");
  statistics.expunged = count("SELECT count(*) FROM statement WHERE presence = 2");
  statistics.closed = count("SELECT count(*) FROM statement WHERE closed <> 0");
  statistics.chains = count("SELECT count(*) FROM chain");
  statistics.media = named_media(database).size();
  auto query =
      database.prepare("SELECT kind, count(*) FROM record WHERE kind <> 0 GROUP BY kind ORDER BY kind");
  while (query.step()) {
    statistics.records.emplace_back(static_cast<Kind>(query.integer(0)),
                                    static_cast<std::uint64_t>(query.integer(1)));
  }
  return statistics;
}

MediaFile Archive::medium(const Digest& digest) const {
  return inside_->media->find(digest);
}

}  // namespace lathbook
