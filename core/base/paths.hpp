// Files: whole reads with a limit, writes that are all there or not at all, joins that stay under a root.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <ostream>
#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

/// Reads a regular file. Throws Error(not_found) when it is missing, Error(invalid) when it is a folder,
/// a device or larger than `max_bytes`, Error(denied) when it may not be read, Error(io) otherwise.
LATHBOOK_API std::string read_whole_file(const std::filesystem::path& path, std::uint64_t max_bytes);

/// Puts these bytes in place of the file: after return they are on the disk under that name; after a
/// throw (Error(io) or Error(denied)) the old file, or its absence, is untouched.
LATHBOOK_API void write_whole_file(const std::filesystem::path& path, std::string_view bytes);

/// A file that appears under its name only when commit() returns. Until then its bytes go to a
/// temporary name in the same folder; an object that dies uncommitted leaves nothing behind. One
/// thread at a time.
class LATHBOOK_API AtomicFile {
public:
  /// Throws Error(not_found) when the folder is missing, Error(denied) or Error(io) when it cannot be
  /// written to.
  explicit AtomicFile(const std::filesystem::path& path);
  ~AtomicFile();
  AtomicFile(const AtomicFile&) = delete;
  AtomicFile& operator=(const AtomicFile&) = delete;

  /// A failed write sets the stream's badbit; commit() reports it.
  std::ostream& stream();
  /// Flushes, syncs, renames, syncs the folder. Throws Error(io) with the system's reason; the name then
  /// still holds what it held before, except when only the last sync failed.
  void commit();

private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

/// Waits until the file's bytes, or the folder's names, are on the disk. Throws Error(io).
LATHBOOK_API void sync_file(const std::filesystem::path& path);
LATHBOOK_API void sync_folder(const std::filesystem::path& folder);

/// Joins a relative path that came from outside under a root. Throws Error(denied) for an empty or
/// absolute path, a '..' part, a NUL byte, or a symbolic link on the way (the last part included) that
/// leads out of the root. Parts that do not exist yet are allowed. The root must exist.
LATHBOOK_API std::filesystem::path safe_join(const std::filesystem::path& root,
                                             const std::filesystem::path& relative);

/// $XDG_STATE_HOME/lathbook when that variable holds an absolute path, else ~/.local/state/lathbook
/// (XDG Base Directory Specification 0.8). Not created here. Throws Error(not_found) when neither
/// variable is set.
LATHBOOK_API std::filesystem::path user_state_folder();

}  // namespace lathbook
