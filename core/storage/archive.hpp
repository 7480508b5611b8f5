// An archive folder opened: hands out readings, writing sessions, checks and merges.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/base/api.hpp"
#include "core/base/calendar.hpp"
#include "core/base/clock.hpp"
#include "core/base/error.hpp"
#include "core/evidence/ledger.hpp"
#include "core/evidence/reader.hpp"
#include "core/storage/media_store.hpp"

namespace lathbook {

/// Which state to read, and for whose eyes.
struct ReadOptions {
  bool with_private = false;
  std::optional<Day> known_on;        ///< as this copy knew it on that day
  bool by_entry_day = false;          ///< with known_on: by anyone's day of entry instead
  std::optional<Digest> fingerprint;  ///< the state with this fingerprint (excludes known_on)
};

struct OpenOptions {
  bool write = false;
  std::string vfs;                        ///< registered SQLite file system; empty = the default
  std::shared_ptr<MediaDisk> media_disk;  ///< null = the real disk
};

/// One writing session: a transaction in which statements are entered or taken over. Nothing is kept
/// unless commit() returns; then everything is, on disk.
class LATHBOOK_API Writer : public EntrySink, public LedgerSink {
public:
  ~Writer() override = default;
  /// Accepts a clock that runs behind the chain's last entry, or more than 30 days after it.
  virtual void accept_clock() = 0;
  /// Adds a statement that destroys the content of these for good.
  virtual Digest expunge(const std::vector<Digest>& targets, const std::string& why,
                         const std::optional<Uuid>& recorder) = 0;
  virtual std::optional<Statement> statement(const Digest& id) const = 0;
  /// A restored archive is the archive that was written out: takes over its id. Only when empty.
  virtual void adopt_identity(const Uuid& archive) = 0;
  virtual void commit() = 0;
};

/// What a merge did.
struct MergeReport {
  std::uint64_t offered = 0;
  std::uint64_t added = 0;
  std::uint64_t filled = 0;
  std::uint64_t expunged = 0;
  std::uint64_t media = 0;
  Findings findings;  ///< forks, clashes and the like that the union shows
};

/// Something found by words.
struct SearchHit {
  RecordInfo record;
  Digest statement;
  std::string property;
  std::string text;
};

struct Statistics {
  std::uint64_t statements = 0;
  std::uint64_t current = 0;
  std::uint64_t withheld = 0;
  std::uint64_t expunged = 0;
  std::uint64_t closed = 0;  ///< kept from public output
  std::uint64_t chains = 0;
  std::uint64_t media = 0;
  std::vector<std::pair<Kind, std::uint64_t>> records;
};

/// Owns the connection. One thread at a time. Two processes may read while one writes.
class LATHBOOK_API Archive {
public:
  /// Makes a new archive in a folder that does not exist or is empty. Throws Error(invalid) else.
  static void create(const std::filesystem::path& folder, const OpenOptions& options = {});
  /// Throws Error(not_found) when there is none, Error(unsupported) when it is from a newer program.
  /// The clock must outlive the archive.
  Archive(const std::filesystem::path& folder, const Clock& clock, const OpenOptions& options = {});
  ~Archive();
  Archive(const Archive&) = delete;
  Archive& operator=(const Archive&) = delete;

  Uuid id() const;
  const std::filesystem::path& folder() const;
  Digest fingerprint() const;
  /// Nothing when the archive has no statement yet.
  std::optional<Moment> last_entry() const;

  /// A consistent reading: holds one read transaction until it is destroyed, which must be before the
  /// archive. One at a time with by-day or by-fingerprint options.
  std::unique_ptr<StatementReader> read(const ReadOptions& options = {}) const;
  std::unique_ptr<LedgerSource> ledger(const ReadOptions& options = {}) const;

  /// Takes the write lock. `bulk`: the archive is empty and sealed statements come in exchange order.
  std::unique_ptr<Writer> write(bool bulk = false);

  /// Takes over everything of another archive that is not here. Nothing changes when it throws.
  MergeReport merge(const Archive& other);

  /// Everything a check can find: chains, digests, references, derived tables, rules across statements,
  /// media. With a fingerprint: whether the archive still holds that state.
  Findings check(const std::optional<Digest>& known_fingerprint, bool media) const;

  /// The statement meant by a short name ("3fa9c2d1-12", more of the chain's digits when needed), or by
  /// its 64-digit id. Throws Error(not_found) when there is none, Error(invalid) when several fit.
  Digest statement_named(std::string_view name) const;
  /// Sources that hold this very file, oldest first.
  std::vector<Uuid> sources_of(const Digest& medium) const;
  /// A code that is not in use: the stem with the number after the highest ("M-7"), written with as many
  /// digits as those that begin with a nought ("M-16" after "M-15", "M-02" after "M-01").
  std::string free_code(const std::string& stem) const;

  std::vector<SearchHit> search(const std::string& words, const ReadOptions& options, std::size_t most) const;
  Statistics statistics() const;
  MediaFile medium(const Digest& digest) const;

  struct Inside;

private:
  std::unique_ptr<Inside> inside_;
};

}  // namespace lathbook
