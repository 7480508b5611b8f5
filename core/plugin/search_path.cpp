// Reads the search path from the caller, the environment, or the program's own place.
#include "core/plugin/search_path.hpp"

#include <cstdlib>

#include "core/base/error.hpp"
#include "core/base/text.hpp"

namespace lathbook {

namespace fs = std::filesystem;

std::vector<fs::path> plugin_folders(const std::optional<fs::path>& given) {
  std::vector<fs::path> folders;
  if (given) folders.push_back(fs::absolute(*given).lexically_normal());
  if (const char* list = std::getenv("LATHBOOK_PLUGINS"); list != nullptr && *list != '\0') {
    for (const std::string& part : split(list, ':')) {
      if (!fs::path(part).is_absolute())
        fail(ErrorKind::invalid, "LATHBOOK_PLUGINS holds " + quote(part) +
                                     ", which is not the full path of a folder; write paths that begin with "
                                     "'/', parted by colons");
      folders.push_back(fs::path(part).lexically_normal());
    }
  }
  if (folders.empty()) {
    const fs::path program = fs::read_symlink("/proc/self/exe");
    folders.push_back((program.parent_path() / ".." / "lib" / "lathbook" / "plugins").lexically_normal());
  }
  return folders;
}

}  // namespace lathbook
