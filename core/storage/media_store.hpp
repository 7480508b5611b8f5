// Media beside the database, each file named by its SHA-256.
#pragma once

#include <filesystem>
#include <memory>
#include <vector>

#include "core/base/api.hpp"
#include "core/base/error.hpp"
#include "core/evidence/ledger.hpp"

namespace lathbook {

/// The few file operations that storing a medium needs; tests put a faulty disk in their place.
class LATHBOOK_API MediaDisk {
public:
  virtual ~MediaDisk();
  virtual void make_folder(const std::filesystem::path& folder);
  /// Copies bytes to a new file and syncs it.
  virtual void copy(const std::filesystem::path& from, const std::filesystem::path& to);
  virtual void rename(const std::filesystem::path& from, const std::filesystem::path& to);
  virtual void sync_folder(const std::filesystem::path& folder);
  virtual void remove(const std::filesystem::path& file);
};

class MediaStore {
public:
  /// `disk` null = the real one.
  MediaStore(std::filesystem::path archive, std::shared_ptr<MediaDisk> disk);
  /// Copies the file in and syncs it; a file that is here already is not copied again. When it returns,
  /// the bytes are safe on disk. Throws Error(not_found, io or invalid).
  MediaFile add(const std::filesystem::path& file);
  bool holds(const Digest& digest) const;
  MediaFile find(const Digest& digest) const;
  void remove(const Digest& digest);
  /// Re-reads every named file, on all cores: missing and changed ones are faults.
  Findings check(const std::vector<Digest>& digests) const;

private:
  std::filesystem::path archive_;
  std::shared_ptr<MediaDisk> disk_;
};

}  // namespace lathbook
