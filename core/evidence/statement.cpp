#include "core/evidence/statement.hpp"

#include <algorithm>

#include "core/evidence/encoding.hpp"

namespace lathbook {

namespace {

constexpr std::array<std::string_view, 3> kActs{"state", "withdraw", "expunge"};
constexpr std::array<std::string_view, 5> kClasses{"", "physical", "documentary", "oral", "comparative"};
constexpr std::array<std::string_view, 5> kConfidences{"", "certain", "probable", "possible", "conjecture"};

template <typename Enum, std::size_t size>
std::optional<Enum> from_word(const std::array<std::string_view, size>& words, std::string_view text) {
  const auto found = std::find(words.begin(), words.end(), text);
  if (found == words.end()) return std::nullopt;
  return static_cast<Enum>(found - words.begin());
}

}  // namespace

std::string_view word(Act act) {
  return kActs.at(static_cast<std::size_t>(act));
}
std::string_view word(EvidenceClass evidence) {
  return kClasses.at(static_cast<std::size_t>(evidence));
}
std::string_view word(Confidence confidence) {
  return kConfidences.at(static_cast<std::size_t>(confidence));
}
std::optional<Act> act_from_word(std::string_view text) {
  return from_word<Act>(kActs, text);
}
std::optional<EvidenceClass> class_from_word(std::string_view text) {
  return from_word<EvidenceClass>(kClasses, text);
}
std::optional<Confidence> confidence_from_word(std::string_view text) {
  return from_word<Confidence>(kConfidences, text);
}

std::string_view Content::qualifier(std::string_view name) const {
  const auto found = std::find_if(qualifiers.begin(), qualifiers.end(),
                                  [name](const Qualifier& qualifier) { return qualifier.name == name; });
  return found == qualifiers.end() ? std::string_view() : std::string_view(found->value);
}

Digest Sealed::id() const {
  return sha256(encode_header(header));
}

std::string hex(const ChainId& chain) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (const auto byte : chain) {
    text += digits[byte >> 4U];
    text += digits[byte & 15U];
  }
  return text;
}

std::optional<ChainId> chain_from_hex(std::string_view text) {
  ChainId chain{};
  if (text.size() != 2 * chain.size()) return std::nullopt;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char digit = text[i];
    unsigned value = 0;
    if (digit >= '0' && digit <= '9') {
      value = static_cast<unsigned>(digit - '0');
    } else if (digit >= 'a' && digit <= 'f') {
      value = static_cast<unsigned>(digit - 'a') + 10U;
    } else {
      return std::nullopt;
    }
    chain[i / 2] = static_cast<std::uint8_t>((unsigned{chain[i / 2]} << 4U) | value);
  }
  return chain;
}

std::string short_name(const ChainId& chain, std::uint64_t number) {
  return hex(chain).substr(0, 8) + "-" + std::to_string(number);
}

Digest fingerprint_of(std::vector<Digest> heads) {
  std::sort(heads.begin(), heads.end());
  Sha256 hash;
  for (const auto& head : heads) {
    hash.add({reinterpret_cast<const char*>(head.bytes.data()), head.bytes.size()});
  }
  return hash.finish();
}

}  // namespace lathbook
