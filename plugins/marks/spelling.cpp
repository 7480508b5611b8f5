#include "plugins/marks/spelling.hpp"

#include <utility>

#include "core/base/text.hpp"

namespace lathbook::marks {

namespace {

constexpr Code kFirstFigure = 27;
constexpr Code kFirstOther = 38;

Code plain_code(char32_t c) {
  if (c >= 'a' && c <= 'z') return static_cast<Code>(c - 'a' + 1);
  if (c >= 'A' && c <= 'Z') return static_cast<Code>(c - 'A' + 1);
  if (c >= '0' && c <= '9') return static_cast<Code>(c - '0' + kFirstFigure);
  return c == '&' ? kAnd : Code{0};
}

std::array<Code, kCodes> make_classes() {
  std::array<Code, kCodes> classes{};
  for (std::size_t i = 0; i < kCodes; ++i) classes[i] = static_cast<Code>(i);
  for (const std::string_view members : {"I1LJ", "O0QD", "S5", "B8", "Z2", "G6C", "VUY", "T7", "E3F", "PR"}) {
    const Code first = plain_code(static_cast<char32_t>(members.front()));
    for (const char member : members) classes[plain_code(static_cast<char32_t>(member))] = first;
  }
  return classes;
}

std::string in_codes(std::string_view word) {
  std::string codes;
  for (const char c : word) codes += static_cast<char>(plain_code(static_cast<char32_t>(c)));
  return codes;
}

// Latin letters that Unicode does not take apart.
std::string_view spelt_out(char32_t c) {
  switch (c) {
    case U'æ':
    case U'Æ':
      return "AE";
    case U'œ':
    case U'Œ':
      return "OE";
    case U'ø':
    case U'Ø':
      return "O";
    case U'ł':
    case U'Ł':
      return "L";
    case U'đ':
    case U'Đ':
    case U'ð':
    case U'Ð':
      return "D";
    case U'þ':
    case U'Þ':
      return "TH";
    default:
      return {};
  }
}

void append_codes(std::string& codes, char32_t folded) {
  if (const Code code = plain_code(folded)) {
    codes += static_cast<char>(code);
    return;
  }
  if (const auto letters = spelt_out(folded); !letters.empty()) {
    codes += in_codes(letters);
    return;
  }
  const auto kind = character_kind(folded);
  if (kind != CharacterKind::letter && kind != CharacterKind::digit) return;
  codes += static_cast<char>(kFirstOther + folded * 2654435761U % (kCodes - kFirstOther));
}

}  // namespace

Code class_of(Code code) {
  static const auto classes = make_classes();
  return classes[code];
}

std::string codes_of(char32_t character) {
  std::string codes;
  if (character < 0x80) {
    append_codes(codes, character);
    return codes;
  }
  for (const char32_t c : code_points(fold(utf8(std::u32string_view(&character, 1))))) append_codes(codes, c);
  return codes;
}

std::string short_form(const std::string& word) {
  static const std::array<std::pair<std::string, std::string>, 5> shorter = {
      {{in_codes("AND"), in_codes("&")},
       {in_codes("COMPANY"), in_codes("CO")},
       {in_codes("LIMITED"), in_codes("LTD")},
       {in_codes("BROTHERS"), in_codes("BROS")},
       {in_codes("COY"), in_codes("CO")}}};
  if (word.size() < 3 || word.size() > 8) return word;
  for (const auto& [full, brief] : shorter) {
    if (word == full) return brief;
  }
  return word;
}

Spelling spell(std::string_view text) {
  Spelling spelling;
  std::string word;
  const auto end_word = [&] {
    if (!word.empty()) spelling.codes += short_form(word);
    word.clear();
  };
  bool ascii = true;
  for (const char c : text) ascii = ascii && static_cast<unsigned char>(c) < 0x80;
  const auto take = [&](char32_t c) {
    const std::size_t before = word.size();
    append_codes(word, c);
    if (word.size() > before && c != '&') return;
    const bool sign = word.size() > before;
    if (sign) word.pop_back();
    // A point or apostrophe inside does not end a word; "C.B.CO" is one run either way.
    end_word();
    if (sign) spelling.codes += static_cast<char>(kAnd);
    if (c == '/' || c == '|' || c == '\n')
      spelling.line_ends.push_back(static_cast<std::uint32_t>(spelling.codes.size()));
  };
  if (ascii) {
    for (const char c : text) take(static_cast<char32_t>(c));
  } else {
    // Line feeds are blanks to fold(); they are kept apart first.
    const auto lines = split(text, '\n');
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (i > 0) take(U'\n');
      for (const char32_t c : code_points(fold(lines[i]))) take(c);
    }
  }
  end_word();
  return spelling;
}

std::string letter_of(Code code) {
  if (code >= 1 && code <= 26) return std::string(1, static_cast<char>('A' + code - 1));
  if (code >= kFirstFigure && code < kAnd)
    return std::string(1, static_cast<char>('0' + code - kFirstFigure));
  return code == kAnd ? "&" : "·";
}

}  // namespace lathbook::marks
