// The small alphabet in which marks are compared: plain capitals, figures and '&', one byte each.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace lathbook::marks {

/// Codes: 1..26 the letters A to Z, 27..36 the figures, 37 '&', 38..95 all other letters, several to a code.
using Code = unsigned char;
inline constexpr std::size_t kCodes = 96;
inline constexpr Code kAnd = 37;

/// Letters that casting, wear or a hurried eye take for one another: I 1 L J, O 0 Q D, S 5, B 8, Z 2, G 6 C,
/// V U Y, T 7, E 3 F, P R. Common practice, no source. The code that stands for the letter's class.
Code class_of(Code code);

/// What is compared of a text: letters and figures in order, case, diacritics, blanks and points dropped,
/// AND as '&', COMPANY as CO, LIMITED as LTD, BROTHERS as BROS.
struct Spelling {
  std::string codes;
  std::vector<std::uint32_t> line_ends;  ///< number of codes before each line end ('/', '|', line feed)
};
Spelling spell(std::string_view text);

/// Codes of one character, usually one ("ß" gives two); none for what is not compared.
std::string codes_of(char32_t character);
/// The short form of a word in codes ("COMPANY" gives "CO"), or the word itself.
std::string short_form(const std::string& word);
/// For showing: "A" of 1; "·" of a code that several letters share.
std::string letter_of(Code code);

}  // namespace lathbook::marks
