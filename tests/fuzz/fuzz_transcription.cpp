// Feeds any bytes to the reader of transcriptions; what it reads must print, and print the same when read
// again.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "core/base/transcription.hpp"

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
    if (again.tokens.size() != read.tokens.size() || again.shown() != printed) std::abort();
    if (read.tokens.size() < 200) lathbook::could_bear(read, read.plain());
  }
  return 0;
}
