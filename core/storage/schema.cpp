#include "core/storage/schema.hpp"

#include <algorithm>

#include "core/base/error.hpp"
#include "core/storage/layout.hpp"

namespace lathbook {

namespace {

// statement: one row each. digest, header, salt and content are the record itself; every other column
// is derived from them and can be made again. presence: 0 present, 1 withheld, 2 expunged. closed: 0
// open, else the day from which it may be shown (the largest number = never); see docs/model.md.
// link.role: 1 = replaces, withdraws or expunges; 2 = is concluded from.
constexpr const char* kTables = R"sql(
CREATE TABLE meta(key TEXT PRIMARY KEY, value ANY NOT NULL) STRICT, WITHOUT ROWID;
CREATE TABLE chain(id INTEGER PRIMARY KEY, name BLOB NOT NULL UNIQUE) STRICT;
CREATE TABLE record(
  id INTEGER PRIMARY KEY, uuid BLOB NOT NULL UNIQUE, kind INTEGER NOT NULL DEFAULT 0,
  code TEXT, name TEXT, open_code TEXT, open_name TEXT,
  closed INTEGER NOT NULL DEFAULT 0, silent INTEGER NOT NULL DEFAULT 0) STRICT;
CREATE TABLE statement(
  id INTEGER PRIMARY KEY, digest BLOB NOT NULL, chain INTEGER NOT NULL REFERENCES chain(id),
  n INTEGER NOT NULL, previous BLOB, entered INTEGER NOT NULL, header BLOB NOT NULL,
  presence INTEGER NOT NULL, salt BLOB, content BLOB, act INTEGER,
  subject INTEGER REFERENCES record(id), property INTEGER, object INTEGER REFERENCES record(id),
  current INTEGER NOT NULL DEFAULT 1, closed INTEGER NOT NULL DEFAULT 0) STRICT;
CREATE TABLE seen(statement INTEGER NOT NULL REFERENCES statement(id), head BLOB NOT NULL,
  PRIMARY KEY(statement, head)) STRICT, WITHOUT ROWID;
CREATE TABLE link(statement INTEGER NOT NULL REFERENCES statement(id), role INTEGER NOT NULL,
  target BLOB NOT NULL, PRIMARY KEY(statement, role, target)) STRICT, WITHOUT ROWID;
CREATE TABLE citation(statement INTEGER NOT NULL REFERENCES statement(id),
  source INTEGER NOT NULL REFERENCES record(id), PRIMARY KEY(statement, source)) STRICT, WITHOUT ROWID;
CREATE TABLE erased(digest BLOB PRIMARY KEY) STRICT, WITHOUT ROWID;
CREATE TABLE head(digest BLOB PRIMARY KEY) STRICT, WITHOUT ROWID;
CREATE TABLE state(fingerprint BLOB PRIMARY KEY, heads BLOB NOT NULL) STRICT, WITHOUT ROWID;
CREATE VIRTUAL TABLE words USING fts5(text, content='', tokenize='unicode61 remove_diacritics 2');
CREATE VIRTUAL TABLE letters USING fts5(text, content='', tokenize='trigram');
)sql";

constexpr const char* kIndexes = R"sql(
CREATE UNIQUE INDEX statement_digest ON statement(digest);
CREATE INDEX statement_order ON statement(chain, n, digest);
CREATE INDEX statement_previous ON statement(previous) WHERE previous IS NOT NULL;
CREATE INDEX statement_subject ON statement(subject, property) WHERE subject IS NOT NULL;
CREATE INDEX statement_object ON statement(object, property) WHERE object IS NOT NULL;
CREATE INDEX statement_closed ON statement(closed) WHERE presence <> 0 OR closed <> 0;
CREATE INDEX seen_head ON seen(head);
CREATE INDEX link_target ON link(target, role);
CREATE INDEX citation_source ON citation(source);
CREATE INDEX record_code ON record(code) WHERE code IS NOT NULL;
)sql";

}  // namespace

void create_tables(const Database& database) {
  database.execute(kTables);
  database.execute("PRAGMA application_id=" + std::to_string(layout::application_id));
  database.execute("PRAGMA user_version=" + std::to_string(layout::schema_version));
}

void create_indexes(const Database& database) {
  database.execute(kIndexes);
}

void drop_indexes(const Database& database) {
  database.execute(
      "DROP INDEX statement_digest; DROP INDEX statement_order; DROP INDEX statement_previous;"
      "DROP INDEX statement_subject; DROP INDEX statement_object; DROP INDEX IF EXISTS statement_closed;"
      "DROP INDEX seen_head;"
      "DROP INDEX link_target; DROP INDEX citation_source; DROP INDEX record_code");
}

bool needs_migration(const Database& database) {
  if (database.number("PRAGMA application_id") != layout::application_id) {
    fail(ErrorKind::invalid, "this is not the database of a Lathbook archive");
  }
  const auto version = database.number("PRAGMA user_version");
  if (version > layout::schema_version) {
    fail(ErrorKind::unsupported, "this archive was written by a newer program (its tables are version " +
                                     std::to_string(version) + ", this program knows up to " +
                                     std::to_string(layout::schema_version) + "); use the newer program");
  }
  return version < layout::schema_version;
}

const std::vector<MigrationStep>& released_steps() {
  // Steps from version n to n + 1, oldest first. Version 2 counts a replacement that is itself replaced
  // (currentness.hpp); who is current is settled anew after any step.
  static const std::vector<MigrationStep> steps{
      {1,
       "CREATE INDEX IF NOT EXISTS statement_closed ON statement(closed) WHERE presence <> 0 OR closed <> "
       "0"}};
  return steps;
}

void migrate(const Database& database, const std::vector<MigrationStep>& steps, std::int64_t to) {
  for (auto version = database.number("PRAGMA user_version"); version < to; ++version) {
    const auto step = std::find_if(steps.begin(), steps.end(),
                                   [version](const MigrationStep& one) { return one.from == version; });
    if (step == steps.end()) {
      fail(ErrorKind::unsupported, "this archive's tables are of version " + std::to_string(version) +
                                       ", which this program cannot bring forward");
    }
    database.execute(step->sql);
    database.execute("PRAGMA user_version=" + std::to_string(version + 1));
  }
}

}  // namespace lathbook
