#include "plugins/marks/codes.hpp"

#include <algorithm>
#include <array>

#include "core/base/calendar.hpp"
#include "plugins/marks/tables.hpp"

namespace lathbook::marks {

namespace {

constexpr const char* kPatentWeakness =
    "a patent is a 'not before' for the thing and no more: things were made under it for decades";

bool any_of(const std::string& word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

int month_of(const std::string& word) {
  constexpr std::array<std::string_view, 12> months = {"JANUARY",   "FEBRUARY", "MARCH",    "APRIL",
                                                       "MAY",       "JUNE",     "JULY",     "AUGUST",
                                                       "SEPTEMBER", "OCTOBER",  "NOVEMBER", "DECEMBER"};
  if (word.size() < 3) return 0;
  for (std::size_t i = 0; i < months.size(); ++i) {
    if (months[i].substr(0, word.size()) == word) return static_cast<int>(i) + 1;
  }
  return 0;
}

int small_number(const std::string& word) {
  if (word.empty() || word.size() > 4) return -1;
  int number = 0;
  for (const char c : word) {
    if (c < '0' || c > '9') return -1;
    number = number * 10 + (c - '0');
  }
  return number;
}

class Finder {
public:
  explicit Finder(const Transcription& transcription)
      : transcription_(transcription), words_(code_words(transcription)) {}

  std::vector<FoundCode> find() {
    while (at_ < words_.size()) {
      if (!diamond() && !rd_number() && !patent() && !origin()) ++at_;
    }
    return std::move(found_);
  }

private:
  const std::string& word(std::size_t i) const {
    static const std::string none;
    return i < words_.size() ? words_[i].text : none;
  }

  bool keep(DatedCode code, std::size_t end, bool part_of_mark = false) {
    code.text = text_of(transcription_, words_[at_], words_[end - 1]);
    found_.push_back({std::move(code), words_[at_].first, words_[end - 1].last, part_of_mark});
    at_ = end;
    return true;
  }

  bool diamond() {
    if (!any_of(word(at_), {"<>", "DIAMOND"})) return false;
    std::size_t i = at_ + 1;
    std::string of_class;
    std::vector<std::string> cells;
    while (cells.size() < 5 && i < words_.size()) {
      const CodeWord& cell = words_[i];
      const bool corner = cell.text == "-" || cell.text.size() == 1 ||
                          (cell.figures() && cell.text.size() <= 2) || (cells.empty() && is_class(cell.text));
      if (!corner) break;
      cells.push_back(cell.text);
      ++i;
    }
    if (cells.size() == 5 && is_class(cells[0])) {
      of_class = cells[0];
      cells.erase(cells.begin());
    }
    if (cells.size() == 5) {
      cells.pop_back();
      --i;
    }
    if (cells.size() < 4 && !cells.empty() && cells.size() + 1 == 4 && !is_class(cells[0]))
      cells.emplace_back("-");
    if (cells.size() != 4) return false;
    return keep(read_diamond(of_class, cells), i);
  }

  static bool is_class(const std::string& text) {
    const auto& classes = diamonds().classes;
    return std::any_of(classes.begin(), classes.end(), [&](const auto& one) { return one.first == text; });
  }

  std::size_t after_no(std::size_t i) const {
    return any_of(word(i), {"NO", "NOS", "NUMBER", "N"}) ? i + 1 : i;
  }

  bool rd_number() {
    const bool short_for = any_of(word(at_), {"REG", "REGN"});
    if (!short_for && !any_of(word(at_), {"RD", "REGD", "RGD", "REGISTERED"})) return false;
    std::size_t i = at_ + 1;
    const bool design = any_of(word(i), {"DESIGN", "DES"});
    if (design) ++i;
    const std::size_t number = after_no(i);
    if (number >= words_.size() || !words_[number].figures()) return false;
    if ((short_for || (word(at_) == "REGISTERED" && !design)) && number == i) return false;
    DatedCode code = read_rd_number(words_[number]);
    if (short_for) {
      code.hint = true;
      code.remarks.push_back("'Reg. No' also stands before numbers of trade marks, which are another series");
    }
    return keep(std::move(code), number + 1);
  }

  bool patent() {
    if (!any_of(word(at_), {"PAT", "PATENT", "PATENTED", "PATD", "PATS", "PATENTS"})) return false;
    std::size_t i = at_ + 1;
    if (word(i) == "D") ++i;
    const std::string before = at_ > 0 ? word(at_ - 1) : "";
    if (any_of(before, {"DES", "DESIGN"})) return other_series("US design patent", i);
    if (any_of(before, {"RE", "REISSUE", "REISSUED"})) return other_series("US reissued patent", i);
    if (any_of(word(i), {"PENDING", "PEND", "APPLIED", "APPD", "APPLD"})) {
      const bool applied_for = any_of(word(i + 1), {"FOR"});
      DatedCode code;
      code.kind = "patent applied for";
      code.hint = true;
      code.weakness = "says that a patent was hoped for, and no year";
      code.source = "common practice, no source";
      return keep(std::move(code), i + (applied_for ? 2 : 1));
    }
    if (patent_date(i)) return true;
    const std::size_t number = after_no(i);
    if (number >= words_.size() || !words_[number].figures()) return false;
    const int year = number == i ? small_number(word(number)) : -1;
    if (year >= 1790 && year <= 1999) return patent_year(year, number + 1);
    return keep(read_us_patent(words_[number]), number + 1);
  }

  bool other_series(const char* kind, std::size_t i) {
    const std::size_t number = after_no(i);
    if (number >= words_.size() || !words_[number].figures()) return false;
    DatedCode code;
    code.kind = kind;
    code.source = "common practice, no source";
    code.weakness = "numbered in a series of its own, which this program has no table of: not dated here";
    return keep(std::move(code), number + 1);
  }

  bool patent_year(int year, std::size_t end) {
    DatedCode code;
    code.kind = "patent date";
    code.readings.push_back({std::to_string(year), "the year as written"});
    code.not_before = std::to_string(year);
    code.source = "the mark itself";
    code.weakness = kPatentWeakness;
    return keep(std::move(code), end);
  }

  // APR. 7 08, APRIL 7TH 1908, 7 APR 1908.
  bool patent_date(std::size_t i) {
    int month = month_of(word(i));
    int day = small_number(word(i + 1));
    std::size_t next = i + 2;
    if (month == 0) {
      day = small_number(word(i));
      month = month_of(word(i + 1));
    }
    if (month == 0 || day < 1 || day > 31) return false;
    if (any_of(word(next), {"ST", "ND", "RD", "TH"})) ++next;
    const int year = small_number(word(next));
    if (year < 0 || (word(next).size() != 2 && word(next).size() != 4)) return false;
    DatedCode code;
    code.kind = "patent date";
    code.source = "the mark itself";
    code.weakness = kPatentWeakness;
    const std::vector<int> years =
        word(next).size() == 4 ? std::vector<int>{year} : std::vector<int>{1800 + year, 1900 + year};
    add_days(code, years, month, day);
    if (code.readings.empty()) return false;
    code.not_before = code.readings.front().date;
    return keep(std::move(code), next + 1);
  }

  // United States patents are dated on Tuesdays (common practice, from memory): of two centuries, the one
  // whose day was a Tuesday is kept alone; numbered patents begin in 1836.
  static void add_days(DatedCode& code, const std::vector<int>& years, int month, int day) {
    std::vector<int> fitting;
    std::vector<int> tuesdays;
    for (const int year : years) {
      if (year < 1836 || year > 1999 || !is_civil_day({year, month, day})) continue;
      fitting.push_back(year);
      // Day 0, 1 January 1970, was a Thursday.
      const Day number = days_from_civil(year, month, day);
      if (((number % 7) + 7) % 7 == 5) tuesdays.push_back(year);
    }
    if (tuesdays.size() == 1 && fitting.size() > 1) {
      code.remarks.push_back(
          "of the two centuries only this day was a Tuesday, the day on which United States patents are "
          "dated");
      fitting = tuesdays;
    } else if (tuesdays.empty() && !fitting.empty()) {
      code.remarks.push_back(
          "no Tuesday, the day on which United States patents are dated: another country's, or misread");
    }
    for (const int year : fitting) {
      const bool written = years.size() == 1;
      code.readings.push_back({iso_day(days_from_civil(year, month, day)),
                               written ? "the day as written"
                                       : "the day as written, in the " + std::to_string(year / 100) + "00s"});
    }
  }

  bool origin() {
    const OriginTable& table = origins();
    for (const auto& row : table.rows) {
      bool same = true;
      for (std::size_t i = 0; i < row.text.size(); ++i) same = same && word(at_ + i) == row.text[i];
      if (!same) continue;
      DatedCode code;
      code.kind = "country of origin";
      code.hint = true;
      code.readings.push_back({std::to_string(row.from) + "~/..", row.words});
      code.table = table.words.name;
      code.source = table.words.source;
      code.weakness = table.words.weakness;
      return keep(std::move(code), at_ + row.text.size(), true);
    }
    return false;
  }

  const Transcription& transcription_;
  std::vector<CodeWord> words_;
  std::size_t at_ = 0;
  std::vector<FoundCode> found_;
};

}  // namespace

std::vector<FoundCode> find_codes(const Transcription& transcription) {
  return Finder(transcription).find();
}

}  // namespace lathbook::marks
