// Feeds any bytes to the reader of typed dates; only its own refusal may come out, and EDTF that stands.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "core/base/error.hpp"
#include "core/base/typed_date.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try {
    const lathbook::TypedDate date = lathbook::read_typed_date(text);
    if (!(lathbook::Edtf::parse(date.edtf.text()) == date.edtf) || date.understood.empty()) std::abort();
  } catch (const lathbook::Error& error) {
    if (error.kind() != lathbook::ErrorKind::invalid) std::abort();
    for (const char* c = error.what(); *c != '\0'; ++c)
      if (static_cast<unsigned char>(*c) < 0x20 || static_cast<unsigned char>(*c) >= 0x7F) std::abort();
  }
  return 0;
}
