// One SQLite connection and its prepared statements; the only door to sqlite3.h is this room.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>

#include "core/base/api.hpp"
#include "core/base/digest.hpp"
#include "core/base/identifier.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace lathbook {

/// Statements of a connection that nobody uses at the moment, by their SQL: compiling one takes longer than
/// running most of them. Owns them.
class KeptStatements {
public:
  KeptStatements() = default;
  ~KeptStatements() { clear(); }
  KeptStatements(const KeptStatements&) = delete;
  KeptStatements& operator=(const KeptStatements&) = delete;
  /// The statement of this SQL, now the caller's; nullptr where none is kept.
  sqlite3_stmt* take(std::string_view sql);
  /// Keeps a statement without its values, or finalizes it where enough are kept.
  void keep(sqlite3_stmt* statement) noexcept;
  void clear() noexcept;

private:
  std::unordered_map<std::string, sqlite3_stmt*> by_sql_;
};

/// A prepared statement of one connection, which must outlive it. Parameters count from 1, columns from
/// 0. Every failure throws Error(io, corrupt or denied) carrying SQLite's own words and the SQL.
class LATHBOOK_API Prepared {
public:
  /// Takes the statement from those kept and gives it back at the end.
  Prepared(sqlite3* database, std::string_view sql, KeptStatements& kept);
  ~Prepared();
  Prepared(Prepared&& other) noexcept;
  Prepared& operator=(Prepared&& other) noexcept;
  Prepared(const Prepared&) = delete;
  Prepared& operator=(const Prepared&) = delete;

  Prepared& bind(int index, std::int64_t value);
  Prepared& bind_null(int index);
  /// The bytes are copied.
  Prepared& bind_text(int index, std::string_view text);
  Prepared& bind_blob(int index, std::string_view bytes);
  Prepared& bind(int index, const Digest& digest);
  Prepared& bind(int index, const Uuid& id);

  /// Moves to the next row; false at the end, which also resets.
  bool step();
  /// Runs to the end and resets.
  void run();
  void reset();

  bool is_null(int column) const;
  std::int64_t integer(int column) const;
  /// Valid until the next step or reset.
  std::string_view bytes(int column) const;
  std::string text(int column) const { return std::string(bytes(column)); }
  Digest digest(int column) const;
  Uuid uuid(int column) const;

private:
  sqlite3* database_;
  KeptStatements* kept_;
  sqlite3_stmt* statement_ = nullptr;
};

enum class OpenMode { read, write, create };

/// Owns a connection. Not for several threads at once.
class LATHBOOK_API Database {
public:
  /// `vfs` names a registered SQLite file system, empty = the default one. A reader of a folder that may
  /// not be written opens the file as unchanging. Throws Error(not_found, denied or corrupt).
  Database(const std::filesystem::path& file, OpenMode mode, const std::string& vfs = {});
  ~Database();
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;

  sqlite3* handle() const { return handle_; }
  Prepared prepare(std::string_view sql) const { return {handle_, sql, kept_}; }
  void execute(const std::string& sql) const;
  /// First column of the first row as a number; 0 without a row.
  std::int64_t number(std::string_view sql) const;
  std::int64_t last_row() const;
  std::int64_t changes() const;
  /// Empties the write-ahead file into the database, so that a copied folder is whole. Throws Error(denied)
  /// when a reader elsewhere holds it, Error(io) when the disk refuses.
  void truncate_wal() const;

private:
  sqlite3* handle_ = nullptr;
  mutable KeptStatements kept_;
  bool writes_ = false;
};

/// Begins at once (a writing one takes the write lock), rolls back in the destructor unless committed.
/// A reading one inside another transaction of the same connection does nothing of its own.
class LATHBOOK_API Transaction {
public:
  explicit Transaction(const Database& database, bool write = true);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();
  bool open() const { return open_; }

private:
  const Database& database_;
  bool open_ = true;
};

}  // namespace lathbook
