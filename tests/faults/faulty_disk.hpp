// A disk that remembers every write and can run full: an SQLite file system and a media disk over one log.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "core/storage/media_store.hpp"

struct sqlite3_vfs;

namespace lathbook::test {

/// One thing done to a file or folder. Paths are absolute; `bytes` and `offset` belong to writes, `offset`
/// alone to a truncation (the new size), `to` to a rename.
struct DiskEvent {
  enum class Kind { write, truncate, sync, remove, make_folder, rename, sync_folder };
  Kind kind = Kind::write;
  std::string path;
  std::int64_t offset = 0;
  std::string bytes;
  std::string to;
};

/// Passes everything on to the real disk. The database, its write-ahead file and its journal are logged,
/// and what the media disk does goes into the same log; locks and shared memory are passed through.
class FaultyDisk {
public:
  /// Registers an SQLite file system of a name of its own; gone again with the object.
  FaultyDisk();
  ~FaultyDisk();
  FaultyDisk(const FaultyDisk&) = delete;
  FaultyDisk& operator=(const FaultyDisk&) = delete;

  const std::string& vfs() const { return name_; }
  std::shared_ptr<MediaDisk> media_disk();

  std::vector<DiskEvent> log;
  bool logging = true;
  /// False: sync does nothing (for archives that are only looked at and thrown away).
  bool syncing = true;

  /// The nth write from now (counted from 1) finds the disk full: that one only, or every one from then on.
  void run_full_at(std::uint64_t nth, bool for_good);
  void make_room();
  /// How often a write was refused since run_full_at().
  std::uint64_t refusals() const { return refusals_; }

  /// True when this write is to be refused; counts it.
  bool refuse_write();
  void note(DiskEvent event);

private:
  std::string name_;
  std::unique_ptr<sqlite3_vfs> vfs_;
  std::uint64_t until_full_ = 0;  ///< 0 = there is room
  bool for_good_ = false;
  bool full_ = false;
  std::uint64_t refusals_ = 0;
};

}  // namespace lathbook::test
