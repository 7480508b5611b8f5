#include "core/base/paths.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdint>
#include <cstdlib>
#include <streambuf>
#include <system_error>
#include <utility>

#include "core/base/error.hpp"
#include "core/base/identifier.hpp"
#include "core/base/path_fault.hpp"
#include "core/base/text.hpp"

namespace lathbook {
namespace {

namespace fs = std::filesystem;

std::string shown(const fs::path& path) {
  return safe_display(path.string());
}

[[noreturn]] void refuse(const fs::path& path, const std::string& what, int reason) {
  refuse_path(path, what, std::error_code(reason, std::generic_category()));
}

struct Handle {
  int number = -1;
  explicit Handle(int opened) : number(opened) {}
  ~Handle() { close(); }
  Handle(const Handle&) = delete;
  Handle& operator=(const Handle&) = delete;
  void close() {
    if (number >= 0) ::close(std::exchange(number, -1));
  }
};

void sync(const fs::path& path, int flags) {
  const Handle file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | flags));
  if (file.number < 0 || ::fsync(file.number) != 0) refuse(path, "cannot be put safely on the disk", errno);
}

fs::path folder_of(const fs::path& path) {
  return path.has_parent_path() ? path.parent_path() : fs::path(".");
}

// A link is followed, so that replacing it keeps it; anything else that is no file is refused, or
// writing to a device as root would replace the device.
fs::path target_of(const fs::path& path) {
  std::error_code code;
  if (path.filename().empty()) fail(ErrorKind::invalid, shown(path) + ": names no file to write");
  const fs::file_status status = fs::symlink_status(path, code);
  if (!fs::exists(status)) return path;
  const fs::path target = fs::is_symlink(status) ? fs::canonical(path, code) : path;
  if (code) refuse(path, "is a link that leads nowhere", code.value());
  if (fs::is_directory(target, code)) {
    fail(ErrorKind::invalid, shown(path) + ": is a folder, so no file can be written there");
  }
  if (!fs::is_regular_file(target, code)) {
    fail(ErrorKind::invalid, shown(path) + ": is a device or pipe, which cannot be replaced by a file");
  }
  return target;
}

// Sends what a stream writes to a file handle and remembers the first reason for a failure.
class HandleBuffer : public std::streambuf {
public:
  explicit HandleBuffer(int handle) : handle_(handle) {
    setp(buffer_.data(), buffer_.data() + buffer_.size());
  }
  int reason() const { return reason_; }

protected:
  int_type overflow(int_type c) override {
    if (!spill()) return traits_type::eof();
    if (!traits_type::eq_int_type(c, traits_type::eof())) sputc(traits_type::to_char_type(c));
    return traits_type::not_eof(c);
  }
  int sync() override { return spill() ? 0 : -1; }
  std::streamsize xsputn(const char* bytes, std::streamsize size) override {
    if (size < epptr() - pptr()) {
      std::copy_n(bytes, size, pptr());
      pbump(static_cast<int>(size));
      return size;
    }
    return spill() && write(bytes, static_cast<std::size_t>(size)) ? size : 0;
  }

private:
  bool spill() {
    const bool written = write(pbase(), static_cast<std::size_t>(pptr() - pbase()));
    setp(buffer_.data(), buffer_.data() + buffer_.size());
    return written;
  }
  bool write(const char* bytes, std::size_t size) {
    while (reason_ == 0 && size > 0) {
      const ssize_t put = ::write(handle_, bytes, size);
      if (put > 0) {
        bytes += put;
        size -= static_cast<std::size_t>(put);
      } else if (put == 0) {
        reason_ = EIO;
      } else if (errno != EINTR) {
        reason_ = errno;
      }
    }
    return reason_ == 0;
  }

  int handle_;
  int reason_ = 0;
  std::array<char, std::size_t{1} << 16> buffer_;
};

}  // namespace

void refuse_path(const fs::path& path, const std::string& what, const std::error_code& reason) {
  ErrorKind kind = ErrorKind::io;
  if (reason == std::errc::no_such_file_or_directory || reason == std::errc::not_a_directory)
    kind = ErrorKind::not_found;
  if (reason == std::errc::permission_denied || reason == std::errc::operation_not_permitted ||
      reason == std::errc::read_only_file_system)
    kind = ErrorKind::denied;
  fail(kind, shown(path) + ": " + what + " (" + reason.message() + ")");
}

fs::path unfinished_beside(const fs::path& target) {
  std::uint64_t number = 0;
  random_bytes(&number, sizeof number);
  return folder_of(target) / (".unfinished-" + std::to_string(number));
}

