// Correcting, taking back and the first entries of a new archive, through the program.
#include <catch2/catch.hpp>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
using Catch::Contains;

namespace {

struct Fresh : House {
  Fresh() { begin(); }
  std::string statement(const std::vector<std::string>& arguments) const {
    const std::string told = done(arguments);
    return told.substr(0, told.find(' '));
  }
  std::string note(const std::string& words) const {
    return statement(
        {"say", "N-1", "note", words, "--source", "S-1", "--class", "physical", "--confidence", "certain"});
  }
  void refused(const std::vector<std::string>& arguments, const std::string& words) const {
    const auto ran = run(arguments);
    INFO(ran.err << ran.out);
    CHECK(ran.code != 0);
    CHECK(is_one_sentence(ran.err));
    CHECK_THAT(ran.err, Contains(words));
  }
};

}  // namespace

TEST_CASE("the first entries that the program advises are taken") {
  const Fresh house;
  CHECK_THAT(house.done({"new", "agent", "ME", "--name", "A. Person"}), Contains("made agent ME"));
  CHECK_THAT(house.done({"new", "element", "N-1", "--name", "Front room hearth"}),
             Contains("made element N-1"));
  const auto shown = house.done({"show", "N-1"});
  CHECK_THAT(shown, Contains("Front room hearth") && Contains("Work of "));
  house.refused({"say", "N-1", "note", "x"},
                "note needs a source to be cited, a class of evidence (physical, documentary, oral or "
                "comparative), a confidence");
}

TEST_CASE("who enters is told wrong in a sentence that names the setting") {
  Fresh house;
  house.refused({"--recorder", "ME", "new", "agent", "JO"}, "whom --recorder names");
  house.recorder = "ME";
  house.refused({"new", "agent", "JO"}, "whom LATHBOOK_RECORDER names");
}

TEST_CASE("what is taken in from sheets names who took it in") {
  Fresh house;
  house.done({"new", "agent", "ME", "--name", "A. Person"});
  write_file(house.folder / "sheets" / "elements.csv", "code\nN-7\n");
  house.recorder = "ME";
  house.done({"take-in", (house.folder / "sheets").string()});
  CHECK_THAT(house.done({"show", "N-7"}), Contains("by ME") || Contains("by A. Person"));
}

TEST_CASE("a note corrected twice says its last word alone, and what is taken back is refused twice") {
  const Fresh house;
  house.done({"new", "source", "S-1"});
  house.done({"new", "element", "N-1"});
  const auto first = house.note("three mm joint");
  const auto second = house.statement({"amend", first, "four mm joint", "--why", "slip"});
  const auto third = house.statement({"amend", second, "five mm joint", "--why", "measured"});
  const auto shown = house.done({"show", "N-1"});
  CHECK_THAT(shown, Contains("five mm") && !Contains("three mm") && !Contains("four mm"));
  house.refused({"amend", first, "six mm joint", "--why", "again"}, "replaced by " + second);
  house.refused({"withdraw", second, "--why", "again"}, "replaced by " + third);
  house.done({"withdraw", third, "--why", "not measured"});
  CHECK_THAT(house.done({"show", "N-1"}), Contains("four mm") && !Contains("three mm"));
  house.refused({"withdraw", third, "--why", "again"}, "withdrawn by ");
}

TEST_CASE("a whole record is taken back when nothing leans on it, never by half") {
  const Fresh house;
  house.done({"new", "source", "S-1"});
  house.done({"new", "element", "N-1"});
  house.done({"new", "element", "N-2"});
  house.done(
      {"say", "N-2", "part-of", "N-1", "--source", "S-1", "--class", "physical", "--confidence", "certain"});
  house.refused({"withdraw", "N-1", "--why", "a mistake"}, "N-1 is named by ");
  house.done({"withdraw", "N-2", "--why", "a mistake"});
  CHECK(house.run({"show", "N-2"}).code == 3);
  house.done({"withdraw", "N-1", "--why", "a mistake"});
  CHECK(house.run({"show", "N-1"}).code == 3);
  CHECK(house.run({"check"}).code == 0);
}

TEST_CASE("codes that differ by capitals alone are refused") {
  const Fresh house;
  house.done({"new", "element", "H1-30"});
  house.refused({"new", "element", "h1-30"}, "differs from “H1-30” by capitals alone");
}

TEST_CASE("what was done or dated on a day to come is refused") {
  const Fresh house;
  house.done({"new", "source", "S-1"});
  house.refused({"say", "S-1", "source-date", "30 November 2999"}, "lies ahead of today");
  house.done({"new", "element", "N-1"});
  house.refused({"say", "N-1", "note", "x", "--source", "S-1", "--class", "physical", "--confidence",
                 "certain", "--on", "1 December 2999"},
                "lies ahead of today");
}

TEST_CASE("what rests on an interview without consent says at once that it is not shown") {
  const Fresh house;
  house.done({"new", "source", "I-1"});
  house.done({"say", "I-1", "source-type", "interview"});
  house.done({"new", "element", "N-1"});
  const auto told = house.done({"say", "N-1", "note", "laid by my father", "--source", "I-1", "--class",
                                "oral", "--confidence", "possible"});
  CHECK_THAT(told, Contains("not shown in public") && Contains("--with-private shows it"));
  CHECK_THAT(house.done({"show", "N-1"}), !Contains("my father"));
  house.done({"new", "source", "S-1"});
  CHECK_THAT(house.note("a plain word"), !Contains("not shown"));
}
