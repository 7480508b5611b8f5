// Feeds any bytes to the EDTF reader; what it accepts must read the same again, with its ends in order.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "core/base/edtf.hpp"
#include "core/base/error.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto date = lathbook::Edtf::try_parse(text);
  if (!date) return 0;
  const auto again = lathbook::Edtf::parse(date->text());
  if (again.text() != date->text() || again.earliest() != date->earliest()) std::abort();
  if (date->earliest() && date->latest() && *date->earliest() > *date->latest()) std::abort();
  if (date->earliest_text().empty() != (date->start_kind() == lathbook::EndKind::unknown)) std::abort();
  if (date->latest_text().empty() != (date->end_kind() == lathbook::EndKind::unknown)) std::abort();
  if (lathbook::describe(*date).empty()) std::abort();
  return 0;
}
