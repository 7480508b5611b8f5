// Lists of marks taken in, a mark read against them, a proposal accepted: with the real program.
#include <catch2/catch.hpp>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
using Catch::Contains;

namespace {

constexpr const char* kCsv =
    "entry,maker,mark,place,role,from,to\n"
    "1,Corrane & Pell,CORRANE & PELL / BURSLOW,Burslow,blank maker,1871,1904\n"
    "2,Marrin & Tope,MARRIN & TOPE / BARSLOW,Barslow,blank maker,1880,1911\n";
constexpr const char* kXml =
    "<marks><mark entry=\"1\"><maker>Corrane &amp; Pell</maker><form>CORRANE &amp; PELL / "
    "BURSLOW</form></mark>"
    "<mark entry=\"2\" maker=\"Marrin &amp; Tope\" form=\"MARRIN &amp; TOPE / BARSLOW\"/></marks>";

struct Marked : House {
  Marked() {
    begin();
    take_in(archive, usual_sheets());
    done({"mark", "N-1.01", "[---]ANE & P[..]L / BURSL[---]", "--source", "S-1", "--by", "ME"});
  }
  std::string list(const std::string& name, const std::string& text) {
    write_file(folder / name, text);
    return (folder / name).string();
  }
};

}  // namespace

TEST_CASE("a list from CSV and the same from XML find the same maker") {
  Marked house;
  CHECK_THAT(house.done({"mark-lists"}), Contains("no list has been taken in"));
  CHECK_THAT(house.done({"take-in-marks", house.list("a.csv", kCsv), "--code", "ML-1", "--title",
                         "Invented list", "--rights", "https://creativecommons.org/publicdomain/zero/1.0/"}),
             Contains("took in 2 marks as ML-1"));
  CHECK_THAT(house.done({"take-in-marks", house.list("b.xml", kXml), "--code", "ML-2"}),
             Contains("took in 2 marks as ML-2") && Contains("rights are not told"));
  CHECK_THAT(house.done({"mark-lists"}), Contains("Invented list") && Contains("ML-2"));
  const auto by = [&](const std::string& list) {
    return house.done({"read-mark", "--text", "[---]ANE & P[..]L / BURSL[---]", "--list", list});
  };
  CHECK_THAT(by("ML-1"), Contains("1. CORRANE & PELL") && Contains("Corrane & Pell"));
  CHECK_THAT(by("ML-2"), Contains("1. CORRANE & PELL") && Contains("Corrane & Pell"));
  CHECK_THAT(house.done({"read-mark", "--text", "ZUYDERKAMP / OXFORT"}), Contains("not in the list"));
}

TEST_CASE("what a mark proposes is entered only at a person's word, and cites the mark") {
  Marked house;
  house.done({"take-in-marks", house.list("a.csv", kCsv), "--code", "ML-1"});
  const auto before = house.fingerprint(house.archive);
  const auto json = house.done({"proposals", "marks", "M-1", "--json"});
  CHECK(house.fingerprint(house.archive) == before);
  const auto key = member(json, "key");
  REQUIRE(key.size() == 8);
  house.done({"accept", "marks", "M-1", key, "--by", "ME"});
  CHECK(house.fingerprint(house.archive) != before);
  CHECK(house.run({"check"}).code == 0);
  const auto again = house.run({"accept", "marks", "M-1", "00000000"});
  CHECK(again.code == 3);
  CHECK(is_one_sentence(again.err));
}

TEST_CASE("a broken list is refused with its line and nothing is taken in") {
  Marked house;
  const auto before = house.fingerprint(house.archive);
  for (const char* text :
       {"maker,place\nCorrane,Burslow\n", "maker,mark\n,CORRANE\n", "<marks><mark><maker>x</maker>",
        "<marks><tile/></marks>", "<!DOCTYPE m [<!ENTITY a 'b'>]><marks/>", "maker,mark\n\xff,X\n"}) {
    const auto ran = house.run({"take-in-marks", house.list("bad", text)});
    INFO(text << ran.err);
    CHECK(ran.code == 4);
    CHECK(is_one_sentence(ran.err));
  }
  CHECK(house.fingerprint(house.archive) == before);
}

TEST_CASE("a mark without a reading is refused before anything is entered") {
  Marked house;
  const auto before = house.fingerprint(house.archive);
  const auto ran = house.run({"mark", "N-1.01", "", "--source", "S-1", "--by", "ME"});
  CHECK(ran.code != 0);
  CHECK_THAT(ran.err, Contains("a mark needs its reading"));
  CHECK(house.fingerprint(house.archive) == before);
}

TEST_CASE("a new code follows the highest one, written like those before it") {
  Marked house;
  house.done({"mark", "N-1.01", "AB", "--code", "M-08", "--source", "S-1", "--by", "ME"});
  CHECK_THAT(house.done({"mark", "N-1.01", "CD", "--source", "S-1", "--by", "ME"}),
             Contains("recorded mark M-09"));
  CHECK_THAT(house.done({"mark", "N-1.01", "EF", "--source", "S-1", "--by", "ME"}),
             Contains("recorded mark M-10"));
}

TEST_CASE("a mark entered twice, one of a day to come, and a making that lies ahead are refused") {
  Marked house;
  house.done({"mark", "N-1.01", "AB", "--source", "S-1", "--by", "ME"});
  const auto refused = [&](const std::vector<std::string>& arguments, const std::string& words) {
    const auto ran = house.run(arguments);
    CHECK(ran.code == 4);
    CHECK_THAT(ran.err, Contains(words));
    CHECK(is_one_sentence(ran.err));
  };
  refused({"mark", "N-1.01", "AB", "--source", "S-1", "--by", "ME"}, "reads the same");
  refused({"mark", "N-1.01", "CD", "--source", "S-1", "--by", "ME", "--on", "2090-01-01"},
          "say with --on the day on which it was done or said");
  refused({"say", "N-1.01", "made-not-before", "2090", "--source", "S-1", "--class", "physical",
           "--confidence", "certain"},
          "lies ahead of today");
  CHECK_THAT(house.done({"mark", "N-1.01", "--number", "Rd 101774", "--source", "S-1", "--by", "ME"}),
             Contains("Rd 101774   ("));
}
