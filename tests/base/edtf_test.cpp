// EDTF against the specification's own examples, published vectors, and the choices of docs/dates.md.
#include "core/base/edtf.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <random>
#include <sstream>

#include "core/base/error.hpp"
#include "tests/support/support.hpp"

using namespace lathbook;

namespace {

std::vector<std::vector<std::string>> read_tsv(const std::filesystem::path& path) {
  std::istringstream in(test::read_file(path));
  std::vector<std::vector<std::string>> rows;
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    std::vector<std::string> cells(1);
    for (const char c : line) {
      if (c == '\t')
        cells.emplace_back();
      else
        cells.back() += c;
    }
    cells.resize(std::max<std::size_t>(cells.size(), 8));
    rows.push_back(std::move(cells));
  }
  return rows;
}

std::filesystem::path vectors() {
  const auto folder = test::standards();
  if (folder.empty()) {
    WARN("no folder of standards: the EDTF vectors were not tried");
    return {};
  }
  return folder / "edtf";
}

std::string why_not(const std::string& text) {
  std::string why;
  const auto date = Edtf::try_parse(text, &why);
  return date ? "accepted" : why;
}

struct Bounds {
  const char* text;
  int level;
  const char* earliest;
  const char* latest;
};

void check_bounds(const std::vector<Bounds>& rows) {
  for (const Bounds& row : rows) {
    CAPTURE(row.text);
    std::string why;
    const auto date = Edtf::try_parse(row.text, &why);
    CAPTURE(why);
    REQUIRE(date);
    CHECK(date->level() == row.level);
    CHECK(date->earliest_text() == row.earliest);
    CHECK(date->latest_text() == row.latest);
  }
}

}  // namespace

