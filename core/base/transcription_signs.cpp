// Gaps and notes of transcriptions, read and printed.
#include "core/base/transcription_signs.hpp"

#include <algorithm>
#include <utility>

#include "core/base/text.hpp"

namespace lathbook {

namespace {

constexpr std::int32_t kMostCount = 999;
constexpr std::int32_t kDotsShown = 8;

// Words that may follow a gap. The first of each reason is the one printed; the others are what people at a
// bench call it. Covered letters have no sign in the published conventions: the word is our own.
constexpr std::array<std::pair<std::string_view, GapReason>, 22> kReasons = {{
    {"lost", GapReason::lost},         {"broken", GapReason::lost},         {"chipped", GapReason::lost},
    {"missing", GapReason::lost},      {"illegible", GapReason::illegible}, {"worn", GapReason::illegible},
    {"blurred", GapReason::illegible}, {"faint", GapReason::illegible},     {"rusted", GapReason::illegible},
    {"covered", GapReason::covered},   {"mortar", GapReason::covered},      {"lime", GapReason::covered},
    {"cement", GapReason::covered},    {"plaster", GapReason::covered},     {"grout", GapReason::covered},
    {"paint", GapReason::covered},     {"dirt", GapReason::covered},        {"paper", GapReason::covered},
    {"glue", GapReason::covered},      {"#", GapReason::covered},           {"erased", GapReason::erased},
    {"filed", GapReason::erased},
}};

std::string_view word_of(GapReason reason) {
  for (const auto& [word, of] : kReasons) {
    if (of == reason) return word;
  }
  return "";
}

// Walks through the inside of a bracket.
class Cursor {
public:
  explicit Cursor(std::u32string_view text) : text_(text) {}

