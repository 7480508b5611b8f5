// Reads the table of date words and cuts typed dates into pieces.
#include "core/base/date_words.hpp"

#include <algorithm>
#include <array>

#include "core/base/date_text.hpp"
#include "core/base/error.hpp"

namespace lathbook {

namespace embedded {
std::string_view dates_en();
}

namespace {

constexpr std::array<std::pair<std::string_view, DateWord>, 22> kinds{
    {{"month", DateWord::month},     {"season", DateWord::season},
     {"about", DateWord::about},     {"doubt", DateWord::doubt},
     {"before", DateWord::before},   {"until", DateWord::until},
     {"after", DateWord::after},     {"since", DateWord::since},
     {"onward", DateWord::onward},   {"backward", DateWord::backward},
     {"between", DateWord::between}, {"and", DateWord::and_},
     {"to", DateWord::to},           {"or", DateWord::or_},
     {"part", DateWord::part},       {"fraction", DateWord::fraction},
     {"century", DateWord::century}, {"ordinal", DateWord::ordinal},
     {"ending", DateWord::ending},   {"filler", DateWord::filler},
     {"event", DateWord::event},     {"refuse", DateWord::refuse}}};

DatePiece::Kind kind_of(char32_t code) {
  switch (code) {
    case '-':
      return DatePiece::Kind::hyphen;
    case 0x2013:
    case 0x2014:
      return DatePiece::Kind::long_dash;
    case '/':
      return DatePiece::Kind::slash;
    case ',':
      return DatePiece::Kind::comma;
    case '.':
      return DatePiece::Kind::stop;
    case '?':
      return DatePiece::Kind::question;
    case '~':
      return DatePiece::Kind::tilde;
    default:
      return DatePiece::Kind::other;
  }
}

bool is_blank(char32_t code) {
  return code == ' ' || code == '\t' || code == 0xA0 || code == 0x202F;
}

// From `at`: letters with inner stops and apostrophes; the piece has them lower case, apostrophes and
// the last stop left out.
DatePiece word_piece(std::string_view typed, std::size_t& at) {
  DatePiece piece{DatePiece::Kind::word, "", false};
  for (; at < typed.size() && (is_letter(typed[at]) || typed[at] == '.' || typed[at] == '\''); ++at) {
    const char c = typed[at];
    if (c != '\'') piece.text += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  while (!piece.text.empty() && piece.text.back() == '.') piece.text.pop_back();
  return piece;
}

}  // namespace

std::vector<DatePiece> date_pieces(std::string_view typed) {
  std::vector<DatePiece> pieces;
  bool joined = false;
  for (std::size_t at = 0; at < typed.size();) {
    const Character c = character_at(typed, at);
    if (c.valid && is_blank(c.code)) {
      at += c.bytes;
      joined = false;
      continue;
    }
    DatePiece piece{kind_of(c.code), std::string(typed.substr(at, c.bytes)), false};
    if (is_letter(typed[at]) || typed[at] == '\'') {
      piece = word_piece(typed, at);
    } else if (is_digit(typed[at])) {
      const std::size_t from = at;
      while (at < typed.size() && is_digit(typed[at])) ++at;
      piece = {DatePiece::Kind::number, std::string(typed.substr(from, at - from)), false};
    } else {
      if (!c.valid || c.code < 0x20 || (c.code >= 0x7F && piece.kind == DatePiece::Kind::other))
        fail(ErrorKind::invalid, "the date " + shown(typed) + " is not understood: " + character_name(c) +
                                     " at byte " + std::to_string(at + 1) +
                                     " has no place in a date; use plain letters, digits and hyphens");
      at += c.bytes;
    }
    piece.joined = joined;
    joined = true;
    if (!piece.text.empty()) pieces.push_back(std::move(piece));
  }
  return pieces;
}

DateWords::DateWords(std::string_view table) {
  std::size_t line_number = 0;
  while (!table.empty()) {
    const std::size_t end = std::min(table.find('\n'), table.size());
    const std::string_view line = table.substr(0, end);
    table.remove_prefix(std::min(end + 1, table.size()));
    if (++line_number == 1 || line.empty()) continue;
    const std::size_t tab = line.find('\t');
    const std::size_t second = tab == std::string_view::npos ? tab : line.find('\t', tab + 1);
    if (second == std::string_view::npos)
      fail(ErrorKind::corrupt,
           "the table of date words has no three columns in line " + std::to_string(line_number));
    const std::string_view name = line.substr(tab + 1, second - tab - 1);
    const auto* found =
        std::find_if(kinds.begin(), kinds.end(), [&](const auto& k) { return k.first == name; });
    if (found == kinds.end())
      fail(ErrorKind::corrupt, "the table of date words has the unknown kind " + shown(name) + " in line " +
                                   std::to_string(line_number));
    const std::string phrase(line.substr(0, tab));
    values_[{found->second, phrase}] = line.substr(second + 1);
    const auto blanks = static_cast<std::size_t>(std::count(phrase.begin(), phrase.end(), ' '));
    longest_ = std::max(longest_, blanks + 1);
  }
}

const DateWords& DateWords::english() {
  static const DateWords words(embedded::dates_en());
  return words;
}

std::size_t DateWords::match(const std::vector<DatePiece>& pieces, std::size_t at, DateWord kind,
                             std::string& value) const {
  std::size_t best = 0;
  std::string phrase;
  for (std::size_t count = 1; count <= longest_ && at + count <= pieces.size(); ++count) {
    const DatePiece& piece = pieces[at + count - 1];
    if (piece.kind != DatePiece::Kind::word && piece.kind != DatePiece::Kind::number) break;
    phrase += (count > 1 ? " " : "") + piece.text;
    if (const auto found = values_.find({kind, phrase}); found != values_.end()) {
      best = count;
      value = found->second;
    }
  }
  return best;
}

}  // namespace lathbook