TEST_CASE("the examples of the EDTF specification are read") {
  // Library of Congress, 'Extended Date/Time Format (EDTF) Specification', 4 February 2019: the example
  // strings of levels 0, 1 and 2. Season months are ours (docs/dates.md); the document gives none.
  check_bounds({
      {"1985-04-12", 0, "1985-04-12T00:00:00", "1985-04-12T23:59:59"},
      {"1985-04", 0, "1985-04-01T00:00:00", "1985-04-30T23:59:59"},
      {"1985", 0, "1985-01-01T00:00:00", "1985-12-31T23:59:59"},
      {"1985-04-12T23:20:30", 0, "1985-04-12T23:20:30", "1985-04-12T23:20:30"},
      {"1985-04-12T23:20:30Z", 0, "1985-04-12T23:20:30Z", "1985-04-12T23:20:30Z"},
      {"1985-04-12T23:20:30-04", 0, "1985-04-13T03:20:30Z", "1985-04-13T03:20:30Z"},
      {"1985-04-12T23:20:30+04:30", 0, "1985-04-12T18:50:30Z", "1985-04-12T18:50:30Z"},
      {"1964/2008", 0, "1964-01-01T00:00:00", "2008-12-31T23:59:59"},
      {"2004-02-01/2005", 0, "2004-02-01T00:00:00", "2005-12-31T23:59:59"},
      {"Y170000002", 1, "+170000002-01-01T00:00:00", "+170000002-12-31T23:59:59"},
      {"Y-170000002", 1, "-170000002-01-01T00:00:00", "-170000002-12-31T23:59:59"},
      {"2001-21", 1, "2001-03-01T00:00:00", "2001-05-31T23:59:59"},
      {"1984?", 1, "1984-01-01T00:00:00", "1984-12-31T23:59:59"},
      {"2004-06~", 1, "2004-06-01T00:00:00", "2004-06-30T23:59:59"},
      {"2004-06-11%", 1, "2004-06-11T00:00:00", "2004-06-11T23:59:59"},
      {"201X", 1, "2010-01-01T00:00:00", "2019-12-31T23:59:59"},
      {"20XX", 1, "2000-01-01T00:00:00", "2099-12-31T23:59:59"},
      {"2004-XX", 1, "2004-01-01T00:00:00", "2004-12-31T23:59:59"},
      {"1985-04-XX", 1, "1985-04-01T00:00:00", "1985-04-30T23:59:59"},
      {"1985-XX-XX", 1, "1985-01-01T00:00:00", "1985-12-31T23:59:59"},
      {"1985-04-12/..", 1, "1985-04-12T00:00:00", "+inf"},
      {"../1985-04-12", 1, "-inf", "1985-04-12T23:59:59"},
      {"1985-04-12/", 1, "1985-04-12T00:00:00", ""},
      {"/1985-04-12", 1, "", "1985-04-12T23:59:59"},
      {"-1985", 1, "-1985-01-01T00:00:00", "-1985-12-31T23:59:59"},
      {"Y-17E7", 2, "-170000000-01-01T00:00:00", "-170000000-12-31T23:59:59"},
      {"1950S2", 2, "1900-01-01T00:00:00", "1999-12-31T23:59:59"},
      {"Y171010000S3", 2, "+171000000-01-01T00:00:00", "+171999999-12-31T23:59:59"},
      {"Y3388E2S3", 2, "+338000-01-01T00:00:00", "+338999-12-31T23:59:59"},
      {"2001-34", 2, "2001-04-01T00:00:00", "2001-06-30T23:59:59"},
      {"[1667,1668,1670..1672]", 2, "1667-01-01T00:00:00", "1672-12-31T23:59:59"},
      {"[..1760-12-03]", 2, "-inf", "1760-12-03T23:59:59"},
      {"[1760-12..]", 2, "1760-12-01T00:00:00", "+inf"},
      {"[1760-01,1760-02,1760-12..]", 2, "1760-01-01T00:00:00", "+inf"},
      {"[1667,1760-12]", 2, "1667-01-01T00:00:00", "1760-12-31T23:59:59"},
      {"[..1984]", 2, "-inf", "1984-12-31T23:59:59"},
      {"{1667,1668,1670..1672}", 2, "1667-01-01T00:00:00", "1672-12-31T23:59:59"},
      {"{1960,1961-12}", 2, "1960-01-01T00:00:00", "1961-12-31T23:59:59"},
      {"{..1984}", 2, "-inf", "1984-12-31T23:59:59"},
      {"2004-06~-11", 2, "2004-06-11T00:00:00", "2004-06-11T23:59:59"},
      {"2004?-06-11", 2, "2004-06-11T00:00:00", "2004-06-11T23:59:59"},
      {"?2004-06-~11", 2, "2004-06-11T00:00:00", "2004-06-11T23:59:59"},
      {"2004-%06-11", 2, "2004-06-11T00:00:00", "2004-06-11T23:59:59"},
      {"156X-12-25", 2, "1560-12-25T00:00:00", "1569-12-25T23:59:59"},
      {"15XX-12-25", 2, "1500-12-25T00:00:00", "1599-12-25T23:59:59"},
      {"XXXX-12-XX", 2, "0000-12-01T00:00:00", "9999-12-31T23:59:59"},
      {"1XXX-XX", 2, "1000-01-01T00:00:00", "1999-12-31T23:59:59"},
      {"1XXX-12", 2, "1000-12-01T00:00:00", "1999-12-31T23:59:59"},
      {"1984-1X", 2, "1984-10-01T00:00:00", "1984-12-31T23:59:59"},
      {"2004-06-~01/2004-06-~20", 2, "2004-06-01T00:00:00", "2004-06-20T23:59:59"},
      {"2004-06-XX/2004-07-03", 1, "2004-06-01T00:00:00", "2004-07-03T23:59:59"},
  });
}

TEST_CASE("the published vectors of valid dates agree in level and bounds") {
  const auto folder = vectors();
  if (folder.empty()) return;
  std::size_t tried = 0;
  for (const auto& row : read_tsv(folder / "edtf-valid.tsv")) {
    CAPTURE(row[0]);
    ++tried;
    std::string why;
    const auto date = Edtf::try_parse(row[0], &why);
    CAPTURE(why);
    CHECK(date);
    if (!date) continue;
    CHECK(date->text() == row[0]);
    CHECK(date->level() == std::stoi(row[1]));
    // The vectors give no bounds where the implementations they come from apply no offset.
    if (row[5].find("offset-not-applied") != std::string::npos) continue;
    CHECK(date->earliest_text() == row[2]);
    CHECK(date->latest_text() == row[3]);
  }
  CHECK(tried >= 200);
}

