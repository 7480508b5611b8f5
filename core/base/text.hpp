// Words: UTF-8 checks, comparison keys, safe display and messages; the only door to ICU.
// Every function but first_invalid_utf8, require_utf8, safe_display and quote expects valid UTF-8;
// where bytes are not, each bad one counts as U+FFFD, and nothing throws unless said. All are safe to
// call from several threads.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"

namespace lathbook {

/// Byte offset of the first byte that does not belong to well-formed UTF-8 (The Unicode Standard,
/// table 3-7: no surrogates, no overlong forms, nothing past U+10FFFF); nothing when all is well.
LATHBOOK_API std::optional<std::size_t> first_invalid_utf8(std::string_view bytes);

/// Throws Error(invalid) naming `where`, the offset and the byte unless the text is well-formed.
LATHBOOK_API void require_utf8(std::string_view bytes, const std::string& where);

/// Canonical composition (Unicode Standard Annex 15).
LATHBOOK_API std::string nfc(std::string_view text);

/// Key for searching: compatibility decomposition, combining marks and characters drawn as nothing
/// dropped, case folded, typographic apostrophes, quotation marks and dashes as on a keyboard, every run
/// of white space one space, none at the ends. Folding a key again changes nothing.
LATHBOOK_API std::string fold(std::string_view text);

/// Order for people: below, at or above nought as `a` comes before, with or after `b`. Root collation
/// with digits read as numbers ("N-2" before "N-10"); ties are broken by bytes, so 0 means equal bytes.
LATHBOOK_API int compare_for_people(std::string_view a, std::string_view b);

/// Bytes whose plain comparison is the order of compare_for_people without its tie-break.
LATHBOOK_API std::string sort_key(std::string_view text);

/// Text that cannot steer a terminal or hide: control characters, bidirectional controls, zero-width
/// and other format characters, unassigned, private use and bytes that are not UTF-8 are written out
/// as <U+202E> or <byte FF>. Line feeds stay.
LATHBOOK_API std::string safe_display(std::string_view text);

/// Columns on a terminal: wide and full-width East Asian characters 2, combining marks and format
/// characters 0, all others 1. Meant for what safe_display returned, one line at a time.
LATHBOOK_API std::size_t display_width(std::string_view text);

/// "U+202E RIGHT-TO-LEFT OVERRIDE"; a character without a name gets its kind: "U+0007 (control character)".
LATHBOOK_API std::string describe_code_point(char32_t code_point);

/// Lines of at most `columns` columns (at least 1), broken at spaces; a longer word is broken where it
/// must. Line feeds in the text are kept as breaks. Empty text gives one empty line.
LATHBOOK_API std::vector<std::string> wrap(std::string_view text, std::size_t columns);

/// Fewest single code points to insert, remove, replace, or neighbours to swap, that turn one folded
/// text into the other; for offering the nearest known words.
LATHBOOK_API std::size_t edit_distance(std::string_view a, std::string_view b);

/// Up to `count` of the known words nearest to this one, nearest first, none further than a third of
/// the word's length plus one.
LATHBOOK_API std::vector<std::string> nearest(std::string_view word, const std::vector<std::string>& known,
                                              std::size_t count = 3);

/// What a character is, for reading writing letter by letter. `hidden` is drawn as nothing (controls,
/// bidirectional controls, joiners, unassigned).
enum class CharacterKind : std::uint8_t { letter, digit, mark, space, sign, hidden };
LATHBOOK_API CharacterKind character_kind(char32_t code_point);
/// Canonical decomposition of one character (Unicode Standard Annex 15), itself when it has none.
LATHBOOK_API std::u32string decomposed(char32_t code_point);

/// For a sentence: safe_display with line feeds written out too, shortened to 60 characters with an
/// ellipsis, between typographic quotation marks.
LATHBOOK_API std::string quote(std::string_view text);

/// ASCII helpers: these know only the space, tab, CR, LF, FF and VT, and the letters A to Z.
LATHBOOK_API std::string_view trim(std::string_view text);
LATHBOOK_API std::vector<std::string> split(std::string_view text, char separator);
LATHBOOK_API std::string join(const std::vector<std::string>& parts, std::string_view separator);
LATHBOOK_API std::string to_lower_ascii(std::string_view text);
/// With a capital first letter, as a sentence begins.
LATHBOOK_API std::string capital(std::string text);
/// 0 to 15 for a hexadecimal digit of either case, else -1.
LATHBOOK_API int hex_value(char c);

/// The text as code points, bad bytes as U+FFFD; and back.
LATHBOOK_API std::u32string code_points(std::string_view text);
LATHBOOK_API std::string utf8(std::u32string_view code_points);

}  // namespace lathbook
