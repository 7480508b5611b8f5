// Words of labels: abbreviations, numerals, letters lost; and text made to hurt.
#include <catch2/catch.hpp>
#include <chrono>
#include <random>

#include "core/base/embedded.hpp"
#include "core/base/text.hpp"
#include "plugins/labels/numerals.hpp"
#include "plugins/labels/senses.hpp"
#include "plugins/labels/tokens.hpp"
#include "tests/labels/small_house.hpp"

using namespace lathbook;
using namespace lathbook::labels;
using test::box;

namespace {

std::string keys(const std::string& text) {
  std::vector<std::string> found;
  for (const LabelToken& token : tokens_of(text).tokens) found.push_back(token.key);
  return join(found, " ");
}

std::vector<int> values(const char* text) {
  const auto numeral = read_numeral(text);
  return numeral ? numeral->values : std::vector<int>{};
}

test::SmallHouse& house() {
  static test::SmallHouse built = [] {
    test::SmallHouse made;
    made.room("G1", made.ground, {{"Dining Room"}}, box(0, 0, 5, 5));
    made.room("G2", made.ground, {{"Library"}}, box(5, 0, 9, 5));
    made.room("U1", made.upper, {{"Chart Room"}}, box(0, 0, 5, 5));
    made.room("U2", made.upper, {{"Nursery"}}, box(5, 0, 9, 5));
    return made;
  }();
  return built;
}

std::string first(const LabelReading& reading) {
  return reading.candidates.empty() ? "" : reading.candidates.front().place.code;
}

}  // namespace

TEST_CASE("words: points, slashes, apostrophes and line ends") {
  CHECK(keys("N.E. rm 2nd flr") == "ne rm 2nd flr");
  CHECK(keys("N. E. rm") == "ne rm");
  CHECK(keys("north-east rm") == "northeast rm");
  CHECK(keys("CHART RM O/ OFF.") == "chart rm over off");
  CHECK(keys("Nurs. o/Dg.") == "nurs over dg");
  CHECK(keys("u/ Hall") == "under hall");
  CHECK(keys("Dining/Study") == "dining or study");
  CHECK(keys("Kitchen / No. 4") == "kitchen no 4");
  CHECK(keys("Bd.Rm.No.4") == "bd rm no 4");
  CHECK(keys("L.H. W.2") == "lh w 2");
  CHECK(keys("P'lor") == "plor");
  CHECK(keys("Dr’g Rm") == "drg rm");
  CHECK(keys("Bath & Linen") == "bath and linen");
  CHECK(keys("#12") == "no 12");
  CHECK(keys("Ch(amber) 3") == "ch 3");
  CHECK(keys("[---]RANE") == "*rane");
  CHECK(keys("L[..]rary") == "l*rary");
  CHECK(keys("L[2]rary") == "l??rary");
  CHECK(tokens_of("A / B").tokens.at(1).line_start);
}

TEST_CASE("words: the tables keep their own rules") {
  const auto& words = Vocabulary::standard();
  CHECK(words.meanings("dr").size() == 3);
  CHECK(words.meanings("br").size() == 4);
  CHECK(words.meanings("nosuchword").empty());
  CHECK_FALSE(words.same_names().empty());
  for (const SameName& same : words.same_names()) {
    INFO(same.a << " " << same.b);
    CHECK(same.a != same.b);
    CHECK_FALSE(same.source.empty());
    CHECK((!same.from || !same.to || *same.from < *same.to));
  }
  // Every row but those of kinds has as many columns as the header says, and a source.
  for (const std::string& line : split(embedded_table("label-words"), '\n')) {
    if (line.empty() || line.front() == '#') continue;
    CHECK(split(line, '\t').size() == 5);
    CHECK_FALSE(split(line, '\t').back().empty());
  }
  CHECK(join(words.canonical("Bath Room"), " ") == "bath room");
  CHECK(join(words.canonical("Bedroom"), " ") == "bedroom");
  CHECK(join(words.canonical("Bed Rm"), " ") == "bedroom");
  CHECK(join(words.canonical("Maid's Room"), " ") == "maids room");
  CHECK(join(words.canonical("Parlor"), " ") == "parlour");
  CHECK(join(words.canonical("N.E. Chamber"), " ") == "north-east chamber");
}

// Strokes added in any order, IX and XI both 11: dbrg.org.uk, pages on carpenters' marks; trp.dundee.ac.uk,
// glossary.
TEST_CASE("words: assembly numerals are added up") {
  CHECK(values("IIII") == std::vector<int>{4});
  CHECK(values("VIIII") == std::vector<int>{9});
  CHECK(values("IX") == std::vector<int>{11, 9});
  CHECK(values("XI") == std::vector<int>{11});
  CHECK(values("IV") == std::vector<int>{6, 4});
  CHECK(values("VI") == std::vector<int>{6});
  CHECK(values("XVIII") == std::vector<int>{18});
  CHECK(values("xx") == std::vector<int>{20});
  for (const char* none : {"", "VIL", "4", "IIIIIIIIIIIIIIIIIIIIIIIII", "VVV", "I I"}) {
    INFO(none);
    CHECK(values(none).empty());
  }
}