TEST_CASE("the published vectors of invalid dates are refused with a position") {
  const auto folder = vectors();
  if (folder.empty()) return;
  std::size_t tried = 0;
  for (const auto& row : read_tsv(folder / "edtf-invalid.tsv")) {
    CAPTURE(row[0]);
    ++tried;
    const std::string why = why_not(row[0]);
    CHECK_THAT(why, Catch::Contains("cannot be read at character "));
  }
  CHECK(tried >= 70);
}

TEST_CASE("the disputed vectors are decided as docs/dates.md says") {
  const auto folder = vectors();
  if (folder.empty()) return;
  // Where docs/dates.md decides against the reading given in the vectors, by their note; refused are
  // also blanks inside a date of a set.
  const std::map<std::string, std::string> refused{
      {"reversed-interval", "the end comes before the start"},
      {"reversed-range", "the end comes before the start"},
      {"mixed-precision-range", "both ends of a range are equally fine"},
      {"24h", "write 00 of the next day"},
      {"minus-zero-offset", "an offset of zero has a plus sign"}};
  const std::map<std::string, std::string> refused_alone{
      {"?1884?", "the year has a mark on both sides"},
      {"?1884~", "the year has a mark on both sides"},
      {"[1 760-01, 1760-02, 1760-12..]", "a year has four digits"},
      {"[..176 0-12-03]", "write 176X"},
      {"{-1667,1 668-10,1670..1672}", "a year has four digits"}};
  std::size_t tried = 0;
  for (const auto& row : read_tsv(folder / "edtf-disputed.tsv")) {
    const std::string& note = row[8].empty() ? row[7] : row[8];
    CAPTURE(row[0], note);
    ++tried;
    std::string advice;
    if (const auto found = refused_alone.find(row[0]); found != refused_alone.end()) advice = found->second;
    if (const auto found = refused.find(note); found != refused.end()) advice = found->second;
    if (row[1] == "invalid" || !advice.empty()) {
      CHECK_THAT(why_not(row[0]), Catch::Contains("cannot be read at character ") && Catch::Contains(advice));
      continue;
    }
    std::string why;
    const auto date = Edtf::try_parse(row[0], &why);
    CAPTURE(why);
    CHECK(date);
    if (!date) continue;
    CHECK(date->level() == std::min(2, std::stoi(row[2])));
    CHECK(date->earliest_text() == row[3]);
    CHECK(date->latest_text() == row[4]);
  }
  CHECK(tried >= 150);
}

TEST_CASE("a refused date says where and what to write") {
  const std::vector<std::pair<const char*, const char*>> rows{
      {"18",
       "the date '18' cannot be read at character 3: a year has four digits; write 18XX for the hundred "
       "years"},
      {"-188", "write -188X for the ten years"},
      {"", "the date is empty"},
      {"18840403", "write 1884-04-03"},
      {"12345", "write Y before a year of more than four digits"},
      {"1884-1886", "write / between two dates, such as 1884/1886"},
      {"Y1234", "Y is for years of more than four digits"},
      {"1884/open", "write .. for an open end"},
      {"unknown/1884", "leave an end empty when it is not known"},
      {"18uu", "write X for a digit that is not known"},
      {"1884-13", "there is no month or season 13"},
      {"1900-02-29", "February 1900 has no day 29"},
      {"156X-09-31", "at character 9: no day of the calendar fits these digits"},
      {"+1884", "leave out the plus sign"},
      {"1884??", "one mark is enough"},
      {"\xE2\x80\x93"
       "1884",
       "the date '<U+2013>1884' cannot be read at character 1: U+2013 has no place in a date; write the "
       "plain hyphen -"},
      {"1884\x1b", "U+001B has no place in a date"},
      {"\xff", "byte FF has no place in a date"},
      {"2016-05-02T16:54:59+0230", "write a colon between the hours and minutes of an offset"},
      {"[1884..1886..1888]", "one item of a set has .. once"},
      {"[1884,..1886]", "only the first item of a set may begin with .."},
      {"[1884..,1886]", "only the last item of a set may end with .."},
      {"[1884,]", "a date is missing here"},
      {"/", "an interval needs a date at one end at least"}};
  for (const auto& [text, advice] : rows) {
    CAPTURE(text);
    CHECK_THAT(why_not(text), Catch::Contains(advice));
  }
  CHECK_THAT(why_not(std::string(1001, 'X')), Catch::Contains("is longer than 1000 bytes"));
  CHECK_THROWS_AS(Edtf::parse("18"), Error);
}