std::string read_whole_file(const fs::path& path, std::uint64_t max_bytes) {
  const Handle file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.number < 0) {
    if (errno == ENOENT || errno == ENOTDIR) {
      fail(ErrorKind::not_found, shown(path) + ": there is no such file");
    }
    refuse(path, "cannot be opened", errno);
  }
  struct stat facts {};
  if (::fstat(file.number, &facts) != 0) refuse(path, "cannot be read", errno);
  if (S_ISDIR(facts.st_mode)) fail(ErrorKind::invalid, shown(path) + ": is a folder, not a file");
  if (!S_ISREG(facts.st_mode)) fail(ErrorKind::invalid, shown(path) + ": is a device or pipe, not a file");
  const auto too_large = [&] {
    fail(ErrorKind::invalid,
         shown(path) + ": is larger than the " + std::to_string(max_bytes) + " bytes allowed here");
  };
  if (static_cast<std::uint64_t>(facts.st_size) > max_bytes) too_large();
  std::string bytes(static_cast<std::size_t>(facts.st_size) + 1, '\0');
  std::size_t filled = 0;
  while (true) {
    const ssize_t got = ::read(file.number, bytes.data() + filled, bytes.size() - filled);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) refuse(path, "cannot be read", errno);
    if (got == 0) break;
    filled += static_cast<std::size_t>(got);
    if (filled > max_bytes) too_large();  // it grew while being read
    if (filled == bytes.size()) bytes.resize(2 * bytes.size());
  }
  bytes.resize(filled);
  return bytes;
}

void write_whole_file(const fs::path& path, std::string_view bytes) {
  AtomicFile file(path);
  file.stream().write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  file.commit();
}

struct AtomicFile::Inside {
  fs::path target;
  fs::path temporary;
  Handle handle;
  HandleBuffer buffer;
  std::ostream stream;

  Inside(fs::path target_path, fs::path temporary_path)
      : target(std::move(target_path)),
        temporary(std::move(temporary_path)),
        handle(::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666)),
        buffer(handle.number),
        stream(&buffer) {}
};

AtomicFile::AtomicFile(const fs::path& path) {
  const fs::path target = target_of(path);
  inside_ = std::make_unique<Inside>(target, unfinished_beside(target));
  if (inside_->handle.number >= 0) {
    struct stat old {};
    if (::stat(target.c_str(), &old) == 0) ::fchmod(inside_->handle.number, old.st_mode & 07777);
    return;
  }
  const int reason = errno;
  inside_.reset();
  refuse(path, "cannot be written", reason);
}

AtomicFile::~AtomicFile() {
  if (inside_ && !inside_->temporary.empty()) ::unlink(inside_->temporary.c_str());
}

std::ostream& AtomicFile::stream() {
  return inside_->stream;
}

void AtomicFile::commit() {
  Inside& in = *inside_;
  if (in.temporary.empty()) fail(ErrorKind::io, shown(in.target) + ": was committed before");
  in.stream.flush();
  if (!in.stream) {
    refuse(in.target, "could not be written to its end", in.buffer.reason() != 0 ? in.buffer.reason() : EIO);
  }
  if (::fsync(in.handle.number) != 0) refuse(in.target, "cannot be put safely on the disk", errno);
  if (::rename(in.temporary.c_str(), in.target.c_str()) != 0) {
    refuse(in.target, "cannot be put in its place", errno);
  }
  in.temporary.clear();
  in.handle.close();
  sync_folder(folder_of(in.target));
}

void sync_file(const fs::path& path) {
  sync(path, 0);
}
void sync_folder(const fs::path& folder) {
  sync(folder, O_DIRECTORY);
}

fs::path safe_join(const fs::path& root, const fs::path& relative) {
  const auto refuse_path = [&](const std::string& why) {
    fail(ErrorKind::denied, "the path " + quote(relative.string()) + " is refused: " + why);
  };
  if (relative.empty()) refuse_path("it is empty");
  if (relative.is_absolute()) refuse_path("it must be relative to " + shown(root));
  if (relative.native().find('\0') != std::string::npos) refuse_path("it holds a NUL byte");
  std::error_code code;
  const fs::path real_root = fs::canonical(root, code);
  if (code) refuse(root, "cannot be used as a root", code.value());

  fs::path joined = root;
  bool any = false;
  for (const fs::path& part : relative) {
    if (part.empty() || part == ".") continue;
    if (part == "..") refuse_path("'..' could lead out of " + shown(root));
    joined /= part;
    any = true;
    if (!fs::is_symlink(fs::symlink_status(joined, code))) continue;
    const fs::path real = fs::canonical(joined, code);
    if (code) refuse_path("it leads through a link that leads nowhere");
    // Compared part by part: "/a/rootless" is not under "/a/root".
    const auto [in_root, in_real] =
        std::mismatch(real_root.begin(), real_root.end(), real.begin(), real.end());
    static_cast<void>(in_real);
    if (in_root != real_root.end()) refuse_path("it leads through a link out of " + shown(root));
  }
  if (!any) refuse_path("it names nothing inside " + shown(root));
  return joined;
}

fs::path user_state_folder() {
  // The specification tells programs to ignore relative paths in these variables.
  if (const char* const state = std::getenv("XDG_STATE_HOME"); state != nullptr && state[0] == '/') {
    return fs::path(state) / "lathbook";
  }
  const char* const home = std::getenv("HOME");
  if (home == nullptr || home[0] != '/') {
    fail(ErrorKind::not_found, "neither XDG_STATE_HOME nor HOME names a folder; set one of them");
  }
  return fs::path(home) / ".local" / "state" / "lathbook";
}

}  // namespace lathbook