TEST_CASE("words: a numeral names no room, and its tags are kept") {
  auto reading = house().read("VIIII");
  CHECK(reading.verdict == LabelVerdict::assembly_number);
  CHECK(reading.numerals.at(0).values == std::vector<int>{9});
  reading = house().read("IX");
  CHECK(reading.words.find("11 or 9") != std::string::npos);
  reading = house().read("VII' tag L");
  REQUIRE(reading.verdict == LabelVerdict::assembly_number);
  CHECK(reading.numerals.at(0).tags == "' tag L");
}

TEST_CASE("words: what is lost may be any letter, what is short its beginning") {
  CHECK(fits_pattern("*rary", "library"));
  CHECK(fits_pattern("l??rary", "library"));
  CHECK_FALSE(fits_pattern("l?rary", "library"));
  CHECK_FALSE(fits_pattern("*y", "library"));  // one letter is no evidence
  CHECK(first(house().read("[---]rary")) == "G2");
  CHECK(first(house().read("Lib. window")) == "G2");
  CHECK(first(house().read("Nrsry")) == "U2");
  CHECK(first(house().read("C.R. shelf")) == "U1");
}

TEST_CASE("words: one word with two senses is left open") {
  const auto reading = house().read("Nursery W. 2");
  CHECK(first(reading) == "U2");
  const std::string open = join(reading.left_open, "\n");
  CHECK(open.find("“W.” may be west or window") != std::string::npos);
  CHECK(open.find("“2” may be the number of the piece or of") != std::string::npos);
}

TEST_CASE("words: text made to hurt is refused or read in bounded time") {
  const auto started = std::chrono::steady_clock::now();
  const auto refused = [&](const std::string& text) { CHECK_THROWS_AS(house().read(text), Error); };
  const auto harmless = [&](const std::string& text) {
    try {
      const auto reading = house().read(text);
      CHECK_FALSE(reading.words.empty());
    } catch (const Error& error) {
      CHECK(std::string(error.what()).size() < 400);
    }
  };
  refused(std::string(10'000'000, 'A'));
  refused(std::string(10'000, '['));
  refused(std::string(5'000, '(') + std::string(5'000, ')'));
  refused("CHART [RM");
  refused("CHART RM]");
  refused("CHART [(RM])");
  refused("CHART \xff\xfe RM");
  refused("\xc0\xaf");
  std::string flood = "a";
  for (int i = 0; i < 2000; ++i) flood += "\xcc\x81";
  harmless(flood);
  harmless(
      "\xe2\x80\xae"
      "MR TRAHC");                         // right-to-left override
  harmless("\xd7\x97\xd7\x93\xd7\xa8 2");  // Hebrew
  std::string words;
  for (int i = 0; i < 800; ++i) words += "D.R. ";
  harmless(words);
  words.clear();
  for (int i = 0; i < 30; ++i) words += "or over B.R. ";
  harmless(words);
  for (const char* text :
       {"/", "//", "o/", "over over over", "or", "No.", "2nd", "......", "[---]", "W", "o/ o/ o/ N.",
        "99999999999999999999 fl", "0th fl.", "Chamber over", "R R R R R R R R R R R R"})
    harmless(text);
  const auto seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count();
  CHECK(seconds < 20);
}

TEST_CASE("words: any heap of words gives shares that add up, or one sentence") {
  const unsigned seed = std::random_device{}();
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const std::vector<std::string> bits = {
      "N.",    "E.",   "rm",   "2nd", "fl", "o/",      "over",  "/",       " / ",   "or",     "D.R.",  "B.R.",
      "Ch.",   "Lib.", "[--]", "[2]", "W.", "2",       "No.",   "L.H.",    "chart", "dining", "under", "next",
      "front", "left", "IX",   "(?)", "&",  "fragile", "attic", "nursery", ".",     "'"};
  for (int i = 0; i < 1000; ++i) {
    std::string text;
    const auto count = std::uniform_int_distribution<int>(1, 9)(random);
    for (int word = 0; word < count; ++word)
      text += bits[std::uniform_int_distribution<std::size_t>(0, bits.size() - 1)(random)] +
              (random() % 4 == 0 ? "" : " ");
    INFO(text);
    try {
      const auto reading = house().read(text);
      double shares = reading.none_share;
      for (const auto& candidate : reading.candidates) {
        REQUIRE(candidate.score >= 0);
        REQUIRE(candidate.score <= 1);
        REQUIRE_FALSE(candidate.factors.empty());
        for (const auto& factor : candidate.factors) REQUIRE_FALSE(factor.words.empty());
        shares += candidate.share;
      }
      REQUIRE_FALSE(reading.words.empty());
      REQUIRE(shares <= 1.0001);
    } catch (const Error& error) {
      REQUIRE_FALSE(std::string(error.what()).empty());
    }
  }
}

TEST_CASE("words: what the text holds never steers the terminal") {
  const auto reading = house().read(
      "\xe2\x80\xae"
      "Nursery \xe2\x80\x8f"
      "Bla\xe2\x80\xaeh 2");
  std::string all = reading.words + reading.text + join(reading.left_open, " ") + join(reading.unknown, " ");
  for (const auto& word : reading.taken) all += word.written;
  CHECK(safe_display(all) == all);
}
