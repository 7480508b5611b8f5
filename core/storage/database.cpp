#include "core/storage/database.hpp"

#include <sqlite3.h>
#include <unistd.h>

#include <cstring>
#include <new>
#include <utility>

#include "core/base/error.hpp"
#include "core/base/text.hpp"

namespace lathbook {

namespace {

constexpr int kBusyMilliseconds = 5000;
constexpr int kTidyMilliseconds = 200;
// More texts than all of the program's queries of one archive have.
constexpr std::size_t kMostKept = 128;

[[noreturn]] void refuse(sqlite3* database, const std::string& doing) {
  const int code = sqlite3_errcode(database) & 0xff;
  const std::string words = sqlite3_errmsg(database);
  switch (code) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      fail(ErrorKind::denied,
           "another program is writing to this archive; wait until it has finished and try again");
    case SQLITE_FULL:
      fail(ErrorKind::io, "the disk is full; nothing was changed, make room and try again");
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
      fail(ErrorKind::denied, "the archive may not be written to: " + words);
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      fail(ErrorKind::corrupt, "the archive's database is damaged (" + words + "); restore it from a copy");
    case SQLITE_CANTOPEN:
      fail(ErrorKind::not_found, "the archive's database cannot be opened: " + words);
    default:
      fail(ErrorKind::io, "the archive's database refused: " + words + " (while " + doing + ")");
  }
}

}  // namespace

sqlite3_stmt* KeptStatements::take(std::string_view sql) {
  const auto found = by_sql_.find(std::string(sql));
  if (found == by_sql_.end()) return nullptr;
  sqlite3_stmt* const statement = found->second;
  by_sql_.erase(found);
  return statement;
}

void KeptStatements::keep(sqlite3_stmt* statement) noexcept {
  if (statement == nullptr) return;
  sqlite3_reset(statement);
  sqlite3_clear_bindings(statement);
  try {
    if (by_sql_.size() < kMostKept && by_sql_.try_emplace(sqlite3_sql(statement), statement).second) return;
  } catch (const std::bad_alloc&) {
    // Without memory it is not kept.
  }
  sqlite3_finalize(statement);
}

void KeptStatements::clear() noexcept {
  for (const auto& [sql, statement] : by_sql_) sqlite3_finalize(statement);
  by_sql_.clear();
}

Prepared::Prepared(sqlite3* database, std::string_view sql, KeptStatements& kept)
    : database_(database), kept_(&kept), statement_(kept.take(sql)) {
  if (statement_ != nullptr) return;
  if (sqlite3_prepare_v3(database, sql.data(), static_cast<int>(sql.size()), SQLITE_PREPARE_PERSISTENT,
                         &statement_, nullptr) != SQLITE_OK) {
    refuse(database, std::string(sql));
  }
}

Prepared::~Prepared() {
  kept_->keep(statement_);
}

Prepared::Prepared(Prepared&& other) noexcept
    : database_(other.database_), kept_(other.kept_), statement_(other.statement_) {
  other.statement_ = nullptr;
}

Prepared& Prepared::operator=(Prepared&& other) noexcept {
  std::swap(database_, other.database_);
  std::swap(kept_, other.kept_);
  std::swap(statement_, other.statement_);
  return *this;
}

Prepared& Prepared::bind(int index, std::int64_t value) {
  if (sqlite3_bind_int64(statement_, index, value) != SQLITE_OK) refuse(database_, "binding a number");
  return *this;
}

Prepared& Prepared::bind_null(int index) {
  if (sqlite3_bind_null(statement_, index) != SQLITE_OK) refuse(database_, "binding nothing");
  return *this;
}

Prepared& Prepared::bind_text(int index, std::string_view text) {
  if (sqlite3_bind_text64(statement_, index, text.data(), text.size(), SQLITE_TRANSIENT, SQLITE_UTF8) !=
      SQLITE_OK) {
    refuse(database_, "binding text");
  }
  return *this;
}

Prepared& Prepared::bind_blob(int index, std::string_view bytes) {
  if (sqlite3_bind_blob64(statement_, index, bytes.data(), bytes.size(), SQLITE_TRANSIENT) != SQLITE_OK) {
    refuse(database_, "binding bytes");
  }
  return *this;
}

Prepared& Prepared::bind(int index, const Digest& digest) {
  return bind_blob(index, {reinterpret_cast<const char*>(digest.bytes.data()), digest.bytes.size()});
}

Prepared& Prepared::bind(int index, const Uuid& id) {
  return bind_blob(index, {reinterpret_cast<const char*>(id.bytes.data()), id.bytes.size()});
}

bool Prepared::step() {
  switch (sqlite3_step(statement_)) {
    case SQLITE_ROW:
      return true;
    case SQLITE_DONE:
      reset();
      return false;
    default: {
      const std::string sql = sqlite3_sql(statement_);
      refuse(database_, sql);
    }
  }
}

void Prepared::run() {
  while (step()) {
  }
}

void Prepared::reset() {
  sqlite3_reset(statement_);
}

bool Prepared::is_null(int column) const {
  return sqlite3_column_type(statement_, column) == SQLITE_NULL;
}

std::int64_t Prepared::integer(int column) const {
  return sqlite3_column_int64(statement_, column);
}

