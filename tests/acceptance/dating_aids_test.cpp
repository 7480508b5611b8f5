// Dating aids, contacts, what-ifs and suggested works with the real program, as a volunteer meets them.
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
using Catch::Contains;

namespace {

struct Begun : House {
  Begun() {
    begin();
    take_in(archive, usual_sheets());
  }
};

}  // namespace

TEST_CASE("an aid dates the piece it was read on, and the whole only through a judgement") {
  const Begun house;
  CHECK_THAT(house.done({"aids", "gimlet"}), Contains("first possible 20 August 1846") && Contains("4,704"));
  CHECK(member(house.done({"aids", "gimlet", "--json"}), "id") == "screw-gimlet");

  const auto whole = house.run({"date-by", "tile-dust-pressed", "N-1", "--by", "ME"});
  CHECK(whole.code == 4);
  CHECK(is_one_sentence(whole.err));
  CHECK_THAT(whole.err, Contains("one piece does not date the whole"));
  const auto nobody = house.run({"date-by", "tile-dust-pressed", "N-1.01"});
  CHECK(nobody.code == 4);
  CHECK_THAT(nobody.err, Contains("who read it on the piece"));
  const auto no_year = house.run({"date-by", "nail-wrought", "N-1.01", "--by", "ME"});
  CHECK_THAT(no_year.err, Contains("gives no first year"));
  CHECK_THAT(house.run({"date-by", "screw-gimlett", "N-1.01", "--by", "ME"}).err,
             Contains("did you mean “screw-gimlet”") || Contains("did you mean screw-gimlet"));

  house.done({"date-by", "tile-dust-pressed", "N-1.01", "--by", "ME"});
  const std::string why = house.done({"why", "N-1.01", "made"});
  CHECK_THAT(why, Contains("not before 1 January 1840 (probable)") && Contains("comparative") &&
                      Contains("row tile-dust-pressed"));
  CHECK_THAT(house.done({"why", "N-1", "begins"}), Contains("nothing says how early"));
  house.say(house.archive, "N-1.01", "original-to", "N-1", {"--with", "grounds=one bed"});
  CHECK_THAT(house.done({"why", "N-1", "begins"}), Contains("not before 1 January 1840"));
  // The table becomes a source once.
  house.done({"date-by", "tile-dust-pressed", "N-1", "--by", "ME", "--whole", "set in one bed in one go"});
  CHECK_THAT(house.done({"show", "DATING-AIDS"}), Contains("Dating aids"));
}

TEST_CASE("panes give a mean year and never an entry") {
  const Begun house;
  CHECK_THAT(house.done({"aids", "--panes", "1.8"}), Contains("about 1864") && Contains("say little"));
  CHECK(house.run({"aids", "--panes", "180"}).code == 4);
}

TEST_CASE("a relation without its contact is asked for in one sentence") {
  const Begun house;
  const auto ran = house.run(
      {"say", "N-1", "covers", "N-2", "--source", "S-1", "--class", "physical", "--confidence", "certain"});
  CHECK(ran.code == 4);
  CHECK_THAT(ran.err, Contains("Which contact between them was read") && Contains("laps over") &&
                          Contains("--with contact="));
  CHECK(is_one_sentence(ran.err));
}

TEST_CASE("a history as if a statement had not been made says so, and changes nothing") {
  const Begun house;
  const std::string doubted = house.say(house.archive, "N-1", "installed", "1926");
  const std::string before = house.fingerprint(house.archive);
  CHECK_THAT(house.done({"history", "201"}), Contains("was laid in 1926") || Contains("in 1926"));
  const std::string without = house.done({"history", "201", "--without", doubted});
  CHECK_THAT(without, Contains("As if it had not been said") && Contains(doubted));
  CHECK_THAT(without, !Contains("put in in 1926") && !Contains("was put in: 1926"));
  CHECK_THAT(house.done({"why", "N-1", "begins", "--without", doubted}), Contains("nothing says how early"));
  CHECK(house.run({"history", "201", "--without", "ffffffff-1"}).code == 3);
  CHECK(house.fingerprint(house.archive) == before);
}

TEST_CASE("suggested works are entered with all their things at a person's word only") {
  const Begun house;
  for (const std::string code : {"N-1", "N-2", "N-3"}) house.say(house.archive, code, "installed", "1904");
  const std::string listed = house.done({"proposals", "timeline", "201"});
  CHECK_THAT(listed, Contains("suggested by shared dates only"));
  CHECK(std::count(listed.begin(), listed.end(), '\n') == 1);
  house.done({"accept", "timeline", "201", listed.substr(0, 8)});
  CHECK_THAT(house.done({"history", "201"}), Contains("uggested works, 1904"));
  CHECK_THAT(house.done({"show", "N-2"}), Contains("Suggested works, 1904"));
  CHECK_THAT(house.done({"proposals", "timeline", "201"}), Contains("nothing is proposed"));
}
