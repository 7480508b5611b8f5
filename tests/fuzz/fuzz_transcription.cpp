// Feeds any bytes to the reader of transcriptions; what it reads must print, and what is printed must read
// and hold the same letters of the thing, letter for letter. (Token for token is asked of what people write,
// in tests/base.)
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "core/base/transcription.hpp"

namespace {

// Letters and digits that stand on the thing, without blanks and signs.
std::u32string letters(const lathbook::Transcription& read) {
  std::u32string text;
  for (const auto& token : read.tokens) {
    const bool stands =
        (token.standing & (lathbook::kRestored | lathbook::kExpanded | lathbook::kSupplied)) == 0;
    if (stands && token.kind == lathbook::TokenKind::letter) text += token.letter;
  }
  return text;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto fault = lathbook::fault_in_transcription(text);
  if (fault) {
    if (fault->reason.empty() || fault->at > size) std::abort();
    return 0;
  }
  for (const bool counted : {false, true}) {
    const auto read = lathbook::read_transcription(text, {counted});
    const auto printed = read.shown();
    if (lathbook::fault_in_transcription(printed)) std::abort();
    const auto again = lathbook::read_transcription(printed, {true});
    if (letters(again) != letters(read)) std::abort();
    if (read.tokens.size() < 200) lathbook::could_bear(read, read.plain());
  }
  return 0;
}
