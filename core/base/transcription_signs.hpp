// The brackets, gaps and notes of transcriptions: what may be written and how it is printed. Internal to
// core/base.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/transcription.hpp"

namespace lathbook {

/// A pair of brackets. A doubled sign ("[[") is the typed substitute of the published one.
struct Bracket {
  std::u32string_view open;
  std::u32string_view close;
  Standing standing;
};

/// Longer openings first, so that "[[" is not read as "[" twice; of each standing the published pair first.
inline constexpr std::array<Bracket, 13> kBrackets = {{
    {U"[[", U"]]", kErased},
    {U"<<", U">>", kOverErasure},
    {U"〚", U"〛", kErased},
    {U"⟦", U"⟧", kErased},
    {U"«", U"»", kOverErasure},
    {U"⸢", U"⸣", kCorrected},
    {U"`", U"´", kAdded},
    {U"[", U"]", kRestored},
    {U"{", U"}", kSuperfluous},
    {U"<", U">", kSupplied},
    {U"⟨", U"⟩", kSupplied},
    {U"〈", U"〉", kSupplied},
    {U"(", U")", kExpanded},
}};

/// What a bracket holds when it holds no letters: [- - -], [..], [3], [c. 5], [4-6], each also with '?' or a
/// reason ("covered", "mortar", "worn", "#"). Nothing when the text is no such thing. `counted` says how
/// plain dots are meant.
std::optional<Token> read_gap(std::u32string_view inside, bool counted);

/// What stands in round brackets when it is no expansion: (!), (?), (rtl), (mirrored), (vac. 3), (- - -).
/// (rev.), which speaks of the letter before it, comes back as a note with the letter 'r'.
std::optional<Token> read_note(std::u32string_view inside);

/// The gap, blank or note in the published signs.
std::string shown_gap(const Token& gap);
std::string shown_note(const Token& note);

/// Sets the bounds of 'about n' (a third either way) or, of dots typed by hand, of 'some letters, perhaps n'.
void set_about(Token& gap, std::int32_t n);
void set_some(Token& gap, std::int32_t n);

bool is_dash(char32_t c);
/// The plain letter of a character that is written as its mirror image, or nought.
char32_t mirrored_as(char32_t c);

}  // namespace lathbook
