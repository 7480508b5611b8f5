#include "core/storage/chain_memory.hpp"

#include <sys/stat.h>

#include <string>

#include "core/base/error.hpp"
#include "core/base/paths.hpp"
#include "core/base/text.hpp"

namespace lathbook {

namespace fs = std::filesystem;

ChainMemory::ChainMemory(const Uuid& archive, const fs::path& database) {
  struct stat identity {};
  if (::stat(database.c_str(), &identity) != 0) return;
  try {
    file_ = user_state_folder() / "heads" /
            (archive.text() + "-" + std::to_string(identity.st_dev) + "-" + std::to_string(identity.st_ino));
  } catch (const Error&) {
    file_.clear();  // no home folder: nothing is remembered
  }
}

bool ChainMemory::knows(const Digest& head) const {
  if (file_.empty()) return false;
  try {
    for (const auto& line : split(read_whole_file(file_, 4096), '\n')) {
      if (line == head.hex()) return true;
    }
  } catch (const Error&) {
    return false;
  }
  return false;
}

void ChainMemory::expect(const std::optional<Digest>& head, const Digest& next) const {
  if (file_.empty()) return;
  try {
    std::error_code ignored;
    fs::create_directories(file_.parent_path(), ignored);
    write_whole_file(file_, (head ? head->hex() + "\n" : std::string()) + next.hex() + "\n");
  } catch (const Error&) {
    return;
  }
}

void ChainMemory::remember(const Digest& head) const {
  if (file_.empty()) return;
  try {
    write_whole_file(file_, head.hex() + "\n");
  } catch (const Error&) {
    return;
  }
}

}  // namespace lathbook
