// The 128-bit ids of records (RFC 9562): made at random, from a name, read and printed.
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

struct LATHBOOK_API Uuid {
  std::array<std::uint8_t, 16> bytes{};
  auto operator<=>(const Uuid&) const = default;
  bool operator==(const Uuid&) const = default;
  /// Lower case, 8-4-4-4-12 (RFC 9562 section 4).
  std::string text() const;
  /// Reads the 36-character form in either case; nothing for any other text. Any version and variant
  /// is taken, so that ids made elsewhere can be kept.
  static std::optional<Uuid> parse(std::string_view text);
  /// Version 4: 122 random bits from the system. Throws Error(io) when the system gives none.
  static Uuid random();
};

/// Version 8 (RFC 9562 section 5.8): the first 128 bits of the SHA-256 of the name, with version and
/// variant set. The same name always gives the same id, on every machine.
LATHBOOK_API Uuid uuid_from_name(std::string_view name);

/// Fills the buffer from the system's random source; throws Error(io) when it cannot.
LATHBOOK_API void random_bytes(void* buffer, std::size_t size);

}  // namespace lathbook

template <>
struct std::hash<lathbook::Uuid> {
  std::size_t operator()(const lathbook::Uuid& id) const noexcept {
    std::uint64_t high = 0;
    std::uint64_t low = 0;
    std::memcpy(&high, id.bytes.data(), sizeof high);
    std::memcpy(&low, id.bytes.data() + sizeof high, sizeof low);
    return static_cast<std::size_t>(high ^ (low * 0x9e3779b97f4a7c15U));
  }
};
