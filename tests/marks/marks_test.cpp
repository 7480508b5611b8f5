// Dated codes against the worked marks of the published keys; the search against its own costs.
#include <catch2/catch.hpp>
#include <random>

#include "core/base/embedded.hpp"
#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "plugins/marks/alignment.hpp"
#include "plugins/marks/codes.hpp"
#include "plugins/marks/search.hpp"
#include "plugins/marks/tables.hpp"

using namespace lathbook;
using namespace lathbook::marks;

namespace {

std::string dates(const DatedCode& code) {
  std::string text;
  for (const auto& reading : code.readings) text += (text.empty() ? "" : " ") + reading.date;
  return text;
}

std::string dates(const std::string& text) {
  const auto found = find_codes(read_transcription(text));
  return found.empty() ? "none" : found.front().code.kind + ": " + dates(found.front().code);
}

marks::Query query_of(const std::string& text, bool counted = true) {
  const auto lines = positions_by_line(read_transcription(text, {counted}), {});
  return join_lines(lines, 0, lines.size());
}

float cost(const std::string& reading, const std::string& mark) {
  const marks::Query query = query_of(reading);
  return Aligner(query).cost(spell(mark).codes, 1000);
}

Answer ask(const ReferenceList& list, const std::string& reading, bool mirrored = false) {
  return search(list, positions_by_line(read_transcription(reading, {true}), {}), mirrored);
}

}  // namespace

// Phoenix Masonry museum; A. Murray; Antique-Appraise; stevengraph-silks.com; The National Archives, BT
// 43/68.
TEST_CASE("registration diamonds read as the published keys do") {
  CHECK(dates(read_diamond("IV", {"K", "7", "-", "H"})) == "1857-04-07");
  CHECK(dates(read_diamond("", {"1", "K", "R", "-"})) == "1883-08-01");
  CHECK(dates(read_diamond("IV", {"9", "C", "R", "9"})) == "1870-08-09");
  CHECK(dates(read_diamond("XII", {"6", "A", "I", "-"})) == "1871-07-06");
  CHECK(dates(read_diamond("IV", {"14", "X", "G", "-"})) == "1868-02-14");
  CHECK(dates("◇ IV K 7 - H") == "registration diamond: 1857-04-07");
  CHECK(dates("DIAMOND 14 X G -") == "registration diamond: 1868-02-14");
}

TEST_CASE("the exceptions and ambiguities of diamonds are all told") {
  CHECK(dates(read_diamond("", {"K", "7", "2", "R"})) == "1857-08-07 1857-09-07");
  CHECK(dates(read_diamond("", {"K", "25", "2", "R"})) == "1857-08-25");
  CHECK(dates(read_diamond("", {"Z", "12", "2", "K"})) == "1860-11-12 1860-12-12");
  CHECK(dates(read_diamond("", {"5", "W", "G", "2"})) == "1878-03-05");
  CHECK(dates(read_diamond("", {"20", "W", "G", "2"})).empty());
  CHECK(dates(read_diamond("", {"G", "3", "1", "C"})) == "1863-01-03");  // never 1853
  CHECK(dates(read_diamond("", {"2", "H", "C", "1"})) == "1869-01-02");  // never 1868
}

// First numbers of years: A. Whitton; 52300 and 285771: The National Archives; 56790: Antique-Appraise.
TEST_CASE("Rd numbers give a year, or this year and the one before") {
  CHECK(dates("Rd No 101774") == "Rd number: 1888");
  CHECK(dates("Rd. No. 52300") == "Rd number: 1886");
  CHECK(dates("Rd.No.56790") == "Rd number: 1886");
  CHECK(dates("REGD No 285771") == "Rd number: 1896");
  CHECK(dates("Rd No 216821") ==
        "Rd number: 1893");  // in the registers before 1884 the same number is of 1868
  CHECK(dates("216821") == "none");
  CHECK(dates("Rd No 19800") == "Rd number: 1884 1885");
  CHECK(dates("Rd No 91000") == "Rd number: 1887 1888");
  CHECK(dates("Rd No 1017++") == "Rd number: 1888");
  CHECK(dates("Rd No 930000") == "Rd number: 1965/..");
}

// Midwest Tool Collectors Association, Biddington's: first numbers of years.
TEST_CASE("United States patents give their year, other series none") {
  CHECK(dates("PAT. No 4,704") == "US patent: 1846");
  CHECK(dates("PATENT 223,898") == "US patent: 1880");
  CHECK(dates("PAT'D No. 821393") == "US patent: 1906");
  CHECK(dates("PAT. No 1,463,2[..]") == "US patent: 1923");
  CHECK(dates("PAT. No 1,100,000") == "US patent: 1911/1919");
  CHECK(dates("DES. PAT. 38,211") == "US design patent: ");
  CHECK(dates("PAT. APR. 7 08") == "patent date: 1908-04-07");
  CHECK(dates("PATENTED 1884") == "patent date: 1884");
  CHECK(dates("PAT. PENDING") == "patent applied for: ");
  const auto origin = find_codes(read_transcription("BURSLOW / ENGLAND"));
  REQUIRE(origin.size() == 1);
  CHECK(origin[0].code.hint);
  CHECK(origin[0].code.not_before.empty());
}

