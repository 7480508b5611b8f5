// What exchange needs of a store: sealed statements in and out, and a place to enter new ones.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"
#include "core/evidence/reader.hpp"
#include "core/evidence/statement.hpp"

namespace lathbook {

/// A file kept by an archive, named by its SHA-256.
struct MediaFile {
  Digest digest;
  std::uint64_t bytes = 0;
  std::filesystem::path path;  ///< where it can be read now
};

/// Gives every statement of one state in exchange order (chain, number, id), as sealed. In a public
/// reading, private contents come out as withheld.
class LATHBOOK_API LedgerSource {
public:
  virtual ~LedgerSource();
  virtual void each_sealed(const std::function<bool(const Sealed&)>& on_sealed) const = 0;
  virtual std::uint64_t count() const = 0;
  virtual Digest fingerprint() const = 0;
  virtual Uuid archive_id() const = 0;
  /// Media cited by what comes out, sorted by digest.
  virtual std::vector<MediaFile> media() const = 0;
};

/// What became of a sealed statement that was offered.
enum class Taken : std::uint8_t {
  added,    ///< new here
  known,    ///< already here, nothing changed
  filled,   ///< was withheld here, its content is now present
  expunged  ///< its content was expunged here and stays so
};

/// Takes sealed statements as they are (restore, merge): nothing is written anew. All or nothing: the
/// owner commits. Order of arrival is free. Throws Error(corrupt) naming a statement whose content does
/// not fit its digest.
class LATHBOOK_API LedgerSink {
public:
  virtual ~LedgerSink();
  virtual Taken take(const Sealed& sealed) = 0;
};

/// Enters new statements under this copy's chain (command line, import of sheets, drafts of plugins).
/// All or nothing: the owner commits.
class LATHBOOK_API EntrySink {
public:
  virtual ~EntrySink();
  /// Makes a record: a kind statement and, unless code is empty, a code statement. `recorder` may be nil.
  /// Throws Error(invalid) when the code is taken.
  virtual Uuid make_record(Kind kind, std::string_view code, const std::optional<Uuid>& recorder) = 0;
  /// Completes, validates and appends one statement; throws Error(invalid) with the first fault's
  /// sentence when it breaks a rule (nothing is then added).
  virtual Digest add(Content content) = 0;
  virtual std::optional<RecordInfo> record_by_code(std::string_view code) const = 0;
  virtual std::optional<RecordInfo> record(const Uuid& id) const = 0;
  /// Codes nearest to one that does not exist, best first, at most three.
  virtual std::vector<std::string> nearest_codes(std::string_view code) const = 0;
  /// Copies a file into the archive's media (noticed by content when it is there already).
  virtual MediaFile add_media(const std::filesystem::path& file) = 0;
};

}  // namespace lathbook
