#include "plugins/marks/code_words.hpp"

#include <algorithm>

#include "core/base/text.hpp"

namespace lathbook::marks {

namespace {

constexpr std::size_t kMostWords = 500;
constexpr std::int32_t kMostUnread = 12;

bool is_figure(char c) {
  return c >= '0' && c <= '9';
}

bool is_capital(char c) {
  return c >= 'A' && c <= 'Z';
}

class Cutter {
public:
  void take(char c, std::uint32_t token) {
    if (!word_.text.empty()) {
      const char last = word_.text.back();
      // RdNo101774, No.31: figures begin a word of their own.
      if ((is_capital(last) && is_figure(c)) || (is_figure(last) && is_capital(c))) end();
    }
    if (word_.text.empty()) word_.first = token;
    word_.text += c;
    word_.last = token;
  }
  void unread(const Token& gap, std::uint32_t token) {
    const bool loose = !gap.counted() || gap.least > kMostUnread;
    const std::int32_t count = gap.likely < 1 ? 1 : std::min(gap.likely, kMostUnread);
    for (std::int32_t i = 0; i < count; ++i) take('#', token);
    word_.loose = word_.loose || loose;
  }
  void end() {
    while (!word_.text.empty() && word_.text.back() == ',') word_.text.pop_back();
    if (!word_.text.empty() && words_.size() < kMostWords) words_.push_back(word_);
    word_ = {};
  }
  void alone(const std::string& sign, std::uint32_t token) {
    end();
    word_ = {sign, token, token, false};
    end();
  }
  bool in_figures() const {
    return !word_.text.empty() && (is_figure(word_.text.back()) || word_.text.back() == '#');
  }
  std::vector<CodeWord> done() {
    end();
    return std::move(words_);
  }

private:
  CodeWord word_;
  std::vector<CodeWord> words_;
};

void take_sign(Cutter& cutter, char32_t c, std::uint32_t token) {
  switch (c) {
    case ',':
      if (cutter.in_figures()) return cutter.take(',', token);
      return cutter.end();
    case '\'':
    case U'’':
    case '.':
    case ':':
      return cutter.end();
    case U'◇':
    case U'◊':
    case U'♢':
    case U'⬦':
    case U'⋄':
      return cutter.alone("<>", token);
    case U'№':
      return cutter.alone("NO", token);
    default:
      if (c == '-' || (c >= 0x2010 && c <= 0x2015)) return cutter.alone("-", token);
      return cutter.end();
  }
}

}  // namespace

bool CodeWord::figures() const {
  bool any = false;
  for (const char c : text) {
    if (is_figure(c)) any = true;
    if (!is_figure(c) && c != '#' && c != ',') return false;
  }
  return any;
}

std::vector<CodeWord> code_words(const Transcription& transcription) {
  Cutter cutter;
  for (std::uint32_t i = 0; i < transcription.tokens.size(); ++i) {
    const Token& token = transcription.tokens[i];
    switch (token.kind) {
      case TokenKind::letter: {
        if (token.is(kRestored)) {
          cutter.take('#', i);
          break;
        }
        const std::string folded = fold(utf8(std::u32string_view(&token.letter, 1)));
        for (const char c : folded) {
          const char capital = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
          if (is_capital(capital) || is_figure(capital)) cutter.take(capital, i);
        }
        break;
      }
      case TokenKind::gap:
        cutter.unread(token, i);
        break;
      case TokenKind::sign:
        take_sign(cutter, token.letter, i);
        break;
      case TokenKind::line_end:
        if (!token.is(kTight)) cutter.end();
        break;
      case TokenKind::space:
      case TokenKind::part_end:
      case TokenKind::blank:
        cutter.end();
        break;
      case TokenKind::note:
        break;
    }
  }
  return cutter.done();
}

std::string text_of(const Transcription& transcription, const CodeWord& first, const CodeWord& last) {
  const Token& from = transcription.tokens[first.first];
  const Token& to = transcription.tokens[last.last];
  return transcription.raw.substr(from.at, to.at + to.length - from.at);
}

}  // namespace lathbook::marks
