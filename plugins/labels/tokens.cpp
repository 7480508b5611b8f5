#include "plugins/labels/tokens.hpp"

#include <algorithm>

#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/base/transcription.hpp"

namespace lathbook::labels {

namespace {

constexpr std::int32_t kMostLost = 12;

bool is_point(char32_t sign) {
  return sign == U'.' || sign == U'\u00b7' || sign == U'\u2027';
}

bool is_apostrophe(char32_t sign) {
  return sign == U'\'' || sign == U'\u2019' || sign == U'\u02bc' || sign == U'\u2018';
}

bool is_stroke(char32_t sign) {
  return sign == U'\\' || sign == U'^' || sign == U'\u00b4' || sign == U'`' || sign == U'|' || sign == U'-' ||
         sign == U'\u2013' || sign == U'\u2014' || sign == U'\u203e' || sign == U'_' || sign == U'\u2032';
}

class Cutter {
public:
  explicit Cutter(const Transcription& text) : text_(text) {}

  std::vector<LabelToken> cut() {
    for (at_ = 0; at_ < text_.tokens.size() && !full(); ++at_) step(text_.tokens[at_]);
    end_word();
    return std::move(words_);
  }
  bool full() const { return words_.size() > kMostWords; }

private:
  const Token* next() const { return at_ + 1 < text_.tokens.size() ? &text_.tokens[at_ + 1] : nullptr; }

  void step(const Token& token) {
    switch (token.kind) {
      case TokenKind::letter:
        letter(token);
        break;
      case TokenKind::sign:
        sign(token);
        break;
      case TokenKind::gap:
        gap(token);
        break;
      case TokenKind::line_end:
      case TokenKind::part_end:
        line_end(token);
        break;
      case TokenKind::space:
      case TokenKind::blank:
        end_word();
        break;
      case TokenKind::note:
        break;
    }
  }

  void letter(const Token& token) {
    if (token.is(kExpanded)) {
      word_.point = true;
      return;
    }
    if (token.is(kSupplied) || token.is(kSuperfluous)) return;
    begin_word(token);
    if (token.is(kRestored)) {
      word_.key += '?';
      word_.damaged = true;
      return;
    }
    if (token.is(kUncertain)) word_.damaged = true;
    for (const char c : fold(utf8(std::u32string(1, token.letter))))
      if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c & 0x80) != 0) word_.key += c;
  }

  void gap(const Token& token) {
    if (token.reason == GapReason::none) {
      word_.point = true;
      return;
    }
    begin_word(token);
    word_.damaged = true;
    if (token.counted() && token.least <= kMostLost)
      word_.key.append(static_cast<std::size_t>(std::max(0, token.least)), '?');
    else if (word_.key.empty() || word_.key.back() != '*')
      word_.key += '*';
  }

  void sign(const Token& token) {
    if (token.letter == U'&' || token.letter == U'+') {
      lone_word(token, "and");
    } else if (token.letter == U'#' || token.letter == U'\u2116') {
      lone_word(token, "no");
    } else if (is_apostrophe(token.letter)) {
      if (word_.key.empty() || next() == nullptr || next()->kind != TokenKind::letter) stroke(token);
    } else if (is_point(token.letter)) {
      point(token);
    } else if (token.letter == U'/' && !word_.key.empty()) {
      if (!over_or_under(token) && !number_before()) {
        end_word();
        lone_word(token, "or");
      }
    } else if (is_stroke(token.letter) && (word_.key.empty() || !letter_follows())) {
      stroke(token);
    } else {
      end_word();
    }
  }

  bool letter_follows() const { return next() != nullptr && next()->kind == TokenKind::letter; }

  // N.E. goes on; No.4, Bd.Rm and W.2 do not.
  void point(const Token& token) {
    if (word_.key.empty()) return;
    word_.point = true;
    stop_ = token.at + token.length;
    const bool single = word_.key.size() == 1 || word_.initials;
    const bool digit = letter_follows() && next()->letter >= U'0' && next()->letter <= U'9';
    if (single && letter_follows() && !digit && single_letter_after()) {
      word_.initials = true;
      return;
    }
    end_word();
  }

