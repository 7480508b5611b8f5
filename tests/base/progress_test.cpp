// The progress line on a real terminal, and the signals, each in a process of its own.
#include "core/base/progress.hpp"

#include <pty.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <thread>

#include "core/base/error.hpp"

using namespace lathbook;

namespace {

void work_for_a_while() {
  Progress progress("reading", 4000);
  const auto end = std::chrono::steady_clock::now() + std::chrono::milliseconds(550);
  while (std::chrono::steady_clock::now() < end) {
    progress.tick();
    std::this_thread::sleep_for(std::chrono::microseconds(200));
  }
}

std::string read_all(int handle) {
  std::string all;
  std::array<char, 4096> part{};
  for (ssize_t got = 0; (got = ::read(handle, part.data(), part.size())) > 0;) {
    all.append(part.data(), static_cast<std::size_t>(got));
  }
  ::close(handle);
  return all;
}

// The wait status of a child that runs this.
template <typename Work>
int status_of(const Work& work) {
  const pid_t child = ::fork();
  if (child == 0) {
    work();
    ::_exit(99);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return status;
}

}  // namespace

TEST_CASE("the line counts") {
  Progress unknown("reading");
  unknown.tick(3);
  CHECK(unknown.line() == "reading  3");
  Progress known("r\x1b", 8);
  known.tick();
  CHECK(known.line() == "r<U+001B>  1 of 8 (12 %)");
  known.tick(9);
  CHECK(known.line() == "r<U+001B>  10 of 8 (100 %)");
}

TEST_CASE("a terminal sees at most ten updates a second and a clean line at the end") {
  int terminal = -1;
  const pid_t child = ::forkpty(&terminal, nullptr, nullptr, nullptr);
  REQUIRE(child >= 0);
  if (child == 0) {
    work_for_a_while();
    ::_exit(0);
  }
  const std::string seen = read_all(terminal);
  ::waitpid(child, nullptr, 0);
  const auto lines = std::count(seen.begin(), seen.end(), '%');
  CHECK(lines >= 1);
  CHECK(lines <= 6);
  CHECK(seen.size() >= 4);
  CHECK(seen.substr(seen.size() - 4) == "\r\x1b[K");
}

TEST_CASE("a file or pipe sees nothing") {
  std::array<int, 2> pipe{};
  REQUIRE(::pipe(pipe.data()) == 0);
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    ::dup2(pipe[1], STDERR_FILENO);
    work_for_a_while();
    ::_exit(0);
  }
  ::close(pipe[1]);
  CHECK(read_all(pipe[0]).empty());
  ::waitpid(child, nullptr, 0);
}

TEST_CASE("the first signal asks, the second ends") {
  for (const int signal : {SIGINT, SIGTERM}) {
    const int once = status_of([signal] {
      install_stop_signal();
      if (stop_requested()) ::_exit(1);
      stop_if_requested("never");
      ::raise(signal);
      try {
        stop_if_requested("the import was left undone");
      } catch (const Error& error) {
        const bool said = std::string(error.what()) == "stopped: the import was left undone";
        ::_exit(stop_requested() && said ? 0 : 2);
      }
    });
    CHECK(once == 0);
    const int twice = status_of([signal] {
      install_stop_signal();
      ::raise(signal);
      ::raise(signal);
    });
    CHECK(WIFSIGNALED(twice));
    CHECK(WTERMSIG(twice) == signal);
  }
  CHECK_FALSE(stop_requested());
}
