// Brackets, and the gaps and notes that stand whole in them.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/base/text_scan.hpp"
#include "core/base/transcription_reader.hpp"

namespace lathbook {

namespace {

constexpr std::size_t kLongestGap = 48;  // characters looked ahead for the end of a gap or note

}  // namespace

std::u32string TranscriptionReader::inside(std::size_t from, std::u32string_view close,
                                           std::u32string_view stop) const {
  std::u32string text;
  for (std::size_t i = from; i < characters_.size() && text.size() <= kLongestGap; ++i) {
    const char32_t c = characters_[i].c;
    if (c == close.front()) return text;
    if (stop.find(c) != std::u32string_view::npos) break;
    text += c;
  }
  return {};
}

bool TranscriptionReader::open_bracket() {
  const auto bracket = std::find_if(kBrackets.begin(), kBrackets.end(),
                                    [this](const Bracket& one) { return next_is(one.open); });
  if (bracket == kBrackets.end()) return false;
  if (bracket->standing == kExpanded && (take_mirrored_letter() || take_whole_note())) return true;
  if (take_whole_gap(*bracket)) return true;
  if (open_.size() == kDeepestBracket) {
    fault(at_, "has brackets more than " + std::to_string(kDeepestBracket) + " deep at " + place(at_));
  }
  open_.push_back({&*bracket, at_, done_.tokens.size(), true});
  at_ += bracket->open.size();
  return true;
}

// [---], [..], [3]: a square bracket, or a doubled one of erasure, that holds nothing but a gap.
bool TranscriptionReader::take_whole_gap(const Bracket& bracket) {
  if (bracket.close.front() != ']') return false;
  const std::size_t first = at_ + bracket.open.size();
  const auto text = inside(first, U"]", U"[(<{");
  if (text.empty()) return false;
  auto gap = read_gap(text, options_.dots_counted);
  if (!gap) return false;
  const std::size_t end = first + text.size();
  const bool erased = bracket.standing == kErased;
  if (erased && (end + 1 >= characters_.size() || characters_[end + 1].c != ']')) return false;
  const std::size_t after = end + bracket.close.size();
  const bool bare_number =
      std::all_of(text.begin(), text.end(), [](char32_t c) { return is_digit(c) || is_blank(c); });
  const char32_t follows = after < characters_.size() ? characters_[after].c : 0;
  // 18[88] restores two digits; a bare number elsewhere counts letters.
  if (bare_number && (is_digit(before()) || is_digit(follows))) return false;
  if (erased) gap->standing |= kErased;
  const std::size_t from = at_;
  at_ = after;
  add(*gap, from);
  return true;
}

bool TranscriptionReader::take_whole_note() {
  const auto text = inside(at_ + 1, U")", U"[(<{");
  const auto note = read_note(text);
  if (!note) return false;
  take_note(*note, text.size() + 2);
  return true;
}

void TranscriptionReader::take_note(Token token, std::size_t characters) {
  const std::size_t from = at_;
  at_ += characters;
  if (token.kind == TokenKind::note && token.letter == 'r') {
    // Speaks of the letter before it and is no token of its own.
    if (Token* letter = last_adjacent(TokenKind::letter)) {
      letter->standing |= kMirrored;
      letter->length = byte(at_) - letter->at;
      return;
    }
    fault(from, "has “(rev.)” at " + place(from) + " with no letter before it");
  }
  if (token.kind == TokenKind::note && token.letter == 'm') done_.mirrored_plate = true;
  if (token.kind == TokenKind::note && token.letter == '<') done_.right_to_left.back() = true;
  add(token, from);
}

// ((N)): the published sign for a letter of unusual form, here a mirrored one.
bool TranscriptionReader::take_mirrored_letter() {
  if (peek(1) != '(' || !is_word(peek(2))) return false;
  std::size_t end = 3;
  while (end <= 3 + kMostMarks && character_kind(peek(end)) == CharacterKind::mark) ++end;
  if (peek(end) == '?') ++end;
  if (peek(end) != ')' || peek(end + 1) != ')') return false;
  const std::size_t from = at_;
  at_ += 2;
  take_letter(true);
  Token& letter = done_.tokens.back();
  letter.standing |= kMirrored;
  if (peek() == '?') letter.standing |= kUncertain;
  at_ = from + end + 2;
  letter.at = byte(from);
  letter.length = byte(at_) - letter.at;
  return true;
}

bool TranscriptionReader::close_bracket() {
  const auto closes = [this](const Bracket& one) {
    if (next_is(one.close)) return true;
    // An apostrophe closes a backtick: few keyboards have the acute sign alone.
    return one.standing == kAdded && peek() == '\'';
  };
  if (!open_.empty() && closes(*open_.back().bracket)) {
    const Open open = open_.back();
    if (open.empty) {
      fault(open.character, "has nothing in the bracket " + named(open.character, open.bracket->open.size()) +
                                "; write [---] for letters lost");
    }
    open_.pop_back();
    at_ += peek() == '\'' ? 1 : open.bracket->close.size();
    return true;
  }
  constexpr std::u32string_view closing = U"])>}〛⟧»⸣⟩〉";
  if (closing.find(peek()) == std::u32string_view::npos) return false;
  if (open_.empty()) fault(at_, "has a bracket " + named(at_, 1) + " that nothing opens");
  const Open& open = open_.back();
  fault(at_, "has a bracket " + named(at_, 1) + " where " + named(open.character, open.bracket->open.size()) +
                 " is still open");
}

}  // namespace lathbook
