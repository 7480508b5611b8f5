// Files that appear whole or not at all, and joins that cannot leave their root.
#include "core/base/paths.hpp"

#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <iterator>

#include "core/base/error.hpp"
#include "tests/support/support.hpp"

using namespace lathbook;
namespace fs = std::filesystem;

namespace {

std::size_t files_in(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

template <typename Work>
ErrorKind kind_of(const Work& work, const std::string& word) {
  try {
    work();
  } catch (const Error& error) {
    INFO(error.what());
    CHECK(std::string(error.what()).find(word) != std::string::npos);
    return error.kind();
  }
  FAIL("no error where one with '" << word << "' was due");
  return ErrorKind::invalid;
}

// Makes every write past so many bytes fail, as a full disk does.
struct SmallDisk {
  rlimit before{};
  explicit SmallDisk(rlim_t bytes) {
    ::signal(SIGXFSZ, SIG_IGN);
    ::getrlimit(RLIMIT_FSIZE, &before);
    const rlimit small{bytes, before.rlim_max};
    ::setrlimit(RLIMIT_FSIZE, &small);
  }
  ~SmallDisk() { ::setrlimit(RLIMIT_FSIZE, &before); }
};

}  // namespace

TEST_CASE("a whole file is written and read") {
  const test::TempFolder folder;
  const std::string bytes("a\0b\xff\n", 5);
  write_whole_file(folder / "f", bytes);
  CHECK(read_whole_file(folder / "f", 5) == bytes);
  write_whole_file(folder / "f", "");
  CHECK(read_whole_file(folder / "f", 0).empty());
  const std::string large(3000000, 'x');
  write_whole_file(folder / "f", large);
  CHECK(read_whole_file(folder / "f", large.size()) == large);
  CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("reading says why it cannot") {
  const test::TempFolder folder;
  test::write_file(folder / "six", "123456");
  CHECK(kind_of([&] { read_whole_file(folder / "none", 9); }, "no such file") == ErrorKind::not_found);
  CHECK(kind_of([&] { read_whole_file(folder / "six" / "x", 9); }, "no such file") == ErrorKind::not_found);
  CHECK(kind_of([&] { read_whole_file(folder.path(), 9); }, "is a folder") == ErrorKind::invalid);
  CHECK(kind_of([&] { read_whole_file(folder / "six", 5); }, "5 bytes") == ErrorKind::invalid);
  CHECK(kind_of([&] { read_whole_file("/dev/zero", 9); }, "device") == ErrorKind::invalid);
  REQUIRE(::mkfifo((folder / "pipe").c_str(), 0600) == 0);
  CHECK(kind_of([&] { read_whole_file(folder / "pipe", 9); }, "pipe") == ErrorKind::invalid);
  // A file whose length the system does not tell beforehand.
  CHECK_FALSE(read_whole_file("/proc/self/status", 1 << 20).empty());
  CHECK(kind_of([&] { read_whole_file("/proc/self/status", 10); }, "10 bytes") == ErrorKind::invalid);
}

TEST_CASE("an uncommitted file leaves nothing behind") {
  const test::TempFolder folder;
  test::write_file(folder / "f", "old");
  {
    AtomicFile file(folder / "f");
    file.stream() << "new";
    CHECK(test::read_file(folder / "f") == "old");
  }
  CHECK(test::read_file(folder / "f") == "old");
  CHECK(files_in(folder.path()) == 1);
  AtomicFile file(folder / "f");
  file.stream() << "new " << 7;
  file.commit();
  CHECK(test::read_file(folder / "f") == "new 7");
  CHECK(files_in(folder.path()) == 1);
  CHECK(kind_of([&] { file.commit(); }, "committed before") == ErrorKind::io);
}

TEST_CASE("a full disk leaves the old file") {
  const test::TempFolder folder;
  test::write_file(folder / "f", "old");
  {
    const SmallDisk small(100000);
    CHECK(kind_of([&] { write_whole_file(folder / "f", std::string(100001, 'x')); }, "to its end") ==
          ErrorKind::io);
    write_whole_file(folder / "g", std::string(100000, 'x'));
  }
  CHECK(test::read_file(folder / "f") == "old");
  CHECK(fs::file_size(folder / "g") == 100000);
  CHECK(files_in(folder.path()) == 2);
}

TEST_CASE("a file keeps its permissions, a link stays a link") {
  const test::TempFolder folder;
  test::write_file(folder / "f", "old");
  fs::permissions(folder / "f", fs::perms::owner_read | fs::perms::owner_write);
  fs::create_symlink("f", folder / "link");
  write_whole_file(folder / "link", "new");
  CHECK(fs::is_symlink(folder / "link"));
  CHECK(test::read_file(folder / "f") == "new");
  CHECK((fs::status(folder / "f").permissions() & fs::perms::all) ==
        (fs::perms::owner_read | fs::perms::owner_write));
}

TEST_CASE("what cannot be replaced is refused") {
  const test::TempFolder folder;
  fs::create_symlink("nowhere", folder / "dangling");
  CHECK(kind_of([&] { write_whole_file(folder.path(), "x"); }, "folder") == ErrorKind::invalid);
  CHECK(kind_of([&] { write_whole_file("/dev/full", "x"); }, "device") == ErrorKind::invalid);
  CHECK(kind_of([&] { write_whole_file(folder / "no" / "f", "x"); }, "cannot be written") ==
        ErrorKind::not_found);
  CHECK(kind_of([&] { write_whole_file(folder / "dangling", "x"); }, "nowhere") == ErrorKind::not_found);
  CHECK(kind_of([&] { write_whole_file(folder.path() / "", "x"); }, "names no file") == ErrorKind::invalid);
  CHECK(fs::is_character_file("/dev/full"));
}

TEST_CASE("a name as long as names can be is written") {
  const test::TempFolder folder;
  const std::string name(255, 'n');
  write_whole_file(folder / name, "x");
  CHECK(test::read_file(folder / name) == "x");
}

TEST_CASE("syncing says what is missing") {
  const test::TempFolder folder;
  test::write_file(folder / "f", "x");
  CHECK_NOTHROW(sync_folder(folder.path()));
  CHECK_NOTHROW(sync_file(folder / "f"));
  CHECK_THROWS_AS(sync_folder(folder / "f"), Error);
  CHECK_THROWS_AS(sync_file(folder / "g"), Error);
}

TEST_CASE("a join stays under its root") {
  const test::TempFolder folder;
  const fs::path root = folder / "root";
  fs::create_directories(root / "in" / "side");
  fs::create_directories(folder / "rootless");
  test::write_file(root / "in" / "f", "x");
  fs::create_symlink("in/f", root / "good");
  fs::create_symlink("../rootless", root / "neighbour");
  fs::create_symlink("/etc", root / "etc");
  fs::create_symlink("../missing", root / "dangling");
  fs::create_symlink("loop", root / "loop");
  fs::create_symlink("..", root / "in" / "up");

  CHECK(safe_join(root, "in/f") == root / "in" / "f");
  CHECK(safe_join(root, "new/deep/file") == root / "new" / "deep" / "file");
  // Names that only look like '..'.
  CHECK(safe_join(root, "...") == root / "...");
  CHECK(safe_join(root, "..a/b..") == root / "..a" / "b..");
  CHECK(safe_join(root, "./in/./f") == root / "in" / "f");
  CHECK(safe_join(root, "in/") == root / "in");
  CHECK(safe_join(root, "good") == root / "good");
  CHECK(safe_join(root, "in/up/in/f") == root / "in" / "up" / "in" / "f");

  for (const char* bad :
       {"", ".", "./", "/etc/passwd", "..", "../rootless", "in/..", "in/../../rootless", "in/../f",
        "neighbour", "neighbour/f", "etc/passwd", "etc", "dangling", "dangling/f", "loop"}) {
    INFO(bad);
    CHECK(kind_of([&] { safe_join(root, bad); }, "refused") == ErrorKind::denied);
  }
  CHECK(kind_of([&] { safe_join(root, std::string("in\0/f", 5)); }, "NUL") == ErrorKind::denied);
  CHECK(kind_of([&] { safe_join(folder / "no", "f"); }, "root") == ErrorKind::not_found);
}

// XDG Base Directory Specification 0.8 (freedesktop.org, 2021): the default of $XDG_STATE_HOME is
// $HOME/.local/state, and relative paths in it are to be ignored.
TEST_CASE("the user's state folder follows the environment") {
  const char* const home = std::getenv("HOME");
  const std::string kept = home != nullptr ? home : "";
  ::setenv("HOME", "/home/mason", 1);
  ::setenv("XDG_STATE_HOME", "/var/state", 1);
  CHECK(user_state_folder() == "/var/state/lathbook");
  ::setenv("XDG_STATE_HOME", "relative", 1);
  CHECK(user_state_folder() == "/home/mason/.local/state/lathbook");
  ::unsetenv("XDG_STATE_HOME");
  CHECK(user_state_folder() == "/home/mason/.local/state/lathbook");
  ::unsetenv("HOME");
  CHECK_THROWS_AS(user_state_folder(), Error);
  if (home != nullptr) ::setenv("HOME", kept.c_str(), 1);
}