  // After the letter that follows comes no second one: it is an initial too.
  bool single_letter_after() const {
    return at_ + 2 >= text_.tokens.size() || text_.tokens[at_ + 2].kind != TokenKind::letter;
  }

  void stroke(const Token& token) {
    const auto sign = utf8(std::u32string(1, token.letter));
    if (!word_.key.empty())
      word_.signs += sign;
    else if (!words_.empty())
      words_.back().signs += sign;
  }

  // O/, ov/ and u/ are how over and under are written short.
  bool over_or_under(const Token& token) {
    static const std::vector<std::string> kShort = {"o", "ov", "u", "un", "und"};
    if (std::find(kShort.begin(), kShort.end(), word_.key) == kShort.end()) return false;
    word_.key = word_.key.front() == 'o' ? "over" : "under";
    stop_ = token.at + token.length;
    end_word();
    return true;
  }

  // The stroke of a fraction, 3/4, parts two figures and says nothing.
  bool number_before() {
    if (word_.key.find_first_not_of("0123456789") != std::string::npos) return false;
    end_word();
    return true;
  }

  void line_end(const Token& token) {
    const bool slash = !word_.key.empty() && text_.raw[token.at] == '/';
    if (slash && over_or_under(token)) return;
    end_word();
    if (slash && token.is(kTight))
      lone_word(token, "or");
    else
      line_start_ = true;
  }

  void begin_word(const Token& token) {
    if (word_.key.empty()) start_ = token.at;
    stop_ = token.at + token.length;
  }

  void lone_word(const Token& token, const std::string& key) {
    end_word();
    begin_word(token);
    word_.key = key;
    end_word();
  }

  void end_word() {
    if (!word_.key.empty()) {
      word_.written = safe_display(text_.raw.substr(start_, stop_ - start_));
      word_.line_start = line_start_ && !words_.empty();
      line_start_ = false;
      words_.push_back(std::move(word_));
    }
    word_ = {};
  }

  const Transcription& text_;
  std::vector<LabelToken> words_;
  LabelToken word_;
  std::size_t at_ = 0;
  std::size_t start_ = 0;
  std::size_t stop_ = 0;
  bool line_start_ = false;
};

// 'N. E.' written apart is one bearing, 'L. H.' one hand.
void join_pairs(std::vector<LabelToken>& words) {
  const auto joins = [](const LabelToken& a, const LabelToken& b) {
    if (!a.point || !b.point || a.key.size() != 1 || b.key.size() != 1 || b.line_start) return false;
    const bool bearing = (a.key == "n" || a.key == "s") && (b.key == "e" || b.key == "w");
    return bearing || ((a.key == "l" || a.key == "r") && b.key == "h");
  };
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    if (!joins(words[i], words[i + 1])) continue;
    words[i].key += words[i + 1].key;
    words[i].written += ' ' + words[i + 1].written;
    words[i].initials = true;
    words.erase(words.begin() + static_cast<std::ptrdiff_t>(i) + 1);
  }
  // north-east typed with a hyphen comes as two words.
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    const bool first = words[i].key == "north" || words[i].key == "south";
    const bool second = words[i + 1].key == "east" || words[i + 1].key == "west";
    if (!first || !second || words[i + 1].line_start) continue;
    words[i].key += words[i + 1].key;
    words[i].written += '-' + words[i + 1].written;
    words.erase(words.begin() + static_cast<std::ptrdiff_t>(i) + 1);
  }
}

}  // namespace

LabelText tokens_of(std::string_view text) {
  if (text.size() > kMostBytes) {
    fail(ErrorKind::invalid, "a label of " + std::to_string(text.size()) +
                                 " bytes is too long to be read as one; " + std::to_string(kMostBytes) +
                                 " is the most");
  }
  const Transcription transcription = read_transcription(text);
  LabelText label;
  label.shown = transcription.shown();
  // A slash between letters means 'or' here; it is shown as it was typed.
  if (text.find('|') == std::string_view::npos)
    std::replace(label.shown.begin(), label.shown.end(), '|', '/');
  Cutter cutter(transcription);
  label.tokens = cutter.cut();
  if (label.tokens.size() > kMostWords) {
    label.too_long = true;
    label.tokens.resize(kMostWords);
  }
  join_pairs(label.tokens);
  return label;
}

}  // namespace lathbook::labels
