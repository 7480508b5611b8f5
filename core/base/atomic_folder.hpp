// A folder of new files that appears under its name only when all of it is written.
#pragma once

#include <filesystem>
#include <memory>
#include <ostream>
#include <string>

#include "core/base/api.hpp"

namespace lathbook {

/// Files go to a temporary folder beside the wanted one; an object that dies uncommitted leaves nothing
/// behind. One thread at a time.
class LATHBOOK_API AtomicFolder {
public:
  /// Throws Error(invalid) when the name is taken by anything but an empty folder, Error(not_found) when
  /// the folder above is missing, Error(denied) or Error(io) when it cannot be written to.
  explicit AtomicFolder(const std::filesystem::path& path);
  ~AtomicFolder();
  AtomicFolder(const AtomicFolder&) = delete;
  AtomicFolder& operator=(const AtomicFolder&) = delete;

  /// Begins a new file at a relative path ("manifests/N-203.json"), making the folders on the way, and ends
  /// the one before: the stream is good until the next call. Throws Error(invalid) for a path that was
  /// written already, Error(denied) for one that leads out of the folder, Error(io) when the file before
  /// could not be written to its end.
  std::ostream& file(const std::string& relative);
  /// Ends the last file, waits until all is on the disk and puts the folder in its place.
  void commit();

private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace lathbook
