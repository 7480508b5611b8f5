#include "core/base/progress.hpp"

#include <signal.h>
#include <unistd.h>

#include <utility>

#include "core/base/error.hpp"
#include "core/base/text.hpp"

namespace lathbook {
namespace {

constexpr std::chrono::milliseconds between_updates{100};
constexpr const char* wipe = "\r\x1b[K";

volatile sig_atomic_t stop_flag = 0;

void on_stop_signal(int) {
  stop_flag = 1;
}

// Straight to the handle: a progress line must not disturb what streams hold back. It is decoration, so
// a failure is nobody's concern.
void put(const std::string& text) {
  const ssize_t written = ::write(STDERR_FILENO, text.data(), text.size());
  static_cast<void>(written);
}

}  // namespace

Progress::Progress(std::string what, std::uint64_t total)
    : what_(std::move(what)),
      total_(total),
      terminal_(::isatty(STDERR_FILENO) == 1),
      // Work that is over at once shows nothing.
      next_(std::chrono::steady_clock::now() + between_updates) {}

Progress::~Progress() {
  done();
}

std::string Progress::line() const {
  std::string text = safe_display(what_) + "  " + std::to_string(count_);
  if (total_ == 0) return text;
  text += " of " + std::to_string(total_);
  const double share = static_cast<double>(count_) / static_cast<double>(total_);
  return text + " (" + std::to_string(static_cast<int>(100.0 * (share < 1.0 ? share : 1.0))) + " %)";
}

void Progress::tick(std::uint64_t pieces) {
  count_ += pieces;
  if (!terminal_) return;
  const auto now = std::chrono::steady_clock::now();
  if (now < next_) return;
  next_ = now + between_updates;
  shown_ = true;
  put(wipe + line());
}

void Progress::done() {
  if (shown_) put(wipe);
  shown_ = false;
}

void install_stop_signal() {
  struct sigaction action {};
  action.sa_handler = &on_stop_signal;
  // After the first signal the default comes back, so that a second one ends the program at once.
  action.sa_flags = static_cast<int>(SA_RESETHAND);
  sigemptyset(&action.sa_mask);
  sigaction(SIGINT, &action, nullptr);
  sigaction(SIGTERM, &action, nullptr);
}

bool stop_requested() noexcept {
  return stop_flag != 0;
}

void stop_if_requested(const std::string& what) {
  if (stop_requested()) fail(ErrorKind::denied, "stopped: " + what);
}

}  // namespace lathbook
