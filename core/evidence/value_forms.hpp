// Forms that values and other words of a statement must keep. Internal to core/evidence.
#pragma once

#include <string>
#include <string_view>

namespace lathbook {

/// Each gives the fault in words that follow "because it" or a colon, or nothing when the form is kept.

/// Well-formed UTF-8 of at most 1 MiB, not blank throughout, without control characters other than line
/// feed and tab, and without U+FFFE and U+FFFF (which XML 1.0, section 2.2, has no room for).
std::string fault_of_text(std::string_view text);
/// A text that core/base/transcription.hpp reads.
std::string fault_of_transcription(std::string_view text);
/// 1 to 40 of A-Z a-z 0-9 . - _ / that begin and end with a letter or digit.
std::string fault_of_code(std::string_view text);
/// A measure with a unit of the table, or feet and inches (5' 3 1/2").
std::string fault_of_quantity(std::string_view text);
/// A decimal number with a full stop; no exponent.
std::string fault_of_number(std::string_view text);
/// A whole number of 64 bits, in its shortest form.
std::string fault_of_integer(std::string_view text);
/// An absolute URI (RFC 3986); http and https need a host; schemes that a browser would run are refused.
std::string fault_of_uri(std::string_view text);
/// A SHA-256 as 64 small hexadecimal digits.
std::string fault_of_digest(std::string_view text);
/// At least three pairs x,y parted by one blank, in metres, that enclose an area; the first may be
/// repeated as the last.
std::string fault_of_polygon(std::string_view text);
/// Hue, value and chroma (10YR 7/4), or a neutral (N 8/).
std::string fault_of_munsell(std::string_view text);
/// The form of a language tag: a word of 2 to 8 letters and further words of 1 to 8 letters or digits,
/// joined by hyphens (RFC 5646, section 2.1; the registry of languages is not consulted).
std::string fault_of_language(std::string_view text);

}  // namespace lathbook