std::string_view Prepared::bytes(int column) const {
  const void* data = sqlite3_column_blob(statement_, column);
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_, column));
  return data == nullptr ? std::string_view() : std::string_view(static_cast<const char*>(data), size);
}

Digest Prepared::digest(int column) const {
  const auto from = bytes(column);
  Digest out;
  if (from.size() != out.bytes.size())
    fail(ErrorKind::corrupt, "a digest in the database has a wrong length");
  std::memcpy(out.bytes.data(), from.data(), from.size());
  return out;
}

Uuid Prepared::uuid(int column) const {
  const auto from = bytes(column);
  Uuid out;
  if (from.size() != out.bytes.size()) fail(ErrorKind::corrupt, "an id in the database has a wrong length");
  std::memcpy(out.bytes.data(), from.data(), from.size());
  return out;
}

Database::Database(const std::filesystem::path& file, OpenMode mode, const std::string& vfs)
    : writes_(mode != OpenMode::read) {
  int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_URI | SQLITE_OPEN_NOMUTEX;
  if (mode == OpenMode::create) flags |= SQLITE_OPEN_CREATE;
  std::string name = file.string();
  // A folder on a read-only medium has no room for WAL's shared memory; what cannot change can be
  // read without it.
  if (mode == OpenMode::read && ::access(file.parent_path().c_str(), W_OK) != 0) {
    std::error_code failed;
    const auto waiting = std::filesystem::file_size(name + "-wal", failed);
    if (!failed && waiting != 0) {
      fail(ErrorKind::denied,
           "the folder of " + quote(name) +
               " may not be written to, and its last entries still lie in the "
               "write-ahead file beside it; copy the folder to where you may write, and read the copy");
    }
    flags = SQLITE_OPEN_READONLY | SQLITE_OPEN_URI | SQLITE_OPEN_NOMUTEX;
    std::string escaped;
    for (const char c : name) {
      if (c == '%' || c == '?' || c == '#') {
        constexpr std::string_view digits = "0123456789ABCDEF";
        escaped += '%';
        escaped += digits[static_cast<unsigned char>(c) >> 4U];
        escaped += digits[static_cast<unsigned char>(c) & 15U];
      } else {
        escaped += c;
      }
    }
    name = "file:" + escaped + "?immutable=1";
  }
  const int result = sqlite3_open_v2(name.c_str(), &handle_, flags, vfs.empty() ? nullptr : vfs.c_str());
  if (result != SQLITE_OK) {
    const std::string words = handle_ != nullptr ? sqlite3_errmsg(handle_) : "out of memory";
    sqlite3_close(handle_);
    handle_ = nullptr;
    fail(ErrorKind::not_found,
         "the archive's database " + quote(file.string()) + " cannot be opened: " + words);
  }
  sqlite3_busy_timeout(handle_, kBusyMilliseconds);
  sqlite3_extended_result_codes(handle_, 1);
  try {
    if (mode == OpenMode::create) execute("PRAGMA journal_mode=WAL");
    execute("PRAGMA foreign_keys=ON; PRAGMA trusted_schema=OFF; PRAGMA cell_size_check=ON");
    execute(writes_ ? "PRAGMA synchronous=FULL; PRAGMA secure_delete=ON; PRAGMA cache_size=-65536"
                    : "PRAGMA query_only=ON; PRAGMA cache_size=-8192");
  } catch (...) {
    sqlite3_close(handle_);
    handle_ = nullptr;
    throw;
  }
}

Database::~Database() {
  if (handle_ == nullptr) return;
  kept_.clear();
  // Best effort: a reader elsewhere may hold the file, and closing must neither throw nor keep anyone
  // waiting; the next writer to close tidies up as well.
  sqlite3_busy_timeout(handle_, kTidyMilliseconds);
  if (writes_) sqlite3_wal_checkpoint_v2(handle_, nullptr, SQLITE_CHECKPOINT_TRUNCATE, nullptr, nullptr);
  sqlite3_close_v2(handle_);
}

void Database::execute(const std::string& sql) const {
  if (sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) refuse(handle_, sql);
}

std::int64_t Database::number(std::string_view sql) const {
  Prepared query = prepare(sql);
  return query.step() ? query.integer(0) : 0;
}

std::int64_t Database::last_row() const {
  return sqlite3_last_insert_rowid(handle_);
}
std::int64_t Database::changes() const {
  return sqlite3_changes64(handle_);
}

void Database::truncate_wal() const {
  if (sqlite3_wal_checkpoint_v2(handle_, nullptr, SQLITE_CHECKPOINT_TRUNCATE, nullptr, nullptr) !=
      SQLITE_OK) {
    refuse(handle_, "emptying the write-ahead file");
  }
}

Transaction::Transaction(const Database& database, bool write) : database_(database) {
  // A reading inside a transaction of its own connection is already consistent.
  if (!write && sqlite3_get_autocommit(database.handle()) == 0) {
    open_ = false;
    return;
  }
  database.execute(write ? "BEGIN IMMEDIATE" : "BEGIN");
}

Transaction::~Transaction() {
  if (!open_) return;
  // Nothing can be done about a failed rollback here; SQLite rolls back by itself on the next opening.
  sqlite3_exec(database_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Transaction::commit() {
  database_.execute("COMMIT");
  open_ = false;
}

}  // namespace lathbook
