// Photographs that do not show a thing, one of several rooms, sources that fall as a whole: with the real
// program, in the words a volunteer reads.
#include <catch2/catch.hpp>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
using Catch::Contains;

namespace {

// In one line, so that it does not matter where lines were broken.
std::string flat(const std::string& text) {
  std::string line;
  for (const char c : text)
    if (c != ' ' && c != '\n')
      line += c;
    else if (!line.empty() && line.back() != ' ')
      line += ' ';
  return line;
}

struct Photographed : House {
  Photographed() {
    begin();
    take_in(archive, usual_sheets());
    take_in(archive, {{"sources.csv",
                       "code,source-type,title,source-date,class,confidence\n"
                       "S-2,photograph,Dinner,1911,documentary,certain\n"}});
    take_in(archive, {{"rooms.csv",
                       "code,name,place-type,within,source,class,confidence\n"
                       "202,Nursery,room,B,S-1,physical,certain\n"}});
    tell("N-1", "standing-by", "1900");
    tell("N-1", "seen-on", "2026-05-01");
  }
  std::string read(const std::vector<std::string>& arguments) const { return flat(done(arguments)); }
  void tell(const std::string& subject, const std::string& property, const std::string& value,
            const std::vector<std::string>& more = {}) const {
    say(archive, subject, property, value, more);
  }
};

}  // namespace

TEST_CASE("a photograph in which something is hidden does not prove that it was absent") {
  const Photographed house;
  house.tell("N-1", "absent-from", "S-2",
             {"--with", "spot=north wall", "--with", "could-be-hidden=yes", "--with",
              "ground=a curtain hangs there"});
  const std::string why = house.read({"why", "N-1"});
  CHECK_THAT(why, Contains("in place: not after 31 December 1900"));
  CHECK_THAT(why, !Contains("1911"));
  CHECK_THAT(house.read({"history", "201"}), Contains("nothing follows, as something may have hidden it"));
  CHECK_THAT(house.read({"history", "201"}), !Contains("cannot all hold"));
}

TEST_CASE("what alone may have hidden a thing that was there must have stood before it") {
  const Photographed house;
  house.tell(
      "N-1", "absent-from", "S-2",
      {"--with", "spot=north wall", "--with", "could-be-hidden=only by what is recorded in front of it",
       "--with", "ground=the wall is in full light"});
  house.tell("N-3", "in-front-of", "N-1");
  const std::string why = house.read({"why", "N-3", "begins"});
  CHECK_THAT(why, Contains("not after 31 December 1911"));
  CHECK_THAT(why, Contains("Without this statement nothing would say how late."));
  CHECK_THAT(house.read({"why", "N-1"}), Contains("Of three cases one is left: it was behind"));
  CHECK_THAT(house.read({"history", "201"}), Contains("Ruled out: it was gone by then, since"));
  const auto wrong =
      house.run({"say", "N-2", "absent-from", "S-2", "--source", "S-1", "--class", "physical", "--confidence",
                 "certain", "--with", "spot=x", "--with", "could-be-hidden=perhaps"});
  CHECK(wrong.code == 4);
  CHECK_THAT(wrong.err, Contains("only by what is recorded in front of it"));
}

TEST_CASE("one of two rooms: each has the thing perhaps, until one is ruled out") {
  const Photographed house;
  house.tell("N-3", "perhaps-in", "201", {"--with", "put-in=1888"});
  house.tell("N-3", "perhaps-in", "202", {"--with", "put-in=1924"});
  const std::string why = house.read({"why", "N-3"});
  CHECK_THAT(why, Contains("not from 1 January 1889 to 31 December 1923"));
  CHECK_THAT(house.read({"history", "202"}),
             Contains("Two cases are open: it was in the Chart Room (201); it was in "));
  house.tell("N-3", "standing-by", "1910");
  CHECK_THAT(house.read({"history", "202"}), !Contains("N-3"));
  CHECK_THAT(house.read({"why", "N-3", "--json"}), Contains("in none"));
}

TEST_CASE("a source that stands or falls as a whole is left out as a whole") {
  const Photographed house;
  for (const std::string thing : {"N-1", "N-2", "N-3"})
    house.done({"say", thing, "standing-by", "1890", "--source", "S-2", "--class", "documentary",
                "--confidence", "certain"});
  house.tell("N-1", "installed", "1895");
  house.tell("N-2", "installed", "1920");
  CHECK_THAT(house.read({"history", "201"}), Contains("There are 2 equally good ways out"));
  CHECK_THAT(house.read({"why", "N-3", "begins"}), Contains("not after 31 December 1890"));
  house.tell("S-2", "falls-together", "yes", {"--with", "reason=it may be of the house next door"});
  const std::string history = house.read({"history", "201"});
  CHECK_THAT(history, Contains("Left out with it, since it rests on the same source"));
  CHECK_THAT(history, !Contains("equally good ways out"));
  CHECK_THAT(house.read({"why", "N-3", "begins"}), Contains("nothing says how late"));
}
