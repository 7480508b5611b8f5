// Reads dates as people type them in English, and keeps what was typed beside what was understood.
#pragma once

#include <string>
#include <string_view>

#include "core/base/api.hpp"
#include "core/base/edtf.hpp"

namespace lathbook {

/// The longest typed date that is read, in bytes.
inline constexpr std::size_t longest_typed_date = 200;

struct TypedDate {
  std::string typed;       ///< as given, outer blanks included
  Edtf edtf;               ///< what it was read as
  std::string understood;  ///< a plain sentence without a full stop, to be shown to the person
};

/// Takes EDTF as it is (but 'YYYY-25' to 'YYYY-41' are spans of years when they can be), and the words
/// of schemas/dates-en.tsv in any case: 'about 1890', 'c. 1905-10', 'late 1920s', 'by 1921', 'June 12,
/// 1924', '19th century' ... (docs/dates.md lists the forms and what each means). Blanks may be many;
/// en and em dashes stand for a hyphen, no-break spaces for a blank; other non-ASCII text is refused.
/// Throws Error(invalid) with one sentence saying what to write instead.
LATHBOOK_API TypedDate read_typed_date(std::string_view typed);

}  // namespace lathbook
