// A progress line for long work, and the wish of the person at the keyboard to stop it.
#pragma once

#include <chrono>
#include <cstdint>
#include <string>

#include "core/base/api.hpp"

namespace lathbook {

/// One line on standard error, rewritten at most ten times a second, and only when standard error is a
/// terminal. It is wiped by done() or by the destructor, so results and error messages stand alone.
class LATHBOOK_API Progress {
public:
  /// `total` 0 means that the amount of work is not known.
  explicit Progress(std::string what, std::uint64_t total = 0);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  /// So many more pieces are finished.
  void tick(std::uint64_t pieces = 1);
  void done();
  std::uint64_t count() const { return count_; }
  /// What the line says now, without control characters: "reading statements  1200 of 4000 (30 %)".
  std::string line() const;

private:
  std::string what_;
  std::uint64_t total_;
  std::uint64_t count_ = 0;
  bool terminal_;
  bool shown_ = false;
  std::chrono::steady_clock::time_point next_;
};

/// From now on SIGINT and SIGTERM set the stop flag; a second signal of the same kind ends the program
/// at once, as it would have without this call.
LATHBOOK_API void install_stop_signal();
/// Long work asks this between its steps and ends in good order when it says yes.
LATHBOOK_API bool stop_requested() noexcept;
/// Throws Error(denied) "stopped: ..." when a stop was asked for; the caller's undone work rolls back.
LATHBOOK_API void stop_if_requested(const std::string& what);

}  // namespace lathbook
