// Whether a thing whose letters are partly gone could have borne a text.
#include <limits>
#include <vector>

#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/base/transcription.hpp"

namespace lathbook {

namespace {

constexpr std::size_t kMostTokens = 4096;
constexpr std::int32_t kMostGap = 200;

// One letter that the text must have here, or may.
struct Place {
  char32_t letter = 0;        ///< nought: any
  bool loops = false;         ///< any number of letters, none included
  std::uint32_t skip_to = 0;  ///< may be passed over up to this place; its own index + 0 = may not
};

bool counts(char32_t c) {
  const auto kind = character_kind(c);
  return c == '&' || kind == CharacterKind::letter || kind == CharacterKind::digit;
}

std::u32string counting_letters(std::string_view text) {
  std::u32string letters;
  for (const char32_t c : code_points(fold(text))) {
    if (counts(c)) letters += c;
  }
  return letters;
}

class Places {
public:
  explicit Places(const Transcription& transcription) {
    for (const Token& token : transcription.tokens) add(token);
    end_group();
  }

  bool fit(std::u32string_view text) const {
    std::vector<char> now(places_.size() + 1, 0);
    now[0] = 1;
    pass_over(now);
    std::vector<char> next(now.size(), 0);
    for (const char32_t c : text) {
      std::fill(next.begin(), next.end(), char{0});
      for (std::size_t i = 0; i < places_.size(); ++i) {
        if (now[i] == 0 || (places_[i].letter != 0 && places_[i].letter != c)) continue;
        next[places_[i].loops ? i : i + 1] = 1;
      }
      pass_over(next);
      now.swap(next);
    }
    return now.back() != 0;
  }

private:
  void pass_over(std::vector<char>& states) const {
    for (std::size_t i = 0; i < places_.size(); ++i) {
      if (states[i] != 0 && places_[i].skip_to > i) states[places_[i].skip_to] = 1;
    }
  }

  void add(const Token& token) {
    constexpr std::uint32_t grouping = kExpanded | kSupplied | kSuperfluous;
    const std::uint32_t group = token.standing & grouping;
    if (group != group_) end_group();
    if (group != group_) first_ = places_.size();
    group_ = group;
    if (token.kind == TokenKind::gap) return add_gap(token);
    if (token.kind != TokenKind::letter && token.kind != TokenKind::sign) return;
    const char32_t c = token.letter;
    for (const char32_t folded : counting_letters(utf8(std::u32string_view(&c, 1)))) {
      const bool any = token.is(kUncertain) || token.is(kRestored);
      places_.push_back({any ? U'\0' : folded, false, 0});
    }
  }

  void add_gap(const Token& gap) {
    if (gap.least < 0 || gap.is(kWholeLine)) {
      loop();
      return;
    }
    for (std::int32_t i = 0; i < gap.least && i < kMostGap; ++i) places_.push_back({});
    for (std::int32_t i = gap.least; i < gap.most && i < kMostGap; ++i) {
      places_.push_back({0, false, static_cast<std::uint32_t>(places_.size() + 1)});
    }
    if (gap.most > kMostGap) loop();
  }

  void loop() { places_.push_back({0, true, static_cast<std::uint32_t>(places_.size() + 1)}); }

  // A group of letters that are not surely on the thing may be passed over as a whole.
  void end_group() {
    if (group_ != 0 && first_ < places_.size() && places_[first_].skip_to == 0) {
      places_[first_].skip_to = static_cast<std::uint32_t>(places_.size());
    }
    group_ = 0;
  }

  std::vector<Place> places_;
  std::uint32_t group_ = 0;
  std::size_t first_ = 0;
};

}  // namespace

bool could_bear(const Transcription& transcription, std::string_view text) {
  if (transcription.tokens.size() > kMostTokens) {
    fail(ErrorKind::invalid, "a transcription of more than 4,096 signs cannot be compared with a text");
  }
  return Places(transcription).fit(counting_letters(text));
}

}  // namespace lathbook
