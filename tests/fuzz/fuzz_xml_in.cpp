// Any bytes as an exchange document: a sentence or a sound reading, never a crash, in pieces of any size.
#include <algorithm>
#include <cstdint>
#include <string>

#include "core/base/error.hpp"
#include "core/exchange/xml_in.hpp"

namespace {

class Nowhere : public lathbook::LedgerSink {
public:
  lathbook::Taken take(const lathbook::Sealed&) override { return lathbook::Taken::added; }
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  // The first byte decides where the stream is cut.
  const std::size_t piece = size == 0 ? 1 : 1 + data[0] % 64U;
  Nowhere sink;
  try {
    lathbook::ExchangeParser parser("fuzz.xml", sink);
    for (std::size_t at = 0; at < size; at += piece) parser.feed(bytes.substr(at, piece));
    parser.finish();
  } catch (const lathbook::Error&) {
  }
  return 0;
}
