// How dates, spots and names stand in a sentence: the same in every command, page and report.
#pragma once

#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

struct EdtfDate;

/// A date for a sentence: 'about 1911', 'June 1924', '12 June 1924', '1888 to 1890', 'about 1891 or later',
/// 'the 1880s'. What is no EDTF (typed words) stays as it is.
LATHBOOK_API std::string date_in_words(std::string_view edtf);
/// The same of one date of an interval or set.
LATHBOOK_API std::string date_in_words(const EdtfDate& date);

/// A place in a source without the part of a picture that a viewer cuts out ('xywh=262,158,20,18', W3C,
/// 'Media Fragments URI 1.0', 2012): 'top course, third from the left'. 'A part of the picture' when there is
/// nothing else.
LATHBOOK_API std::string spot_in_words(std::string_view spot);

/// Whether a name needs 'are' and 'were': 'four screw holes in the back', 'bell wires behind the slip'.
/// Guessed from its ending.
LATHBOOK_API bool is_plural(std::string_view name);

/// The words with a full stop, unless they end in one already, if within a quotation.
LATHBOOK_API std::string with_full_stop(std::string words);
/// The words without the full stop at their end, where the sentence goes on.
LATHBOOK_API std::string without_full_stop(std::string words);

}  // namespace lathbook