TEST_CASE("years too far away are refused, not wrapped round") {
  for (const char* text : {"Y5000000001", "Y-5000000001", "Y1E10", "Y99999999999999999999",
                           "Y1E99999999999999999999", "Y9223372036854775807E9", "Y4999999999S1E9"}) {
    CAPTURE(text);
    CHECK_THAT(why_not(text), Catch::Contains("cannot be read at character"));
  }
  CHECK_THAT(why_not("Y5E10"), Catch::Contains("years beyond 5000000000"));
  CHECK(Edtf::parse("Y5E9").earliest_text() == "+5000000000-01-01T00:00:00");
  CHECK(Edtf::parse("Y-5E9").earliest_text() == "-5000000000-01-01T00:00:00");
}

TEST_CASE("qualifiers are kept for each component and never move the bounds") {
  // Library of Congress, EDTF, 2019, level 2 'Qualification': right of a component it holds for that and
  // all to its left, left of a component for that alone.
  const auto marks = [](const char* text) {
    const Edtf edtf = Edtf::parse(text);
    const EdtfDate& d = *edtf.spans().front().start;
    const auto one = [](DateQualifier q) {
      return std::string(q.uncertain ? "?" : "") + (q.approximate ? "~" : "") +
             (q == DateQualifier{} ? "." : "");
    };
    return one(d.year) + " " + one(d.month) + " " + one(d.day);
  };
  CHECK(marks("2004-06-11%") == "?~ ?~ ?~");
  CHECK(marks("2004-06~-11") == "~ ~ .");
  CHECK(marks("2004?-06-11") == "? . .");
  CHECK(marks("?2004-06-~11") == "? . ~");
  CHECK(marks("2004-%06-11") == ". ?~ .");
  CHECK(marks("2001-?09~-09") == "~ ?~ .");
  for (const std::string text : {"1884", "1884-06", "1884-06-03", "188X", "1884-XX", "1884-22", "Y18840"}) {
    for (const char mark : {'?', '~', '%'}) {
      const Edtf plain = Edtf::parse(text);
      const Edtf marked = Edtf::parse(text + mark);
      CHECK(marked.earliest() == plain.earliest());
      CHECK(marked.latest() == plain.latest());
      CHECK(marked.uncertain() == (mark != '~'));
      CHECK(marked.approximate() == (mark != '?'));
      CHECK_FALSE(plain.uncertain());
      CHECK_FALSE(plain.approximate());
    }
  }
}

TEST_CASE("ends tell open from unknown, and each end keeps its own precision and marks") {
  const Edtf a = Edtf::parse("188X~/..");
  CHECK(a.start_kind() == EndKind::dated);
  CHECK(a.end_kind() == EndKind::open);
  CHECK(a.first_date()->precision == Precision::decade);
  CHECK(a.first_date()->qualifier().approximate);
  CHECK(a.last_date() == nullptr);
  CHECK_FALSE(a.latest());
  const Edtf b = Edtf::parse("/1885-04?");
  CHECK(b.start_kind() == EndKind::unknown);
  CHECK_FALSE(b.earliest());
  CHECK(b.last_date()->precision == Precision::month);
  CHECK(Edtf::parse("[..1760]").start_kind() == EndKind::open);
  CHECK(Edtf::parse("{1960,1961-12}").precision() == Precision::year);
  CHECK(Edtf::parse("[1667, 1668 ,1670..1672]").text() == "[1667,1668,1670..1672]");
  CHECK(Edtf::parse("[1667, 1668]") == Edtf::parse("[1667,1668]"));
  // A day with a time keeps the day as written, whatever the clock's offset.
  CHECK(iso_day(*Edtf::parse("2016-05-02T16:54:59-12:00").earliest()) == "2016-05-02");
}

