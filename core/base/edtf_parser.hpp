// Reads EDTF text into an Edtf value. Internal to core/base: others call Edtf::parse.
#pragma once

#include <string_view>

#include "core/base/edtf.hpp"

namespace lathbook {

/// The longest EDTF text that is read, in bytes.
inline constexpr std::size_t longest_edtf = 1000;

/// Reads one expression; positions in messages count from the start of the whole text.
class EdtfParser {
public:
  explicit EdtfParser(std::string_view text) : text_(text) {}
  Edtf parse();

private:
  Edtf parse_set();
  Edtf parse_interval(std::size_t slash);
  EdtfSpan set_item(std::size_t from, std::size_t to, bool first, bool last) const;
  void check_characters() const;
  [[noreturn]] void bad(std::size_t at, const std::string& advice) const;

  std::string_view text_;
};

/// Reads one date of an expression: the bytes from `from` to `to` of `text`.
class EdtfDateParser {
public:
  EdtfDateParser(std::string_view text, std::size_t from, std::size_t to)
      : text_(text.substr(0, to)), from_(from), at_(from) {}
  EdtfDate parse(bool time_allowed);

private:
  /// Two or four places, each a digit or X.
  struct Places {
    std::string_view text;
    std::size_t at = 0;
    bool has_x() const { return text.find('X') != std::string_view::npos; }
    bool all_x() const { return text.find_first_not_of('X') == std::string_view::npos; }
    bool fits(std::int64_t value) const;
    int value() const;
  };

  bool end() const { return at_ >= text_.size(); }
  char peek() const { return end() ? '\0' : text_[at_]; }
  bool take(char c);
  DateQualifier take_qualifier();
  void left_qualifier(DateQualifier& component);
  void right_qualifier(int components);
  void read_year();
  void read_long_year();
  void read_significant_digits(std::int64_t value, std::string_view digits);
  void read_month();
  void read_day();
  void read_time();
  void read_offset();
  int two_digits(const char* what, int highest);
  [[noreturn]] void bad_year(std::size_t start);
  void set_year_range(std::int64_t first, std::int64_t last);
  void set_level_of_open_digits();
  void set_bounds();
  template <class Accept>
  std::optional<std::int64_t> find_year(bool forward, Accept accept) const;
  std::optional<CivilDay> day_in_year(std::int64_t year, bool first) const;
  [[noreturn]] void bad_day() const;
  [[noreturn]] void bad(std::size_t at, const std::string& advice) const;

  std::string_view text_;
  std::size_t from_;
  std::size_t at_;
  EdtfDate date_;
  bool negative_ = false;
  bool year_only_ = false;
  Places year_, month_, day_;
  bool inner_qualifier_ = false;  // any qualifier but one at the very end
  bool end_qualifier_ = false;
};

[[noreturn]] void bad_edtf(std::string_view text, std::size_t at, const std::string& advice);

}  // namespace lathbook
