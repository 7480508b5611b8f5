// Bytes from one stream to another, a piece at a time.
#pragma once

#include <cstdint>
#include <functional>
#include <istream>
#include <ostream>
#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

/// Copies to the end, in pieces of 64 KiB, and shows each piece to `also` unless that is empty. Returns the
/// number of bytes. Throws Error(io), naming `what`, when one of the streams fails.
LATHBOOK_API std::uint64_t copy_stream(std::istream& in, std::ostream& out, const std::string& what,
                                       const std::function<void(std::string_view)>& also = {});

}  // namespace lathbook
