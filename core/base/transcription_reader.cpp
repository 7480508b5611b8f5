// From a text to tokens.
#include "core/base/transcription_reader.hpp"

#include <algorithm>
#include <utility>

#include "core/base/text.hpp"
#include "core/base/text_scan.hpp"

namespace lathbook {

namespace {

constexpr std::int32_t kMostMerged = 999;
constexpr std::size_t kMostRemarks = 5;

// Of gaps only those whose number is known or quite unknown; the doubt of the others is in their bounds.
// A blank is nobody's guess.
bool can_be_doubted(const Token& token) {
  if (token.kind == TokenKind::space) return false;
  if (token.kind != TokenKind::gap) return true;
  if (token.reason == GapReason::none) return token.is(kRestored);
  return token.counted() || token.least < 0;
}

// Takes the token into the one before it when the two are one.
bool join(Token& last, const Token& token) {
  if (last.kind != token.kind || last.standing != token.standing) return false;
  if (token.kind == TokenKind::gap) {
    const auto counted = [](const Token& one) { return one.reason == GapReason::illegible && one.counted(); };
    if (!counted(last) || !counted(token) || last.least + token.least > kMostMerged) return false;
    last.least += token.least;
    last.most = last.likely = last.least;
  } else if (token.kind != TokenKind::space) {
    return false;
  }
  last.length = token.at + token.length - last.at;
  return true;
}

}  // namespace

bool TranscriptionReader::is_word(char32_t c) {
  const auto kind = character_kind(c);
  return kind == CharacterKind::letter || kind == CharacterKind::digit;
}

bool TranscriptionReader::is_blank(char32_t c) {
  return character_kind(c) == CharacterKind::space;
}

TranscriptionReader::TranscriptionReader(std::string_view text, TranscriptionOptions options)
    : options_(options) {
  done_.raw = text;
}

Transcription TranscriptionReader::read() {
  const std::string_view text = done_.raw;
  if (text.size() > kMostTranscription) {
    throw Broken{{kMostTranscription, 0, "is longer than 1 MiB; keep it as a file and say where"}};
  }
  if (const auto bad = first_invalid_utf8(text)) {
    throw Broken{{*bad, 0, "is not UTF-8 at byte " + std::to_string(*bad + 1)}};
  }
  gather(text);
  done_.lines.push_back(0);
  done_.right_to_left.push_back(false);
  while (at_ < characters_.size()) step();
  if (!open_.empty()) {
    const Open& open = open_.back();
    fault(open.character,
          "has a bracket " + named(open.character, open.bracket->open.size()) + " that nothing closes");
  }
  join_neighbours();
  if (hidden_ > 0) {
    remark(std::to_string(hidden_) + (hidden_ == 1 ? " character that is" : " characters that are") +
           " drawn as nothing were passed over; the text is kept as it was typed");
  }
  return std::move(done_);
}

// The characters that are drawn as something; marks only where a letter bears them.
void TranscriptionReader::gather(std::string_view text) {
  characters_.reserve(text.size());
  std::uint32_t number = 0;
  bool bears = false;
  for (std::size_t at = 0; at < text.size(); ++number) {
    const Scanned scanned = scan_utf8(text, at);
    const char32_t c = scanned.code_point;
    const auto kind = character_kind(c);
    if (kind != CharacterKind::mark) {
      bears = kind == CharacterKind::letter || kind == CharacterKind::digit;
    }
    if (kind == CharacterKind::hidden || (kind == CharacterKind::mark && !bears)) {
      ++hidden_;
    } else {
      characters_.push_back({c, static_cast<std::uint32_t>(at), number});
    }
    if (c >= 0x400 && c <= 0x4ff && mirrored_as(c) == 0) cyrillic_ = true;
    at += scanned.length;
  }
}

char32_t TranscriptionReader::peek(std::size_t ahead) const {
  return at_ + ahead < characters_.size() ? characters_[at_ + ahead].c : 0;
}

bool TranscriptionReader::next_is(std::u32string_view sign) const {
  for (std::size_t i = 0; i < sign.size(); ++i) {
    if (peek(i) != sign[i]) return false;
  }
  return true;
}

std::uint32_t TranscriptionReader::byte(std::size_t character) const {
  return character < characters_.size() ? characters_[character].at
                                        : static_cast<std::uint32_t>(done_.raw.size());
}

std::string TranscriptionReader::named(std::size_t character, std::size_t count) const {
  std::u32string sign;
  for (std::size_t i = character; i < character + count && i < characters_.size(); ++i) {
    sign += characters_[i].c;
  }
  return quote(utf8(sign)) + " at " + place(character);
}

std::string TranscriptionReader::place(std::size_t character) const {
  return "character " + std::to_string(characters_[character].number + 1);
}

void TranscriptionReader::fault(std::size_t character, const std::string& reason) const {
  throw Broken{{byte(character), characters_[character].number + 1, reason}};
}

void TranscriptionReader::remark(const std::string& sentence) {
  auto& remarks = done_.remarks;
  if (remarks.size() < kMostRemarks && std::find(remarks.begin(), remarks.end(), sentence) == remarks.end()) {
    remarks.push_back(sentence);
  }
}

std::uint32_t TranscriptionReader::standing() const {
  std::uint32_t flags = 0;
  for (const Open& open : open_) flags |= open.bracket->standing;
  return flags;
}

void TranscriptionReader::add(Token token, std::size_t from) {
  token.at = byte(from);
  token.length = byte(at_) - token.at;
  token.standing |= standing();
  for (Open& open : open_) open.empty = false;
  if (token.kind == TokenKind::gap) {
    // What could not be read is not restored, and an end never written is not expanded.
    token.standing &= ~std::uint32_t{token.reason == GapReason::none ? kExpanded : kRestored};
    if (token.is(kErased) && token.reason == GapReason::lost) token.reason = GapReason::erased;
  }
  done_.tokens.push_back(token);
}

// What stands side by side in one standing and is one thing, though brackets parted it: runs of signs nobody
// could read, blanks, and a blank before a line end.
void TranscriptionReader::join_neighbours() {
  std::vector<Token> tokens;
  tokens.reserve(done_.tokens.size());
  done_.lines.resize(1);
  for (Token token : done_.tokens) {
    const bool ends = token.kind == TokenKind::line_end || token.kind == TokenKind::part_end;
    Token* last = tokens.empty() ? nullptr : &tokens.back();
    if (last != nullptr && join(*last, token)) continue;
    if (last != nullptr && ends && last->kind == TokenKind::space &&
        last->standing == (token.standing & ~std::uint32_t{kTight})) {
      token.standing = last->standing;
      tokens.pop_back();
    }
    tokens.push_back(token);
    if (ends) done_.lines.push_back(static_cast<std::uint32_t>(tokens.size()));
  }
  done_.tokens = std::move(tokens);
}

// The last token when it is of this kind.
Token* TranscriptionReader::last_adjacent(TokenKind kind) {
  if (done_.tokens.empty() || done_.tokens.back().kind != kind) return nullptr;
  return &done_.tokens.back();
}

void TranscriptionReader::step() {
  const char32_t c = peek();
  if (open_bracket() || close_bracket()) return;
  switch (c) {
    case '\\':
      if (at_ + 1 == characters_.size() || is_blank(peek(1))) return take_sign(c);
      ++at_;
      return take_letter(true);
    case '/':
    case '|':
      take_line_end();
      return;
    case '.':
    case U'…':
      take_dots();
      return;
    case '?':
      take_question();
      return;
    case '+': {
      ++at_;
      Token gap;
      gap.kind = TokenKind::gap;
      gap.reason = GapReason::illegible;
      gap.least = gap.most = gap.likely = 1;
      add(gap, at_ - 1);
      return;
    }
    case U'←': {
      Token note;
      note.kind = TokenKind::note;
      note.letter = '<';
      take_note(note, 1);
      return;
    }
    default:
      break;
  }
  if (is_blank(c)) return take_blanks();
  if (is_dash(c) && take_dashes()) return;
  take_letter(false);
}

void TranscriptionReader::take_blanks() {
  const std::size_t from = at_;
  bool line = false;
  for (; at_ < characters_.size() && is_blank(peek()); ++at_) line = line || peek() == '\n';
  if (peek() == '/' || peek() == '|') {
    // Blanks before a line end belong to it, unless it is no line end.
    if (!slash_is_a_sign()) return;
  }
  const bool edge = from == 0 || at_ == characters_.size();
  if (edge || (!done_.tokens.empty() && (done_.tokens.back().kind == TokenKind::line_end ||
                                         done_.tokens.back().kind == TokenKind::part_end))) {
    return;
  }
  Token token;
  token.kind = line ? TokenKind::line_end : TokenKind::space;
  add(token, from);
  if (!line) return;
  done_.lines.push_back(static_cast<std::uint32_t>(done_.tokens.size()));
  done_.right_to_left.push_back(false);
}

// "3/4" and "O/ " keep their stroke; "ABC / DEF" and "AB/CD" end a line.
bool TranscriptionReader::slash_is_a_sign() const {
  if (peek() != '/' || peek(1) == '/') return false;
  if (is_digit(before()) && is_digit(peek(1))) return true;
  const bool followed = peek(1) != 0 && !is_blank(peek(1));
  return is_word(before()) && !followed;
}

void TranscriptionReader::take_line_end() {
  if (slash_is_a_sign()) {
    take_sign(peek());
    return;
  }
  const std::size_t from = at_;
  const auto ends_line = [](char32_t c) { return c == '/' || c == '|'; };
  const bool blank_before = at_ == 0 || is_blank(before()) || ends_line(before());
  Token token;
  token.kind = peek(1) == peek() ? TokenKind::part_end : TokenKind::line_end;
  at_ += token.kind == TokenKind::part_end ? 2 : 1;
  const bool blank_after = at_ == characters_.size() || is_blank(peek()) || ends_line(peek());
  if (!blank_before && !blank_after) token.standing |= kTight;
  while (at_ < characters_.size() && is_blank(peek())) ++at_;
  add(token, from);
  done_.lines.push_back(static_cast<std::uint32_t>(done_.tokens.size()));
  done_.right_to_left.push_back(false);
}

void TranscriptionReader::take_dots() {
  const std::size_t from = at_;
  std::int32_t count = 0;
  while (peek() == '.' || peek() == U'…') {
    count += peek() == '.' ? 1 : 3;
    ++at_;
  }
  if (count == 1) {
    at_ = from;
    take_sign('.');
    return;
  }
  Token gap;
  gap.kind = TokenKind::gap;
  const bool restored = (standing() & kRestored) != 0;
  gap.reason = restored ? GapReason::lost : GapReason::illegible;
  count = std::min(count, kMostMerged);
  if (restored && options_.dots_counted) {
    gap.least = gap.most = gap.likely = count;
  } else {
    set_some(gap, count);
  }
  add(gap, from);
}

// Three dashes or more stand for letters lost, two are enough inside square brackets; with blanks or without.
bool TranscriptionReader::take_dashes() {
  std::size_t end = at_;
  std::int32_t count = 0;
  while (end < characters_.size()) {
    const char32_t c = characters_[end].c;
    const bool between =
        c == ' ' && count > 0 && end + 1 < characters_.size() && is_dash(characters_[end + 1].c);
    if (!is_dash(c) && !between) break;
    if (!between) ++count;
    ++end;
  }
  const std::int32_t enough = (standing() & kRestored) != 0 ? 2 : 3;
  if (count < enough) return false;
  const std::size_t from = std::exchange(at_, end);
  Token gap;
  gap.kind = TokenKind::gap;
  gap.reason = GapReason::lost;
  gap.least = gap.most = gap.likely = -1;
  if (count >= 6) gap.standing |= kWholeLine;
  add(gap, from);
  return true;
}

void TranscriptionReader::take_question() {
  const std::size_t from = at_++;
  if (!open_.empty() && (next_is(open_.back().bracket->close))) {
    const auto first = done_.tokens.begin() + static_cast<std::ptrdiff_t>(open_.back().first);
    bool any = false;
    for (auto token = first; token != done_.tokens.end(); ++token) {
      if (token->kind != TokenKind::space) any = true;
      if (can_be_doubted(*token)) token->standing |= kDoubtful;
    }
    if (any) return;
  }
  Token* letter = last_adjacent(TokenKind::letter);
  if (letter != nullptr && !letter->is(kUncertain) && letter->at + letter->length == byte(from)) {
    letter->standing |= kUncertain;
    letter->length = byte(at_) - letter->at;
    return;
  }
  Token gap;
  gap.kind = TokenKind::gap;
  gap.reason = GapReason::illegible;
  gap.least = gap.most = gap.likely = 1;
  add(gap, from);
}

void TranscriptionReader::take_marks(std::u32string& cluster, std::u32string_view own, Token& token) {
  std::size_t count = 0;
  const auto take = [&](char32_t mark) {
    if (mark == 0x323) {
      token.standing |= kUncertain;
    } else if (mark == 0x361 || mark == 0x35c) {
      token.standing |= kJoined;
    } else {
      cluster += mark;
    }
  };
  for (const char32_t mark : own) take(mark);
  while (at_ < characters_.size() && character_kind(peek()) == CharacterKind::mark) {
    if (++count > kMostMarks) {
      fault(at_, "has more than " + std::to_string(kMostMarks) + " marks on the letter before " + place(at_));
    }
    for (const char32_t mark : decomposed(peek())) take(mark);
    ++at_;
  }
}

void TranscriptionReader::take_letter(bool literal) {
  const std::size_t from = at_;
  const char32_t c = peek();
  const auto kind = character_kind(c);
  if (!literal && c == '%' && is_word(peek(1)) && !is_digit(before())) {
    mirror_next_ = true;
    ++at_;
    return;
  }
  if (!literal && c == '~' && is_word(peek(1)) && is_word(before())) {
    if (Token* letter = last_adjacent(TokenKind::letter)) {
      letter->standing |= kJoined;
      ++at_;
      return;
    }
  }
  if (kind == CharacterKind::sign || kind == CharacterKind::space) return take_sign(c);
  Token token;
  token.kind = TokenKind::letter;
  ++at_;
  const std::u32string parts = decomposed(c);
  std::u32string cluster(1, parts.front());
  take_marks(cluster, std::u32string_view(parts).substr(1), token);
  token.letter = cluster.size() == 1 ? cluster.front() : code_points(nfc(utf8(cluster))).front();
  const char32_t plain = literal ? 0 : mirrored_as(token.letter);
  const bool cyrillic = token.letter >= 0x400 && token.letter <= 0x4ff;
  if (plain != 0 && !(cyrillic && cyrillic_)) {
    token.letter = plain;
    token.standing |= kMirrored;
  }
  if (std::exchange(mirror_next_, false)) token.standing |= kMirrored;
  add(token, from);
}

void TranscriptionReader::take_sign(char32_t c) {
  const std::size_t from = at_++;
  Token token;
  token.kind = TokenKind::sign;
  token.letter = c;
  add(token, from);
}

}  // namespace lathbook
