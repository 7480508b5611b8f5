// What a disk would hold after power was lost: a log of writes, walked step by step and laid out as a folder.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "tests/faults/faulty_disk.hpp"

namespace lathbook::test {

/// Which writes that were not synced yet survive.
enum class Unsynced {
  lost,  ///< none: the power went
  kept,  ///< all: only the program died
  some   ///< a random part, pages torn at sectors of 512 bytes
};

class Replay {
public:
  /// `base` is a copy of the folder as it stood, wholly on disk, before the log began; `folder` is the one
  /// that the log speaks of. The log must outlive this.
  Replay(const std::filesystem::path& base, const std::filesystem::path& folder,
         const std::vector<DiskEvent>& log);
  /// Takes in the next event; false at the end.
  bool step();
  std::size_t position() const { return position_; }
  /// True when the last step changed what is safe on disk.
  bool settled() const { return settled_; }
  void lay_out(const std::filesystem::path& folder, Unsynced unsynced, std::mt19937& random) const;

private:
  struct File {
    std::optional<std::string> safe;
    std::vector<const DiskEvent*> waiting;
  };
  using Files = std::map<std::string, File>;

  static void apply(std::optional<std::string>& bytes, const DiskEvent& event);
  static void apply_name(Files& files, std::set<std::string>& folders, const DiskEvent& event);
  static void survive(File& file, Unsynced unsynced, std::mt19937& random);
  void settle_names(const std::string& folder);

  std::filesystem::path root_;
  const std::vector<DiskEvent>& log_;
  std::size_t position_ = 0;
  bool settled_ = true;
  Files files_;
  std::set<std::string> folders_;
  std::vector<const DiskEvent*> waiting_names_;  ///< renames, new folders
};

}  // namespace lathbook::test
