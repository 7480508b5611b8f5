#include "core/base/munsell.hpp"

#include <array>
#include <cmath>
#include <optional>

#include "core/base/number.hpp"
#include "core/base/text.hpp"

namespace lathbook {

namespace {

// In the order of the hue circle.
constexpr std::array<std::string_view, 10> kHues{"R", "YR", "Y", "GY", "G", "BG", "B", "PB", "P", "RP"};
constexpr std::size_t kLongest = 64;
constexpr std::size_t kMostDigits = 12;

std::string decimal(double value) {
  std::string words = with_places(value, 4);
  words.erase(words.find_last_not_of('0') + 1);
  if (words.back() == '.') words.pop_back();
  return words;
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// Walks over the text; the first fault stays.
class Reader {
public:
  explicit Reader(std::string_view text) : text_(text) {}

  MunsellReading read() {
    if (text_.size() > kLongest) {
      wrong("is too long for a colour");
      return result_;
    }
    const bool is_neutral = take("N");
    is_neutral ? neutral() : coloured();
    if (result_.good() && at_ < text_.size()) wrong("goes on after its end with " + quote(text_.substr(at_)));
    return result_;
  }

private:
  void neutral() {
    take(" ");
    result_.colour.value = number("the value after N", 10);
    take("/");
  }

  void coloured() {
    const double step = number("a hue number, or N for a neutral", 10);
    if (!result_.good()) return;
    // Two letters are tried before one.
    std::optional<std::size_t> circle;
    for (std::size_t i = 0; i < kHues.size(); ++i) {
      const bool longer = !circle || kHues[i].size() > kHues[*circle].size();
      if (text_.substr(at_, kHues[i].size()) == kHues[i] && longer) circle = i;
    }
    if (!circle) return wrong("needs a hue, one of R YR Y GY G BG B PB P RP");
    at_ += kHues[*circle].size();
    take(" ");
    result_.colour.value = number("the value after the hue", 10);
    if (result_.good() && !take("/")) wrong("needs a stroke between value and chroma");
    result_.colour.chroma = number("the chroma after the stroke", 50);
    if (!result_.good()) return;
    result_.colour.hue = std::fmod(10.0 * static_cast<double>(*circle) + step, 100.0);
    // Without chroma there is no hue: 5R 5/0 is N 5.
    if (result_.colour.chroma == 0) result_.colour.hue = 0;
  }

  bool take(std::string_view word) {
    if (!result_.good() || text_.substr(at_, word.size()) != word) return false;
    at_ += word.size();
    return true;
  }

  // Digits, and a point only with digits on both sides.
  double number(const std::string& what, double most) {
    if (!result_.good()) return 0;
    const std::size_t start = at_;
    double value = 0, place = 1;
    bool decimals = false;
    while (at_ < text_.size() && at_ - start < kMostDigits) {
      const char c = text_[at_];
      if (c == '.' && !decimals && at_ > start && at_ + 1 < text_.size() && is_digit(text_[at_ + 1])) {
        decimals = true;
      } else if (is_digit(c)) {
        value = value * 10 + (c - '0');
        if (decimals) place *= 10;
      } else {
        break;
      }
      ++at_;
    }
    if (at_ == start) {
      wrong("needs " + what);
      return 0;
    }
    value /= place;
    if (value > most) {
      at_ = start;
      wrong("has " + text_of(start) + " where " + what + " is at most " + decimal(most));
    }
    return value;
  }

  std::string text_of(std::size_t start) const {
    std::size_t end = start;
    while (end < text_.size() && (is_digit(text_[end]) || text_[end] == '.')) ++end;
    return std::string(text_.substr(start, end - start));
  }

  void wrong(const std::string& fault) {
    if (!result_.good()) return;
    result_.fault = fault;
    result_.at = at_ + 1;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  MunsellReading result_;
};

}  // namespace

std::string Munsell::text() const {
  if (neutral()) return "N " + decimal(value) + "/";
  auto circle = static_cast<std::size_t>(hue / 10);
  double step = hue - 10.0 * static_cast<double>(circle);
  // 10R is written, not 0YR.
  if (step < 0.00005) {
    step = 10;
    circle = (circle + kHues.size() - 1) % kHues.size();
  }
  return decimal(step) + std::string(kHues[circle % kHues.size()]) + " " + decimal(value) + "/" +
         decimal(chroma);
}

MunsellReading read_munsell(std::string_view text) {
  return Reader(text).read();
}

}  // namespace lathbook
