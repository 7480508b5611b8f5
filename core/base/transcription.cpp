// Transcriptions printed in the published signs, as plain words and as bare letters.
#include "core/base/transcription.hpp"

#include <algorithm>
#include <utility>

#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/base/transcription_reader.hpp"
#include "core/base/transcription_signs.hpp"

namespace lathbook {

namespace {

// From the outermost bracket to the innermost when several stand together.
constexpr std::array<Standing, 8> kNesting = {kErased,   kOverErasure, kCorrected, kAdded,
                                              kRestored, kSuperfluous, kSupplied,  kExpanded};

const Bracket& printed(Standing standing) {
  // The doubled signs are typed substitutes; of the others the published one stands first.
  const auto found = std::find_if(kBrackets.begin(), kBrackets.end(), [standing](const Bracket& one) {
    return one.standing == standing && one.open.size() == 1;
  });
  return *found;
}

bool is_digit(char32_t c) {
  return c >= '0' && c <= '9';
}

// Prints tokens; brackets open and close where the standing changes.
class Printer {
public:
  explicit Printer(const Transcription& transcription) : tokens_(transcription.tokens) {}

  std::string print() {
    for (std::size_t i = 0; i < tokens_.size(); ++i) {
      doubted_ = doubted(i);
      bracket(tokens_[i].standing, &tokens_[i]);
      put(i);
    }
    bracket(0, nullptr);
    return std::move(out_);
  }

private:
  struct Open {
    Standing standing;
    bool doubtful;
    std::size_t from;  ///< where its inside begins in out_
    bool operator==(const Open& other) const {
      return standing == other.standing && doubtful == other.doubtful;
    }
  };

  // A blank goes with the text before it, else with the text after it, in the same brackets.
  bool doubted(std::size_t i) const {
    if (tokens_[i].kind != TokenKind::space) return tokens_[i].is(kDoubtful);
    const auto alike = [&](const Token& other) {
      return (other.standing | kDoubtful) == (tokens_[i].standing | kDoubtful);
    };
    if (i > 0 && alike(tokens_[i - 1])) return doubted_;
    return i + 1 < tokens_.size() && alike(tokens_[i + 1]) && tokens_[i + 1].is(kDoubtful);
  }

  void bracket(std::uint32_t standing, const Token* next) {
    std::vector<Open> wanted;
    for (const Standing one : kNesting) {
      if ((standing & one) != 0) wanted.push_back({one, false, 0});
    }
    if (!wanted.empty()) wanted.back().doubtful = doubted_;
    std::size_t common = 0;
    while (common < open_.size() && common < wanted.size() && open_[common] == wanted[common]) ++common;
    while (open_.size() > common) {
      const bool meets = open_.size() == common + 1 && wanted.size() == common && next != nullptr;
      close(meets && next->kind == TokenKind::letter && is_digit(next->letter) && !next->is(kMirrored));
    }
    for (std::size_t i = common; i < wanted.size(); ++i) {
      out_ += utf8(printed(wanted[i].standing).open);
      wanted[i].from = out_.size();
      open_.push_back(wanted[i]);
    }
  }

  // `digit_follows`: a digit of the text comes straight after this bracket.
  void close(bool digit_follows) {
    const Open open = open_.back();
    open_.pop_back();
    const Bracket& sign = printed(open.standing);
    // Letters that would be taken for a gap or a note are kept from it.
    const std::string inside = out_.substr(open.from);
    const bool digit_before = open.from > 1 && is_digit(static_cast<unsigned char>(out_[open.from - 2]));
    const auto words = code_points(inside);
    const bool bare = !open.doubtful && std::all_of(words.begin(), words.end(), is_digit);
    const bool like_gap =
        open.standing == kRestored && read_gap(words, false) && !(bare && (digit_before || digit_follows));
    const bool like_note = open.standing == kExpanded && read_note(words);
    if (like_gap || like_note) out_.insert(open.from + inside.find_first_not_of(' '), "\\");
    if (open.doubtful) out_ += '?';
    out_ += utf8(sign.close);
  }

  void put(std::size_t i) {
    const Token& token = tokens_[i];
    switch (token.kind) {
      case TokenKind::letter:
        return put_letter(token);
      case TokenKind::sign:
        return put_sign(i);
      case TokenKind::space:
        out_ += ' ';
        return;
      case TokenKind::line_end:
        if (!token.is(kTight)) return put_apart("/");
        out_ += '|';
        return;
      case TokenKind::part_end:
        if (!token.is(kTight)) return put_apart("//");
        out_ += "||";
        return;
      case TokenKind::gap:
        out_ += shown_gap(token);
        return;
      case TokenKind::blank:
      case TokenKind::note:
        out_ += shown_note(token);
        return;
    }
  }

