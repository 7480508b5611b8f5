// kill -9 at random moments: the archive opens clean, the check passes, all that was acknowledged is there.
#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <iostream>
#include <map>
#include <random>
#include <thread>

#include "tests/faults/script.hpp"

using namespace lathbook;
using namespace lathbook::test;

namespace fs = std::filesystem;

namespace {

constexpr int kLibraryKills = 180;
constexpr int kProgramKills = 20;
constexpr int kKillsAnArchive = 30;  // a fresh archive now and then keeps the check quick

class Child {
public:
  /// `work` runs in a process of its own; what it writes to the descriptor is told() when it is over.
  explicit Child(const std::function<void(int)>& work) {
    if (::pipe(pipe_) != 0) throw std::runtime_error("pipe failed");
    pid_ = ::fork();
    if (pid_ < 0) throw std::runtime_error("fork failed");
    if (pid_ != 0) {
      ::close(pipe_[1]);
      return;
    }
    ::close(pipe_[0]);
    try {
      work(pipe_[1]);
    } catch (...) {
      ::_exit(1);
    }
    ::_exit(0);
  }
  ~Child() { ::close(pipe_[0]); }
  Child(const Child&) = delete;
  Child& operator=(const Child&) = delete;

  void kill_after(std::chrono::microseconds time) const {
    std::this_thread::sleep_for(time);
    ::kill(pid_, SIGKILL);
  }
  /// Waits until so many lines were told.
  void hear(std::size_t lines) {
    char piece[4096];
    while (static_cast<std::size_t>(std::count(heard_.begin(), heard_.end(), '\n')) < lines) {
      const auto size = ::read(pipe_[0], piece, sizeof piece);
      if (size <= 0) throw std::runtime_error("the child ended by itself");
      heard_.append(piece, static_cast<std::size_t>(size));
    }
  }
  /// Waits for the end; -1 = killed, else the exit code.
  int end() const {
    int status = 0;
    ::waitpid(pid_, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }
  std::string told() const {
    std::string all = heard_;
    char piece[4096];
    ssize_t size = 0;
    while ((size = ::read(pipe_[0], piece, sizeof piece)) > 0)
      all.append(piece, static_cast<std::size_t>(size));
    return all;
  }

private:
  int pipe_[2] = {-1, -1};
  pid_t pid_ = -1;
  std::string heard_;
};

void tell(int to, const std::string& line) {
  if (::write(to, line.data(), line.size()) != static_cast<ssize_t>(line.size())) ::_exit(2);
}

// One archive and what was acknowledged to have been put into it.
class Target {
public:
  Target() : path(folder / "archive") {
    ::setenv("XDG_STATE_HOME", (folder / "state").c_str(), 1);
    Archive::create(path);
    Archive archive(path, clock, {.write = true, .vfs = {}, .media_disk = {}});
    const auto writer = archive.write();
    source = writer->make_record(Kind::source, "S-1", std::nullopt);
    writer->commit();
  }

  // Single statements, one session each, for ever; each is told after its commit has returned.
  void add_for_ever(int tell_to, int round) const {
    Archive archive(path, clock, {.write = true, .vfs = {}, .media_disk = {}});
    for (int i = 0;; ++i) {
      const auto writer = archive.write();
      const std::string words = "note " + std::to_string(round) + "." + std::to_string(i);
      writer->add(about(source, "note", words));
      writer->commit();
      tell(tell_to, words + "\n");
    }
  }
  // Imports of twenty elements with two photographs, for ever; each told by its stem.
  void import_for_ever(int tell_to, int round) const {
    for (int i = 0;; ++i) {
      const std::string stem = "R" + std::to_string(round) + "I" + std::to_string(i) + "N";
      const auto sheets = write_sheets(folder / stem, stem, 20);
      Archive archive(path, clock, {.write = true, .vfs = {}, .media_disk = {}});
      import(archive, sheets);
      tell(tell_to, "import " + stem + "\n");
    }
  }

  void acknowledge(const std::string& lines) {
    std::size_t begin = 0;
    for (auto end = lines.find('\n'); end != std::string::npos; end = lines.find('\n', begin)) {
      promised.insert(lines.substr(begin, end - begin));
      begin = end + 1;
    }
  }

  /// Empty when the archive is sound and keeps every promise.
  std::string wrong() const {
    try {
      const Archive archive(path, clock, {.write = true, .vfs = {}, .media_disk = {}});
      std::string wrong = faults_of(archive.check({}, true));
      std::set<std::string> notes;
      std::map<std::string, int> elements;  // by stem
      const auto reader = archive.read();
      Query query;
      query.properties = {Registry::standard().named("note").id};
      reader->each_statement(query, [&](const Statement& statement) {
        notes.insert(statement.content.value);
        return true;
      });
      reader->each_record(Kind::element, [&](const RecordInfo& record) {
        ++elements[record.code.substr(2, record.code.rfind('N') - 1)];
        return true;
      });
      for (const auto& [stem, count] : elements) {
        if (count != 20) wrong += "import " + stem + " is there by half\n";
      }
      for (const auto& promise : promised) {
        const bool kept = promise.rfind("import ", 0) == 0 ? elements.count(promise.substr(7)) != 0
                                                           : notes.count(promise) != 0;
        if (!kept) wrong += promise + " was acknowledged and is lost\n";
      }
      return wrong;
    } catch (const std::exception& error) {
      return error.what();
    }
  }

