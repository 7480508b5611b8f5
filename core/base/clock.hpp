// Moments of entry (UTC with the writer's offset) and the clock that the program reads.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

/// An instant and the offset of the wall clock it was read from. Ordered by instant, then by offset.
struct LATHBOOK_API Moment {
  std::int64_t seconds = 0;         ///< since 1970-01-01T00:00:00Z, no leap seconds
  std::int16_t offset_minutes = 0;  ///< east of Greenwich, -1439 to 1439
  auto operator<=>(const Moment&) const = default;
  bool operator==(const Moment&) const = default;
  /// "2026-05-03T10:15:00+02:00", with "Z" when the offset is nought (RFC 3339). Years 0000 to 9999;
  /// throws Error(invalid) outside them.
  std::string text() const;
  /// Reads what text() writes, "+00:00" besides "Z"; nothing for any other text. Seconds go to 59 and
  /// have no fraction; the offset and the day must exist.
  static std::optional<Moment> parse(std::string_view text);
  /// The day on the writer's wall clock, counted from 1970-01-01.
  std::int64_t local_day() const;
};

/// Where the time comes from. Nothing but the command line's main makes the real one.
class LATHBOOK_API Clock {
public:
  virtual ~Clock();
  virtual Moment now() const = 0;
};

/// The system's clock in the system's time zone. When the environment holds LATHBOOK_NOW=<moment>, that
/// moment is answered for ever, so that a run can be repeated byte for byte; a value that is no moment
/// throws Error(invalid).
class LATHBOOK_API SystemClock : public Clock {
public:
  ~SystemClock() override;
  Moment now() const override;
};

/// A clock that a test sets.
class LATHBOOK_API FixedClock : public Clock {
public:
  explicit FixedClock(Moment moment) : moment_(moment) {}
  ~FixedClock() override;
  Moment now() const override { return moment_; }
  void set(Moment moment) { moment_ = moment; }
  void advance(std::int64_t seconds) { moment_.seconds += seconds; }

private:
  Moment moment_;
};

}  // namespace lathbook
