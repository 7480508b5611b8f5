// Lets only well-formed UTF-8 through, in whole characters, wherever the pieces of a stream are cut.
// Internal to core/exchange.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

struct Utf8Fault {
  std::uint64_t line = 1;
  std::uint64_t column = 1;  ///< in bytes
  std::uint64_t offset = 0;
  std::string reason;
  /// ":line:column: reason", to stand after a file's name.
  std::string text() const;
};

class LATHBOOK_API Utf8Gate {
public:
  using OnBytes = std::function<void(std::string_view)>;
  /// Gives the whole characters of the stream so far that were not given yet; what stands before a bad byte
  /// is given too, so that an earlier fault of another sort is told first.
  std::optional<Utf8Fault> pass(std::string_view bytes, const OnBytes& on_bytes);
  /// A character cut off at the end is a fault.
  std::optional<Utf8Fault> finish() const;

private:
  void count(std::string_view bytes);
  Utf8Fault fault(unsigned char byte) const;

  std::string rest_;  ///< a character that is not whole yet, at most 3 bytes
  std::uint64_t line_ = 1;
  std::uint64_t line_start_ = 0;
  std::uint64_t offset_ = 0;
};

}  // namespace lathbook
