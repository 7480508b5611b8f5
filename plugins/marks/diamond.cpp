// The registration diamond of 1842 to 1883.
#include <algorithm>

#include "core/base/calendar.hpp"
#include "core/base/text.hpp"
#include "plugins/marks/codes.hpp"
#include "plugins/marks/tables.hpp"

namespace lathbook::marks {

namespace {

bool is_letter(const std::string& corner) {
  return corner.size() == 1 && corner[0] >= 'A' && corner[0] <= 'Z';
}

int number_of(const std::string& corner) {
  if (corner.empty() || corner.size() > 2) return 0;
  int number = 0;
  for (const char c : corner) {
    if (c < '0' || c > '9') return 0;
    number = number * 10 + (c - '0');
  }
  return number;
}

std::string two(int number) {
  return (number < 10 ? "0" : "") + std::to_string(number);
}

// The four corners by what they mean in one of the two types.
struct Corners {
  int type;
  std::string year, day, month, parcel;
};

bool unread(const std::string& corner) {
  return corner == "-" || corner.find('#') != std::string::npos;
}

std::string date_of(int year, int month, int day) {
  std::string date = std::to_string(year);
  if (month > 0) date += "-" + two(month);
  if (month > 0 && day > 0) date += "-" + two(day);
  return date;
}

bool is_date(int year, int month, int day) {
  return month == 0 || day == 0 || is_civil_day({year, month, day});
}

void add(DatedCode& code, CodeReading reading) {
  const auto same = [&](const CodeReading& one) { return one.date == reading.date; };
  if (std::none_of(code.readings.begin(), code.readings.end(), same))
    code.readings.push_back(std::move(reading));
}

// Readings of one type by the plain letters and by the exceptions.
void read_type(DatedCode& code, const Corners& corners) {
  const DiamondTable& table = diamonds();
  const int day = unread(corners.day) ? 0 : number_of(corners.day);
  const bool day_fits = unread(corners.day) || (day >= 1 && day <= 31);
  const bool parcel_fits = unread(corners.parcel) || number_of(corners.parcel) > 0;
  if (!day_fits || !parcel_fits) return;
  const bool letters = (unread(corners.year) || is_letter(corners.year)) &&
                       (unread(corners.month) || is_letter(corners.month));
  if (!letters || unread(corners.year)) return;
  const char year_letter = corners.year[0];
  const int year = table.year(corners.type, year_letter);
  const int month = unread(corners.month) ? 0 : table.month(corners.month[0]);
  const std::string type = "type " + std::to_string(corners.type);
  if (year != 0 && (unread(corners.month) || month != 0) && is_date(year, month, day)) {
    std::string words = type + ": " + year_letter + " is " + std::to_string(year);
    if (month != 0) words += std::string(", ") + corners.month[0] + " is month " + std::to_string(month);
    if (day != 0) words += ", day " + std::to_string(day);
    add(code, {date_of(year, month, day), words});
  }
  for (const auto& exception : table.exceptions) {
    const bool fits = exception.type == corners.type && exception.year_letter == year_letter &&
                      !unread(corners.month) && corners.month[0] == exception.month_letter;
    const int first = std::stoi(exception.first.substr(8));
    const int last = std::stoi(exception.last.substr(8));
    if (!fits || (day != 0 && (day < first || day > last))) continue;
    const std::string date = day != 0                   ? exception.first.substr(0, 8) + two(day)
                             : first == 1 && last == 31 ? exception.first.substr(0, 7)
                                                        : exception.first + "/" + exception.last;
    add(code, {date, type + ": " + exception.remark});
  }
  for (const auto& misprint : table.misprints) {
    if (misprint.type == corners.type && misprint.letter == year_letter)
      code.remarks.push_back(misprint.remark);
  }
}

}  // namespace

DatedCode read_diamond(const std::string& of_class, const std::vector<std::string>& corners) {
  const DiamondTable& table = diamonds();
  DatedCode code;
  code.kind = "registration diamond";
  code.table = table.words.name;
  code.source = table.words.source;
  code.weakness = table.words.weakness;
  if (corners.size() != 4) return code;
  for (const auto& [number, material] : table.classes) {
    if (number == of_class) code.remarks.push_back("class " + number + ": " + material);
  }
  // Clockwise from the top. A figure at the right is type 1, a letter type 2.
  const bool may_be_1 = unread(corners[1]) || number_of(corners[1]) > 0;
  const bool may_be_2 = unread(corners[1]) || is_letter(corners[1]);
  if (may_be_1) read_type(code, {1, corners[0], corners[1], corners[3], corners[2]});
  if (may_be_2) read_type(code, {2, corners[1], corners[0], corners[2], corners[3]});
  if (code.readings.empty()) {
    code.remarks.push_back(
        "no date of 1842 to 1883 has these corners; look again whether the top is the top");
    return code;
  }
  std::sort(code.readings.begin(), code.readings.end(),
            [](const CodeReading& a, const CodeReading& b) { return a.date < b.date; });
  code.not_before = code.readings.front().date.substr(0, code.readings.front().date.find('/'));
  if (code.readings.size() > 1)
    code.remarks.push_back("which of these it is cannot be told from the diamond");
  return code;
}

}  // namespace lathbook::marks
