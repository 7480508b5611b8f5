// Lists of makers' marks from elsewhere (CSV or XML) turned into the one form in which an archive keeps them.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

/// A list as kept: lines of seven cells parted by tabs (entry, maker, mark, place, role, from, to), UTF-8.
struct MarkList {
  std::string text;
  std::size_t marks = 0;
};

/// Reads a list of at most 2,000,000 marks. A CSV sheet has a header naming its columns, at least 'maker' and
/// 'mark'; an XML document has a root of any name with one element 'mark' an entry, whose children or
/// attributes are named as the columns ('mark' as 'form'). All or nothing: throws Error(invalid) naming
/// `name`, line and fault. A missing entry number becomes the line's.
LATHBOOK_API MarkList read_mark_list(std::string_view bytes, const std::string& name);

}  // namespace lathbook
