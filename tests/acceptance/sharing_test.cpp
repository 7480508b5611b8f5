// Several programs at one archive; archives that may not be written; archives of other programs.
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <functional>

#include "core/storage/archive.hpp"
#include "tests/acceptance/house.hpp"

using namespace lathbook;
using namespace lathbook::test;
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

struct Begun : House {
  Begun() {
    begin();
    take_in(archive, usual_sheets());
  }
};

// Runs in a process of its own as a user who owns nothing here; what it returns is told.
std::string as_stranger(const std::function<std::string()>& work) {
  int ends[2];
  if (::pipe(ends) != 0) throw std::runtime_error("pipe failed");
  const pid_t child = ::fork();
  if (child == 0) {
    std::string told;
    try {
      if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0)) ::_exit(1);
      told = work();
    } catch (const std::exception& error) {
      told = std::string("threw: ") + error.what();
    }
    const auto written = ::write(ends[1], told.data(), told.size());
    ::_exit(written == static_cast<ssize_t>(told.size()) ? 0 : 1);
  }
  ::close(ends[1]);
  std::string told;
  char piece[4096];
  ssize_t size = 0;
  while ((size = ::read(ends[0], piece, sizeof piece)) > 0)
    told.append(piece, static_cast<std::size_t>(size));
  ::close(ends[0]);
  int status = 0;
  ::waitpid(child, &status, 0);
  return told;
}

void set_modes(const fs::path& folder, bool writable) {
  const auto mode = [&](const fs::path& path) {
    const bool is_folder = fs::is_directory(path);
    ::chmod(path.c_str(), is_folder ? (writable ? 0755 : 0555) : (writable ? 0644 : 0444));
  };
  for (const auto& entry : fs::recursive_directory_iterator(folder)) mode(entry.path());
  mode(folder);
}

}  // namespace

TEST_CASE("two programs read while a third holds the write lock, and a second writer is told") {
  Begun house;
  ::setenv("XDG_STATE_HOME", (house.folder / "state").c_str(), 1);
  const FixedClock clock(*Moment::parse(house.now));
  Archive archive(house.archive, clock, {.write = true, .vfs = {}, .media_disk = {}});
  const auto before = archive.fingerprint();
  auto writer = archive.write();
  writer->make_record(Kind::element, "HALF-DONE", std::nullopt);

  // Both readers are at it at once, for as long as their readings last.
  const Archive first(house.archive, clock);
  const Archive second(house.archive, clock);
  const auto one = first.read();
  const auto two = second.read();
  CHECK(one->record_by_code("N-1"));
  CHECK(two->record_by_code("N-1"));
  CHECK_FALSE(one->record_by_code("HALF-DONE"));
  CHECK(house.run({"show", "N-1"}).code == 0);
  CHECK(house.run({"tally"}).code == 0);
  CHECK(house.run({"show", "HALF-DONE"}).code == 3);

  const auto begin = std::chrono::steady_clock::now();
  const auto refused = house.run({"new", "element", "N-8"});
  const auto waited = std::chrono::steady_clock::now() - begin;
  CHECK(refused.code == 6);
  CHECK(is_one_sentence(refused.err));
  CHECK_THAT(refused.err, Contains("another program is writing"));
  CHECK(waited > std::chrono::seconds(3));  // it does not give up at once
  CHECK(waited < std::chrono::seconds(30));

  writer->commit();
  writer.reset();
  CHECK_FALSE(one->record_by_code("HALF-DONE"));  // a reading is of one moment
  CHECK(one->reading().fingerprint == before);
  CHECK(house.run({"show", "HALF-DONE"}).code == 0);
  const auto again = std::chrono::steady_clock::now();
  CHECK(house.run({"new", "element", "N-8"}).code == 0);
  CHECK(std::chrono::steady_clock::now() - again <
        std::chrono::seconds(4));  // readers keep no writer waiting
}

