#include "core/base/atomic_folder.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <system_error>

#include "core/base/error.hpp"
#include "core/base/path_fault.hpp"
#include "core/base/paths.hpp"
#include "core/base/text.hpp"

namespace lathbook {

namespace fs = std::filesystem;

namespace {

// A trailing slash names the same folder.
fs::path plain(const fs::path& path) {
  return path.has_filename() ? path : path.parent_path();
}

// One call for the many files of an export, instead of a wait for each.
void sync_everything(const fs::path& folder) {
  const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  const bool safe = handle >= 0 && ::syncfs(handle) == 0;
  const std::error_code reason(errno, std::generic_category());
  if (handle >= 0) ::close(handle);
  if (!safe) refuse_path(folder, "cannot be put safely on the disk", reason);
}

}  // namespace

struct AtomicFolder::Inside {
  fs::path target;
  fs::path temporary;
  fs::path current;
  std::ofstream stream;

  void end_file() {
    if (!stream.is_open()) return;
    stream.flush();
    const bool whole = stream.good();
    stream.close();
    if (!whole)
      fail(ErrorKind::io, safe_display(current.string()) +
                              ": could not be written to its end; look at the space on the disk");
  }
};

AtomicFolder::AtomicFolder(const fs::path& path) : inside_(std::make_unique<Inside>()) {
  if (plain(path).empty()) fail(ErrorKind::invalid, "the new folder has no name; give one");
  inside_->target = fs::absolute(plain(path));
  const fs::path& target = inside_->target;
  std::error_code failed;
  if (fs::exists(fs::symlink_status(target, failed)) &&
      !(fs::is_directory(fs::symlink_status(target, failed)) && fs::is_empty(target, failed))) {
    fail(ErrorKind::invalid,
         safe_display(path.string()) + ": is there already; name a folder that is new or empty");
  }
  const fs::path temporary = unfinished_beside(target);
  failed.clear();
  if (!fs::create_directory(temporary, failed) || failed) refuse_path(path, "cannot be made", failed);
  inside_->temporary = temporary;
}

AtomicFolder::~AtomicFolder() {
  if (inside_->temporary.empty()) return;
  inside_->stream.close();
  std::error_code ignored;
  fs::remove_all(inside_->temporary, ignored);
}

std::ostream& AtomicFolder::file(const std::string& relative) {
  Inside& in = *inside_;
  in.end_file();
  const fs::path wanted = safe_join(in.temporary, relative);
  std::error_code failed;
  fs::create_directories(wanted.parent_path(), failed);
  if (failed) refuse_path(wanted.parent_path().lexically_relative(in.temporary), "cannot be made", failed);
  if (fs::exists(fs::symlink_status(wanted, failed)))
    fail(ErrorKind::invalid, quote(relative) + " would be written twice");
  in.current = relative;
  errno = 0;
  in.stream.open(wanted, std::ios::binary | std::ios::trunc);
  if (!in.stream.is_open())
    refuse_path(in.current, "cannot be written", std::error_code(errno, std::generic_category()));
  return in.stream;
}

void AtomicFolder::commit() {
  Inside& in = *inside_;
  in.end_file();
  sync_everything(in.temporary);
  std::error_code failed;
  fs::rename(in.temporary, in.target, failed);
  if (failed) refuse_path(in.target, "cannot be put in its place", failed);
  in.temporary.clear();
  sync_folder(in.target.parent_path());
}

}  // namespace lathbook
