#include "core/base/identifier.hpp"

#include <sys/random.h>

#include <algorithm>
#include <cerrno>
#include <system_error>

#include "core/base/digest.hpp"
#include "core/base/error.hpp"
#include "core/base/text.hpp"

namespace lathbook {
namespace {

constexpr bool dash_before(std::size_t byte) {
  return byte == 4 || byte == 6 || byte == 8 || byte == 10;
}

// RFC 9562: the version is the high half of octet 6, the variant the two high bits of octet 8.
void mark(Uuid& id, std::uint8_t version) {
  id.bytes[6] = static_cast<std::uint8_t>((id.bytes[6] & 0x0f) | (version << 4));
  id.bytes[8] = static_cast<std::uint8_t>((id.bytes[8] & 0x3f) | 0x80);
}

}  // namespace

std::string Uuid::text() const {
  static constexpr char digits[] = "0123456789abcdef";
  std::string text;
  text.reserve(36);
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (dash_before(i)) text += '-';
    text += digits[bytes[i] >> 4];
    text += digits[bytes[i] & 15];
  }
  return text;
}

std::optional<Uuid> Uuid::parse(std::string_view text) {
  if (text.size() != 36) return std::nullopt;
  Uuid id;
  std::size_t at = 0;
  for (std::size_t i = 0; i < id.bytes.size(); ++i) {
    if (dash_before(i) && text[at++] != '-') return std::nullopt;
    const int high = hex_value(text[at++]);
    const int low = hex_value(text[at++]);
    if (high < 0 || low < 0) return std::nullopt;
    id.bytes[i] = static_cast<std::uint8_t>(high * 16 + low);
  }
  return id;
}

Uuid Uuid::random() {
  Uuid id;
  random_bytes(id.bytes.data(), id.bytes.size());
  mark(id, 4);
  return id;
}

Uuid uuid_from_name(std::string_view name) {
  const Digest digest = sha256(name);
  Uuid id;
  std::copy_n(digest.bytes.begin(), id.bytes.size(), id.bytes.begin());
  mark(id, 8);
  return id;
}

void random_bytes(void* buffer, std::size_t size) {
  auto* at = static_cast<unsigned char*>(buffer);
  while (size > 0) {
    const ssize_t got = ::getrandom(at, size, 0);
    if (got < 0) {
      if (errno == EINTR) continue;
      fail(ErrorKind::io,
           "the system gives no random numbers (" + std::generic_category().message(errno) + ")");
    }
    at += got;
    size -= static_cast<std::size_t>(got);
  }
}

}  // namespace lathbook
