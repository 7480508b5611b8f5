// SHA-256 (FIPS 180-4) of words, streams and files, and other digests by name; the only door to libcrypto.
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

/// The 32 bytes of a SHA-256. Ordered as the bytes are, which is the order of the hexadecimal text too.
struct LATHBOOK_API Digest {
  std::array<std::uint8_t, 32> bytes{};
  auto operator<=>(const Digest&) const = default;
  bool operator==(const Digest&) const = default;
  /// 64 lower-case hexadecimal digits.
  std::string hex() const;
  /// Reads exactly 64 hexadecimal digits of either case; nothing for any other text.
  static std::optional<Digest> from_hex(std::string_view text);
};

/// Digest of bytes in memory. Safe to call from several threads; throws Error(io) only when libcrypto
/// itself refuses.
LATHBOOK_API Digest sha256(std::string_view bytes);

/// Digest of bytes that arrive in pieces. Owns its context; move only; one thread at a time.
class LATHBOOK_API Sha256 {
public:
  Sha256();
  ~Sha256();
  Sha256(Sha256&& other) noexcept;
  Sha256& operator=(Sha256&& other) noexcept;
  Sha256(const Sha256&) = delete;
  Sha256& operator=(const Sha256&) = delete;

  void add(std::string_view bytes);
  /// The digest of everything added; afterwards the object is as new and may be used again.
  Digest finish();

private:
  void* context_ = nullptr;
};

/// Digest by the name that other programs' packages give an algorithm: md5, sha1, sha224, sha256, sha384
/// or sha512. Owns its context; move only; one thread at a time.
class LATHBOOK_API NamedHash {
public:
  static bool knows(std::string_view name);
  /// Throws Error(unsupported) for a name that `knows` denies.
  explicit NamedHash(std::string_view name);
  ~NamedHash();
  NamedHash(NamedHash&& other) noexcept;
  NamedHash& operator=(NamedHash&& other) noexcept;
  NamedHash(const NamedHash&) = delete;
  NamedHash& operator=(const NamedHash&) = delete;

  void add(std::string_view bytes);
  /// Lower-case hexadecimal digits of everything added. To be called once.
  std::string finish();

private:
  void* context_ = nullptr;
};

/// Digest of a file's bytes, read 1 MiB at a time. Throws Error(not_found) when there is no such file
/// and Error(io) when it is not a regular file or cannot be read to its end.
LATHBOOK_API Digest sha256_file(const std::filesystem::path& path);

}  // namespace lathbook

template <>
struct std::hash<lathbook::Digest> {
  std::size_t operator()(const lathbook::Digest& digest) const noexcept {
    // A digest is already evenly spread, so any of its bytes serve.
    std::size_t value = 0;
    std::memcpy(&value, digest.bytes.data(), sizeof value);
    return value;
  }
};