TEST_CASE("an archive in a folder that may not be written to can be read") {
  Begun house;
  house.say(house.archive, "N-1", "note", "rattles when tapped");
  ::chmod(house.folder.path().c_str(), 0755);
  set_modes(house.archive, false);
  const FixedClock clock(*Moment::parse(house.now));
  const auto told = as_stranger([&] {
    const Archive archive(house.archive, clock);
    const auto reader = archive.read();
    std::string words = reader->record_by_code("N-1") ? "read" : "not found";
    if (has_fault(archive.check({}, true))) words += ", faulty";
    ReadOptions then;
    then.known_on = Moment::parse(house.now)->local_day();
    archive.read(then);
    try {
      Archive writing(house.archive, clock, {.write = true, .vfs = {}, .media_disk = {}});
      writing.write();
      words += ", written to";
    } catch (const Error& error) {
      words += error.kind() == ErrorKind::denied ? ", refused" : std::string(", ") + error.what();
    }
    return words;
  });
  CHECK(told == "read, refused");
  set_modes(house.archive, true);
}

TEST_CASE("a folder that may not be written to does not hide the last entries") {
  // A program killed before it could tidy up leaves entries in the write-ahead file alone.
  Begun house;
  const pid_t child = ::fork();
  if (child == 0) {
    ::setenv("XDG_STATE_HOME", (house.folder / "state").c_str(), 1);
    const FixedClock clock(*Moment::parse(house.now));
    Archive archive(house.archive, clock, {.write = true, .vfs = {}, .media_disk = {}});
    const auto writer = archive.write();
    writer->make_record(Kind::element, "LAST", std::nullopt);
    writer->commit();
    ::_exit(0);  // as kill -9 would: nothing is closed
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  REQUIRE(WIFEXITED(status));
  REQUIRE(fs::file_size(house.archive / "archive.sqlite-wal") > 0);
  ::chmod(house.folder.path().c_str(), 0755);
  set_modes(house.archive, false);
  const FixedClock clock(*Moment::parse(house.now));
  const auto told = as_stranger([&]() -> std::string {
    const Archive archive(house.archive, clock);
    return archive.read()->record_by_code("LAST") ? "there" : "hidden";
  });
  CHECK_THAT(told, Catch::Equals("there") || Contains("write-ahead"));
  set_modes(house.archive, true);
}

TEST_CASE("an archive of a newer program is refused in words") {
  Begun house;
  execute_sql(house.archive / "archive.sqlite", "PRAGMA user_version = 42");
  const auto bytes = read_file(house.archive / "archive.sqlite");
  for (const auto& arguments :
       std::vector<std::vector<std::string>>{{"show", "N-1"}, {"new", "element", "N-8"}, {"check"}}) {
    const auto ran = house.run(arguments);
    CHECK(ran.code == 7);
    CHECK(is_one_sentence(ran.err));
    CHECK_THAT(ran.err, Contains("newer program") && Contains("42"));
  }
  CHECK(read_file(house.archive / "archive.sqlite") == bytes);
}

TEST_CASE("what is no archive is refused in words and left alone") {
  House house;
  const auto database = house.archive / "archive.sqlite";
  fs::create_directories(house.archive);
  int code = 0;
  SECTION("a database of another program") {
    execute_sql(database, "CREATE TABLE birds(name TEXT); INSERT INTO birds VALUES('gull')");
    code = 4;
  }
  SECTION("no database at all") {
    write_file(database, "Dear diary, " + std::string(3000, 'x'));
    code = 5;
  }
  SECTION("an empty file") {
    write_file(database, "");
    code = 4;
  }
  const auto bytes = read_file(database);
  for (const auto& arguments : std::vector<std::vector<std::string>>{{"tally"}, {"new", "element", "N-8"}}) {
    const auto ran = house.run(arguments);
    CHECK(ran.code == code);
    CHECK(is_one_sentence(ran.err));
  }
  CHECK(read_file(database) == bytes);
}

TEST_CASE("a damaged database is refused or found, never read as if it were whole") {
  Begun house;
  auto bytes = read_file(house.archive / "archive.sqlite");
  REQUIRE(bytes.size() > 40'000);
  for (std::size_t at = bytes.size() / 2; at < bytes.size() / 2 + 12'288; ++at) bytes[at] = '\x5a';
  write_file(house.archive / "archive.sqlite", bytes);
  const auto ran = house.run({"check"});
  CHECK((ran.code == 1 || ran.code == 5));
  if (ran.code == 5) CHECK(is_one_sentence(ran.err));
}