  TempFolder folder;
  fs::path path;
  FixedClock clock{Moment{1'700'000'000, 60}};
  Uuid source;
  std::set<std::string> promised;
};

}  // namespace

TEST_CASE("180 kills of a process that adds and imports lose nothing", "[slow]") {
  const auto seed = std::random_device{}();
  std::mt19937 random(seed);
  std::unique_ptr<Target> target;
  std::size_t promises = 0;
  std::int64_t usual_entry = 20'000;  // microseconds; measured anew as we go
  std::int64_t usual_import = 100'000;
  for (int round = 0; round < kLibraryKills; ++round) {
    if (round % kKillsAnArchive == 0) {
      if (target) promises += target->promised.size();
      target = std::make_unique<Target>();
    }
    const bool imports = round % 3 == 2;
    const auto begin = std::chrono::steady_clock::now();
    Child child([&](int tell_to) {
      if (imports) {
        target->import_for_ever(tell_to, round);
      } else {
        target->add_for_ever(tell_to, round);
      }
    });
    // At once, or some way into the first, second ... entry.
    const auto lines = random() % (imports ? 2 : 4);
    child.hear(lines);
    auto& usual = imports ? usual_import : usual_entry;
    if (lines != 0) {
      usual = std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - begin)
                  .count() /
              static_cast<std::int64_t>(lines);
    }
    child.kill_after(std::chrono::microseconds(random() % static_cast<unsigned>(usual)));
    CHECK(child.end() == -1);
    target->acknowledge(child.told());
    INFO("kill " << round << (imports ? " during imports" : " during single additions") << ", seed " << seed);
    REQUIRE(target->wrong() == "");
  }
  promises += target->promised.size();
  CHECK(promises > 50);  // killing so early that nothing was ever promised would prove nothing
  std::cout << "180 kills, " << promises << " acknowledged entries all there, seed " << seed << '\n';
}

TEST_CASE("20 kills of the program itself lose nothing", "[slow]") {
  const auto seed = std::random_device{}();
  std::mt19937 random(seed);
  Target target;
  const auto start = [&](const std::vector<std::string>& arguments) {
    std::vector<std::string> all{program(), "--archive", target.path.string(), "--clock-is-right"};
    all.insert(all.end(), arguments.begin(), arguments.end());
    return std::make_unique<Child>([all](int) {
      std::vector<char*> argv;
      for (const auto& one : all) argv.push_back(const_cast<char*>(one.c_str()));
      argv.push_back(nullptr);
      ::dup2(::open("/dev/null", O_WRONLY), 1);
      ::execv(argv[0], argv.data());
      ::_exit(127);
    });
  };
  const auto say = [](const std::string& words) {
    return std::vector<std::string>{"say",     "S-1",         "note",         words,
                                    "--class", "documentary", "--confidence", "certain"};
  };
  // How long one run takes here, so that the kills fall within it.
  const auto begin = std::chrono::steady_clock::now();
  REQUIRE(start(say("first"))->end() == 0);
  const auto usual =
      std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - begin).count();
  target.promised.insert("first");

  int kills = 0;
  int round = 0;
  while (kills < kProgramKills) {
    REQUIRE(++round < 500);
    std::unique_ptr<Child> child;
    std::string promise;
    if (round % 4 == 3) {
      const std::string stem = "P" + std::to_string(round) + "N";
      write_sheets(target.folder / stem, stem, 20);
      child = start({"take-in", (target.folder / stem).string()});
      promise = "import " + stem;
    } else {
      promise = "said " + std::to_string(round);
      child = start(say(promise));
    }
    const auto longest = (round % 4 == 3 ? 4 : 1) * usual * 5 / 4;
    child->kill_after(std::chrono::microseconds(1000 + random() % static_cast<unsigned>(longest)));
    const int code = child->end();
    if (code == 0) target.promised.insert(promise);  // it was through before the kill came
    if (code == -1) ++kills;
    INFO("round " << round << ", exit code " << code << ", seed " << seed);
    REQUIRE((code == 0 || code == -1));
    REQUIRE(target.wrong() == "");
  }
  std::cout << "20 kills in " << round << " runs, " << target.promised.size()
            << " acknowledged entries all there, seed " << seed << '\n';
}
