// The tables of an archive (docs/format.md) and the way from older versions to this one.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/storage/database.hpp"

namespace lathbook {

/// Makes the tables in an empty database. Search and look-up indexes come with create_indexes().
void create_tables(const Database& database);
/// The indexes that a large restore builds last.
void create_indexes(const Database& database);
void drop_indexes(const Database& database);

/// Checks the mark and version of a database: throws Error(invalid) when it is no archive of this
/// program, Error(unsupported) naming both versions when it is newer. True when it is older.
bool needs_migration(const Database& database);
/// One step forward: the version it starts from and what it runs.
struct MigrationStep {
  std::int64_t from = 0;
  std::string sql;
};
const std::vector<MigrationStep>& released_steps();
/// Brings an older database forward, step by step, inside the caller's transaction. Digested bytes are
/// never touched. Throws Error(unsupported) when a step is missing.
LATHBOOK_API void migrate(const Database& database, const std::vector<MigrationStep>& steps, std::int64_t to);

}  // namespace lathbook
