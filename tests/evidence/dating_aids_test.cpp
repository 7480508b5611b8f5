// The table of dating aids: its rules, and figures of it that other published tables bear out.
#include "core/evidence/dating_aids.hpp"

#include <catch2/catch.hpp>
#include <map>

#include "core/base/edtf.hpp"
#include "core/base/error.hpp"
#include "core/base/text.hpp"

using namespace lathbook;

namespace {

// The heading, then one row.
std::string table(const std::string& row) {
  return "id\tgroup\ton\tfeature\tfirst\tfrom\tto\tregion\tweight\tsource\tnote\n" + row;
}

std::string refusal(const std::string& row) {
  try {
    read_dating_aids(table(row));
  } catch (const Error& error) {
    return error.what();
  }
  return {};
}

}  // namespace

TEST_CASE("every row has a source, a weight and dates in order") {
  const auto& aids = dating_aids();
  CHECK(aids.size() >= 85);
  std::map<std::string, int> groups;
  for (const DatingAid& aid : aids) {
    INFO(aid.id);
    ++groups[aid.group];
    CHECK_FALSE(aid.source.empty());
    CHECK(aid.feature.find("  ") == std::string::npos);
    if (aid.weight == AidWeight::memory) CHECK(aid.source.find("from memory") != std::string::npos);
    if (aid.source.find("from memory") != std::string::npos) CHECK(aid.weight != AidWeight::firm);
    CHECK(aid.confidence() != Confidence::certain);
    // What gives no first year and no span is there for the warning alone.
    if (aid.first.empty() && aid.from.empty() && aid.to.empty()) CHECK_FALSE(aid.note.empty());
  }
  for (const auto& [group, rows] : groups) {
    INFO(group);
    CHECK(rows >= 2);
  }
}

// First number of each year of US patents, as printed by the Midwest Tool Collectors Association (mwtca.org,
// first patents): 1846 begins at 4,348 and 1847 at 4,914; 1894 at 511,744 and 1895 at 531,619.
TEST_CASE("patents named in the table are of the years given") {
  const auto year = [](const char* id) { return Edtf::try_parse(dating_aid(id)->first)->earliest(); };
  CHECK((4348 <= 4704 && 4704 < 4914));
  CHECK(*year("screw-gimlet") == days_from_civil(1846, 8, 20));
  CHECK((511744 <= 520123 && 520123 < 531619));
  CHECK(*year("board-sackett") == days_from_civil(1894, 5, 22));
  // British registered designs: the series of 'Rd No.' began on 1 January 1884, when the diamond ended.
  CHECK(*year("mark-rd-no") == days_from_civil(1884, 1, 1));
  CHECK(dating_aid("mark-diamond")->to == "1883");
}

TEST_CASE("a broken row is refused in one sentence") {
  CHECK(refusal("a\tnails\tfixing\tnail\t1800\t\t\t\tfair\tbook\t").empty());
  CHECK_THAT(refusal("a\tnails\tfixing\tnail\t1800\t\t\t\tfair\tbook"), Catch::Contains("eleven columns"));
  CHECK_THAT(refusal("a\tnails\tfixing\tnail\t1800\t\t\t\tfair\t\t"), Catch::Contains("no source"));
  CHECK_THAT(refusal("a\tnails\twall\tnail\t1800\t\t\t\tfair\tbook\t"), Catch::Contains("none of its words"));
  CHECK_THAT(refusal("a\tnails\tfixing\tnail\t1800s\t\t\t\tfair\tbook\t"), Catch::Contains("is no date"));
  CHECK_THAT(refusal("a\tnails\tfixing\tnail\t1850\t1840\t\t\tfair\tbook\t"),
             Catch::Contains("not in order"));
  CHECK_THAT(refusal("a\tnails\tfixing\tnail\t1800\t\t\t\tfair\tbook\t\na\tnails\tfixing\tnail\t1800\t\t\t\tf"
                     "air\tbook\t"),
             Catch::Contains("given twice"));
}

TEST_CASE("aids are found by words in any order and case") {
  REQUIRE(find_aids({"GIMLET"}).size() == 1);
  CHECK(find_aids({"GIMLET"}).front()->id == "screw-gimlet");
  CHECK(find_aids({"screw", "nothing of the kind"}).empty());
  CHECK(find_aids({}).size() == dating_aids().size());
  CHECK(dating_aid("screw-gimlet"));
  CHECK_FALSE(dating_aid("screw"));
}

// The line of R. W. Moir, 1987 (formula from memory); values reckoned by hand from it.
TEST_CASE("the line of window panes") {
  CHECK(moir_year(1.0) == Approx(1796.92));
  CHECK(moir_year(1.5) == Approx(1839.03));
  CHECK(moir_year(1.8) == Approx(1864.296));
  CHECK(moir_year(2.4) == Approx(1914.828));
}