  bool at_end() const { return text_.empty(); }
  char32_t next() const { return text_.empty() ? 0 : text_.front(); }
  void step() { text_.remove_prefix(1); }
  void blanks() {
    while (character_kind(next()) == CharacterKind::space) step();
  }
  bool take(std::u32string_view word) {
    if (text_.substr(0, word.size()) != word) return false;
    text_.remove_prefix(word.size());
    return true;
  }
  std::optional<std::int32_t> number() {
    std::int32_t value = 0;
    std::size_t digits = 0;
    while (next() >= '0' && next() <= '9' && digits < 4) {
      value = value * 10 + static_cast<std::int32_t>(next() - '0');
      ++digits;
      step();
    }
    if (digits == 0 || digits > 3 || value < 1 || value > kMostCount) return std::nullopt;
    return value;
  }
  std::string rest() const { return to_lower_ascii(utf8(text_)); }

private:
  std::u32string_view text_;
};

void set_counted(Token& gap, std::int32_t least, std::int32_t most) {
  gap.least = least;
  gap.most = most;
  gap.likely = least + (most - least) / 2;
}

void set_unknown(Token& gap) {
  gap.least = gap.most = gap.likely = -1;
}

// Dashes, with blanks between them or not: how many.
std::int32_t take_dashes(Cursor& cursor) {
  std::int32_t count = 0;
  while (is_dash(cursor.next()) || (count > 0 && cursor.next() == ' ')) {
    if (cursor.next() != ' ') ++count;
    cursor.step();
  }
  return count;
}

std::int32_t take_dots(Cursor& cursor) {
  std::int32_t count = 0;
  while (cursor.next() == '.' || cursor.next() == U'…' || (count > 0 && cursor.next() == ' ')) {
    count += cursor.next() == '.' ? 1 : (cursor.next() == U'…' ? 3 : 0);
    cursor.step();
  }
  return count;
}

// "c. 5", "ca 5", "about 5", "~5".
bool take_about(Cursor& cursor) {
  for (const auto word : {U"c.", U"ca.", U"circa", U"ca", U"about", U"~", U"c"}) {
    if (!cursor.take(word)) continue;
    cursor.blanks();
    return true;
  }
  return false;
}

bool read_amount(Cursor& cursor, Token& gap, bool counted) {
  if (const auto dashes = take_dashes(cursor); dashes > 0) {
    set_unknown(gap);
    if (dashes >= 6) gap.standing |= kWholeLine;
    return true;
  }
  if (const auto dots = take_dots(cursor); dots > 0) {
    if (dots > kMostCount) return false;
    if (counted) {
      set_counted(gap, dots, dots);
    } else {
      set_some(gap, dots);
    }
    return true;
  }
  const bool about = take_about(cursor);
  const auto least = cursor.number();
  if (!least) return false;
  if (about) {
    set_about(gap, *least);
    return true;
  }
  std::int32_t most = *least;
  if (is_dash(cursor.next())) {
    cursor.step();
    const auto upper = cursor.number();
    if (!upper || *upper < *least) return false;
    most = *upper;
  }
  set_counted(gap, *least, most);
  return true;
}

bool same_count(const Token& gap, void (*set)(Token&, std::int32_t)) {
  if (gap.likely < 1) return false;
  Token other;
  set(other, gap.likely);
  return other.least == gap.least && other.most == gap.most;
}

std::string amount_of(const Token& gap) {
  const auto n = std::to_string(gap.likely);
  if (gap.is(kWholeLine)) return "- - - - - -";
  if (gap.least < 0) return "- - -";
  if (gap.counted()) return n;
  if (same_count(gap, set_about)) return "c. " + n;
  if (same_count(gap, set_some)) return "c. " + n + "?";
  return std::to_string(gap.least) + "-" + std::to_string(gap.most);
}

}  // namespace

bool is_dash(char32_t c) {
  return c == '-' || (c >= 0x2010 && c <= 0x2015) || c == 0x2212;
}

char32_t mirrored_as(char32_t c) {
  switch (c) {
    case U'И':
      return U'N';
    case U'и':
      return U'n';
    case U'Я':
      return U'R';
    case U'я':
      return U'r';
    case U'Ƨ':
      return U'S';
    case U'ƨ':
      return U's';
    case U'Ɔ':
      return U'C';
    case U'ɔ':
      return U'c';
    case U'Ǝ':
      return U'E';
    case U'ǝ':
      return U'e';
    case U'⅃':
      return U'L';
    default:
      return 0;
  }
}

void set_about(Token& gap, std::int32_t n) {
  const std::int32_t third = (n + 2) / 3;
  gap.least = std::max(1, n - third);
  gap.most = n + third;
  gap.likely = n;
}

void set_some(Token& gap, std::int32_t n) {
  gap.least = 1;
  gap.most = 2 * n + 3;
  gap.likely = n;
}

std::optional<Token> read_gap(std::u32string_view inside, bool counted) {
  Cursor cursor(inside);
  cursor.blanks();
  Token gap;
  gap.kind = TokenKind::gap;
  gap.reason = GapReason::lost;
  if (!read_amount(cursor, gap, counted)) return std::nullopt;
  cursor.blanks();
  if (cursor.next() == '?') {
    cursor.step();
    // A doubtful 'about' is looser still; of anything else the doubt is whether letters are missing at all.
    if (gap.least > 0 && !gap.counted()) {
      set_some(gap, gap.likely);
    } else {
      gap.standing |= kDoubtful;
    }
    cursor.blanks();
  }
  if (cursor.next() == ':' || cursor.next() == ',') cursor.step();
  cursor.blanks();
  if (cursor.at_end()) return gap;
  const std::string rest = cursor.rest();
  const auto word = trim(rest);
  for (const auto& [known, reason] : kReasons) {
    if (word != known) continue;
    gap.reason = reason;
    return gap;
  }
  return std::nullopt;
}

std::optional<Token> read_note(std::u32string_view inside) {
  Token token;
  token.kind = TokenKind::note;
  Cursor cursor(inside);
  cursor.blanks();
  const auto rest = cursor.rest();
  const auto word = trim(rest);
  constexpr std::array<std::pair<std::string_view, char32_t>, 6> words = {
      {{"!", '!'}, {"?", '?'}, {"rtl", '<'}, {"mirrored", 'm'}, {"rev.", 'r'}, {"rev", 'r'}}};
  for (const auto& [known, sign] : words) {
    if (word != known) continue;
    token.letter = sign;
    return token;
  }
  if (cursor.take(U"vacat") || cursor.take(U"vac.") || cursor.take(U"vac")) {
    token.kind = TokenKind::blank;
    set_unknown(token);
    cursor.blanks();
    const bool about = take_about(cursor);
    if (const auto n = cursor.number()) {
      if (about) {
        set_about(token, *n);
      } else {
        set_counted(token, *n, *n);
      }
    } else if (about) {
      return std::nullopt;
    }
    cursor.blanks();
    return cursor.at_end() ? std::optional(token) : std::nullopt;
  }
  if (take_dashes(cursor) > 0 && cursor.at_end()) {
    token.kind = TokenKind::gap;
    set_unknown(token);
    return token;
  }
  return std::nullopt;
}

std::string shown_gap(const Token& gap) {
  if (gap.reason == GapReason::none) return "(- - -)";
  const bool few = gap.counted() && gap.least <= kDotsShown && !gap.is(kDoubtful);
  if (gap.reason == GapReason::illegible && few) {
    return std::string(static_cast<std::size_t>(gap.least), '+');
  }
  std::string text = "[";
  // In erased text the gap is of the erasure, and needs no word.
  const bool plain = gap.reason == GapReason::lost || (gap.reason == GapReason::erased && gap.is(kErased));
  if (plain && gap.counted() && gap.least <= kDotsShown) {
    text.append(static_cast<std::size_t>(gap.least), '.');
  } else {
    text += amount_of(gap);
  }
  if (gap.is(kDoubtful)) text += '?';
  const bool bare_number = plain && gap.counted() && gap.least > kDotsShown;
  if (!plain || bare_number) text += ' ' + std::string(word_of(bare_number ? GapReason::lost : gap.reason));
  return text + ']';
}

std::string shown_note(const Token& note) {
  if (note.kind == TokenKind::blank) {
    if (note.least < 0) return "(vac.)";
    return note.counted() ? "(vac. " + std::to_string(note.least) + ")"
                          : "(vac. c. " + std::to_string(note.likely) + ")";
  }
  switch (note.letter) {
    case '<':
      return "(rtl)";
    case 'm':
      return "(mirrored)";
    default:
      return note.letter == '?' ? "(?)" : "(!)";
  }
}

}  // namespace lathbook