  void put_apart(std::string_view sign) {
    if (!out_.empty() && out_.back() != ' ') out_ += ' ';
    out_ += sign;
    out_ += ' ';
  }

  void put_letter(const Token& token) {
    std::u32string letter(1, token.letter);
    if (mirrored_as(token.letter) != 0) letter.insert(letter.begin(), '\\');
    if (token.is(kUncertain)) letter += U'\x323';
    if (token.is(kJoined)) letter += U'\x361';
    const std::string text = nfc(utf8(letter));
    out_ += token.is(kMirrored) ? "((" + text + "))" : text;
  }

  void put_sign(std::size_t i) {
    const char32_t c = tokens_[i].letter;
    constexpr std::u32string_view special = U"\\[](){}<>«»〚〛⟦⟧⸢⸣⟨⟩〈〉`´'?+%~|/←";
    if (special.find(c) == std::u32string_view::npos) {
      const bool run = !out_.empty() && (out_.back() == '.' || out_.back() == '-' || out_.back() == ' ');
      if (c == U'…' || ((c == '.' || is_dash(c)) && (run || !open_.empty()))) out_ += '\\';
    } else if (!stands_plain(i)) {
      out_ += '\\';
    }
    out_ += utf8(std::u32string_view(&c, 1));
  }

  // Signs that are read as themselves where they stand.
  bool stands_plain(std::size_t i) const {
    const char32_t c = tokens_[i].letter;
    const Token* before = i > 0 ? &tokens_[i - 1] : nullptr;
    const Token* after = i + 1 < tokens_.size() ? &tokens_[i + 1] : nullptr;
    const auto plain_letter = [&](const Token* one) {
      return one != nullptr && one->kind == TokenKind::letter && one->standing == 0;
    };
    if (!open_.empty()) return false;
    if (c == '\'') return true;
    if (c == '%') return !(plain_letter(after)) && after != nullptr && after->kind == TokenKind::space;
    if (c != '/' || !plain_letter(before)) return false;
    if (after == nullptr || after->kind == TokenKind::space) return true;
    return is_digit(before->letter) && plain_letter(after) && is_digit(after->letter);
  }

  const std::vector<Token>& tokens_;
  std::string out_;
  std::vector<Open> open_;
  bool doubted_ = false;  ///< does the token being printed stand in a bracket closed with '?'
};

}  // namespace

Transcription read_transcription(std::string_view text, TranscriptionOptions options) {
  try {
    return TranscriptionReader(text, options).read();
  } catch (const TranscriptionReader::Broken& broken) {
    fail(ErrorKind::invalid, "the transcription " + quote(text) + " " + broken.fault.reason);
  }
}

std::optional<TranscriptionFault> fault_in_transcription(std::string_view text) {
  try {
    TranscriptionReader(text, {}).read();
    return std::nullopt;
  } catch (const TranscriptionReader::Broken& broken) {
    return broken.fault;
  }
}

std::string Transcription::shown() const {
  return Printer(*this).print();
}

std::string Transcription::plain() const {
  std::u32string text;
  for (const Token& token : tokens) {
    switch (token.kind) {
      case TokenKind::letter:
      case TokenKind::sign:
        text += token.letter;
        break;
      case TokenKind::space:
      case TokenKind::blank:
        text += U' ';
        break;
      case TokenKind::line_end:
        text += token.is(kTight) ? U"" : U" / ";
        break;
      case TokenKind::part_end:
        text += U" // ";
        break;
      case TokenKind::gap:
        if (token.reason != GapReason::none) text += U'…';
        break;
      case TokenKind::note:
        break;
    }
  }
  return std::string(trim(utf8(text)));
}

std::string Transcription::letters() const {
  std::u32string text;
  for (const Token& token : tokens) {
    const bool on_the_thing = (token.standing & (kRestored | kExpanded | kSupplied)) == 0;
    if (on_the_thing && (token.kind == TokenKind::letter || token.kind == TokenKind::sign)) {
      text += token.letter;
    } else if (on_the_thing && token.kind == TokenKind::space) {
      text += U' ';
    } else if (token.kind == TokenKind::line_end || token.kind == TokenKind::part_end) {
      text += token.is(kTight) ? U"" : U"\n";
    }
  }
  return utf8(text);
}

}  // namespace lathbook