TEST_CASE("precision is that of the coarsest part") {
  const std::vector<std::pair<const char*, Precision>> rows{{"1985-04-12T23:20:30", Precision::second},
                                                            {"1985-04-12", Precision::day},
                                                            {"1985-04", Precision::month},
                                                            {"1985-04-XX", Precision::month},
                                                            {"1985-21", Precision::season},
                                                            {"1985-34", Precision::quarter},
                                                            {"1985-38", Precision::four_months},
                                                            {"1985-40", Precision::half_year},
                                                            {"1985", Precision::year},
                                                            {"1985-XX", Precision::year},
                                                            {"1985-1X", Precision::year},
                                                            {"198X", Precision::decade},
                                                            {"156X-12-25", Precision::decade},
                                                            {"19XX", Precision::century},
                                                            {"1X84", Precision::millennium},
                                                            {"XXXX", Precision::longer},
                                                            {"1950S2", Precision::century},
                                                            {"1985-04/198X", Precision::decade}};
  for (const auto& [text, precision] : rows) {
    CAPTURE(text);
    CHECK(Edtf::parse(text).precision() == precision);
  }
}

TEST_CASE("dates are told in plain sentences") {
  const std::vector<std::pair<const char*, const char*>> rows{
      {"1924-06-12", "12 June 1924"},
      {"1905~/1910~", "some time from 1 January 1905 to 31 December 1910, approximate"},
      {"1905~/1910", "some time from 1 January 1905 to 31 December 1910; the start approximate"},
      {"1905?/1910~",
       "some time from 1 January 1905 to 31 December 1910; the start uncertain; the end approximate"},
      {"../1921", "some time up to 31 December 1921"},
      {"1921/..", "some time from 1 January 1921 on"},
      {"1921/", "some time from 1 January 1921 to a day that is not known"},
      {"/1921%", "some time from a day that is not known to 31 December 1921, uncertain and approximate"},
      {"../..", "any time at all"},
      {"2004-06~-11", "11 June 2004, the year approximate, the month approximate"},
      {"2004-?06-11", "11 June 2004, the month uncertain"},
      {"1884-XX-03", "some time from 3 January 1884 to 3 December 1884, only on days that fit 1884-XX-03"},
      {"1950S2", "some time from 1 January 1900 to 31 December 1999, estimated 1950"},
      {"1985-04-12T23:20:30+04:30", "12 April 1985 at 23:20:30 by a clock 04:30 ahead of UTC"},
      {"1985-04-12T23:20:30Z", "12 April 1985 at 23:20:30 UTC"},
      {"{1960-06-01,1961-12-03..}", "all of these: 1 June 1960; some time from 3 December 1961 on"}};
  for (const auto& [text, sentence] : rows) {
    CAPTURE(text);
    CHECK(describe(Edtf::parse(text)) == sentence);
  }
}

TEST_CASE("whatever is read is in order and reads the same again") {
  std::mt19937 random(20'251'125);
  const auto pick = [&random](std::string_view from) { return from[random() % from.size()]; };
  const auto places = [&](const char* first, int count) {
    std::string out;
    for (int i = 0; i < count; ++i) out += random() % 6 == 0 ? 'X' : pick(i == 0 ? first : "0123456789");
    return out;
  };
  const auto mark = [&] { return random() % 6 == 0 ? std::string(1, pick("?~%")) : std::string(); };
  const auto one = [&] {
    std::string out = (random() % 8 == 0 ? mark() : "") + (random() % 9 == 0 ? "-" : "") + places("0129", 4);
    if (random() % 2 == 0) out += mark() + "-" + places("0123", 2);
    if (random() % 2 == 0) out += mark() + "-" + places("0123", 2);
    return out + mark();
  };
  std::size_t read = 0;
  for (int i = 0; i < 20'000; ++i) {
    std::string text = one();
    if (i % 4 == 1) text += (random() % 5 == 0 ? "/.." : "/" + one());
    if (i % 4 == 2) text = "[" + text + (random() % 2 == 0 ? ", " : "..") + one() + "]";
    const auto date = Edtf::try_parse(text);
    if (!date) continue;
    ++read;
    CAPTURE(text);
    const Edtf again = Edtf::parse(date->text());
    if (again.text() != date->text() || again.earliest() != date->earliest() ||
        again.latest() != date->latest() || again.level() != date->level())
      FAIL("reads differently the second time");
    if (date->earliest() && date->latest() && *date->earliest() > *date->latest()) FAIL("out of order");
    if (describe(*date).empty()) FAIL("nothing to say");
  }
  CHECK(read > 1'000);
}
