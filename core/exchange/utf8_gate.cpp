#include "core/exchange/utf8_gate.hpp"

#include <algorithm>

#include "core/base/text.hpp"

namespace lathbook {

namespace {

// Bytes at the end that may be the beginning of a character: what a lead byte promises and is not there yet.
std::size_t unfinished(std::string_view bytes) {
  for (std::size_t back = 1; back <= std::min<std::size_t>(3, bytes.size()); ++back) {
    const auto byte = static_cast<unsigned char>(bytes[bytes.size() - back]);
    if (byte < 0x80) return 0;
    if (byte < 0xC0) continue;
    const std::size_t wanted = byte >= 0xF0 ? 4 : (byte >= 0xE0 ? 3 : 2);
    return wanted > back ? back : 0;
  }
  return 0;
}

}  // namespace

std::string Utf8Fault::text() const {
  return ":" + std::to_string(line) + ":" + std::to_string(column) + ": " + reason;
}

void Utf8Gate::count(std::string_view bytes) {
  for (auto at = bytes.find('\n'); at != std::string_view::npos; at = bytes.find('\n', at + 1)) {
    ++line_;
    line_start_ = offset_ + at + 1;
  }
  offset_ += bytes.size();
}

Utf8Fault Utf8Gate::fault(unsigned char byte) const {
  constexpr std::string_view digits = "0123456789ABCDEF";
  Utf8Fault bad{line_, offset_ - line_start_ + 1, offset_, {}};
  bad.reason = std::string("byte ") + digits[byte >> 4U] + digits[byte & 15U] + " at offset " +
               std::to_string(offset_) + " is not UTF-8; only UTF-8 is read";
  return bad;
}

std::optional<Utf8Fault> Utf8Gate::pass(std::string_view bytes, const OnBytes& on_bytes) {
  std::string joined;
  if (!rest_.empty()) {
    joined = rest_ + std::string(bytes);
    bytes = joined;
    rest_.clear();
  }
  const auto bad = first_invalid_utf8(bytes.substr(0, bytes.size() - unfinished(bytes)));
  const auto good = bytes.substr(0, bad.value_or(bytes.size() - unfinished(bytes)));
  if (!good.empty()) on_bytes(good);
  count(good);
  if (bad) return fault(static_cast<unsigned char>(bytes[*bad]));
  rest_ = bytes.substr(good.size());
  return std::nullopt;
}

std::optional<Utf8Fault> Utf8Gate::finish() const {
  if (rest_.empty()) return std::nullopt;
  return fault(static_cast<unsigned char>(rest_.front()));
}

}  // namespace lathbook