TEST_CASE("the tables are checked, and a slip in one is found") {
  CHECK(diamonds().years.size() == 42);
  CHECK(rd_numbers().rows.size() == 82);
  CHECK(us_patents().rows.size() == 92);
  std::string wrong(embedded_table("marks-diamonds"));
  wrong.replace(wrong.find("year\t1\tG\t1863"), 13, "year\t1\tG\t1853");
  CHECK_THROWS_WITH(read_diamond_table(wrong), Catch::Contains("1853 twice"));
  std::string late(embedded_table("marks-diamonds"));
  late.replace(late.find("year\t2\tH\t1869"), 13, "year\t2\tH\t1868");
  CHECK_THROWS_WITH(read_diamond_table(late), Catch::Contains("1868 twice") || Catch::Contains("26 apart"));
  std::string patents(embedded_table("marks-us-patents"));
  patents.replace(patents.find("1884\t291016"), 11, "1884\t191016");
  CHECK_THROWS_WITH(read_number_table("marks-us-patents", patents), Catch::Contains("do not rise at 1884"));
}

// Costs by the table in docs/marks.md; the sums are worked by hand.
TEST_CASE("what a damaged letter costs") {
  CHECK(cost("WEDG[....]TH", "WEDGEWORTH") == Approx(6 * 0.05 + 4 * 0.3));
  CHECK(cost("WEDG[...]TH", "WEDGEWORTH") == Approx(5.2));
  CHECK(cost("WEDG[- - -]TH", "WEDGEWORTH") == Approx(0.9));
  CHECK(cost("BR0SELEY", "BROSELEY") == Approx(1.6 + 7 * 0.05));
  CHECK(cost("STAИTOИ", "STANTON") == Approx(0.35));
  CHECK(cost("STAṆTON", "STARTON") == Approx(2.6));
  CHECK(cost("STANTON", "STARTON") == Approx(5.3));
  CHECK(cost("[STAN]TON", "STANTON") == Approx(cost("[4]TON", "STANTON")));
  CHECK(cost("Café Müller", "CAFE MULLER") == Approx(0.5));
  CHECK(cost("SMITH AND COMPANY", "Smith & Co.") == Approx(8 * 0.05));
}

TEST_CASE("marks are ranked, and 'not in the list' is an answer") {
  ReferenceList list;
  for (const char* mark : {"STANTON", "STARTON", "PATENT 6571", "PATENT 5571", "BROSELEY WORKS", "ALLEY BROS",
                           "BAILEY BROS", "CORRANE & PELL / BURSLOW / ENGLAND", "TOOT TOWER"}) {
    list.add(mark);
  }
  list.make_ready();
  const auto first = [&](const Answer& answer) { return answer.found.front().mark; };
  CHECK(first(ask(list, "STANTON")) == 0);
  CHECK(ask(list, "STANTON").found.front().share > 0.99);
  CHECK(first(ask(list, "STAṆTON")) == 0);
  CHECK(first(ask(list, "PATENT 5S71")) == 3);
  const auto turned = ask(list, "NOTNATS");
  CHECK(first(turned) == 0);
  CHECK(turned.variants[turned.found.front().variant].backwards);
  CHECK(first(ask(list, "CORRANE & PELL")) == 7);
  CHECK(first(ask(list, "[---]ANE & P[..]L / BURSL[---]")) == 7);
  const auto stranger = ask(list, "QUIXWORTH VASES");
  CHECK(stranger.unlisted > 0.9);
  CHECK(ask(list, "Q[---]").too_little);
  double sum = turned.unlisted + turned.others;
  for (const auto& found : turned.found) sum += found.share;
  CHECK(sum == Approx(1));
}

// A list long enough for the quick search: it must find what comparing every mark finds.
TEST_CASE("the quick search finds the best of a long list") {
  std::mt19937 random(std::random_device{}());
  const auto word = [&](std::size_t letters) {
    std::string text;
    for (std::size_t i = 0; i < letters; ++i) text += static_cast<char>('A' + random() % 26);
    return text;
  };
  std::vector<std::string> marks;
  ReferenceList list;
  for (int i = 0; i < 5000; ++i) marks.push_back(word(6 + random() % 6) + " & " + word(5));
  for (const auto& mark : marks) list.add(mark);
  list.make_ready();
  for (int round = 0; round < 60; ++round) {
    const std::size_t truth = random() % marks.size();
    std::string reading = marks[truth];
    reading[random() % 5] = '+';
    reading[reading.size() - 1 - random() % 3] = '+';
    const auto answer = ask(list, reading);
    INFO(reading << " of " << marks[truth]);
    REQUIRE_FALSE(answer.found.empty());
    float best = 1000;
    for (const auto& mark : marks) best = std::min(best, cost(reading, mark));
    CHECK(answer.found.front().cost == Approx(best));
  }
}
