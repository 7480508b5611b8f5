// The labels of the invented house, read by the real program: each as archive-sample/README.md and the
// sample's own links have it, with its reasons.
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/support/support.hpp"

using namespace lathbook;

namespace {

const std::filesystem::path kSample = std::filesystem::path(LATHBOOK_SOURCE_DIR) / "archive-sample";

// Made once, copied for tests that write.
class Fairlead {
public:
  Fairlead() {
    done({"begin", (folder_ / "house").string(), "--name", "The Fairlead, Port Ellery"});
    done({"take-in", (kSample / "sheets").string(), "--media", (kSample / "media").string()});
  }
  test::Ran run(std::vector<std::string> arguments) const {
    arguments.insert(arguments.begin(), test::program());
    return test::run(arguments,
                     {"LATHBOOK_ARCHIVE=" + (folder_ / "house").string(), "LATHBOOK_NOW=2025-02-03T09:00:00Z",
                      "XDG_STATE_HOME=" + (folder_ / "state").string()});
  }
  std::string done(const std::vector<std::string>& arguments) const {
    const auto ran = run(arguments);
    INFO(ran.err);
    REQUIRE(ran.code == 0);
    return ran.out;
  }

private:
  test::TempFolder folder_;
};

const Fairlead& fairlead() {
  static const Fairlead made;
  return made;
}

// Another, for tests that write.
const Fairlead& written_in() {
  static const Fairlead made;
  return made;
}

// Words only: line breaks and indents do not count.
std::string flat(const std::string& text) {
  std::string words;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n';
    if (!blank || (!words.empty() && words.back() != ' ')) words += blank ? ' ' : c;
  }
  return words;
}

void says(const std::string& answer, std::initializer_list<const char*> parts) {
  const std::string words = flat(answer);
  for (const char* part : parts) {
    INFO(answer);
    INFO("wanted: " << part);
    CHECK(words.find(part) != std::string::npos);
  }
}

}  // namespace

TEST_CASE("fairlead: the chalked back-plate is for the Chart Room, over the Office") {
  says(fairlead().done({"where-to", "L-01"}),
       {"It means 202 Chart Room.", "“CHART RM” is the name “Chart Room” (on a plan, from 1888)",
        "[S-03, sheet 3]", "“OFF.” is the name “Office”", "it lies over 102 Office: 24.3 m² in common"});
}

TEST_CASE("fairlead: the first casing is for the North Chamber; W. and 2 stay open") {
  says(fairlead().done({"where-to", "E-203.06"}),
       {"It means 203 North Chamber (also Back Bedroom).", "(on a plan, from 1888)",
        "“W.” may be west or window", "“2” may be the number of the piece or of the window",
        "which of the room's 2 windows"});
}

TEST_CASE("fairlead: the second casing is for the Nursery, over the Dining Room") {
  says(fairlead().done({"where-to", "L-03"}),
       {"It means 204 Nursery", "23.9 m² in common", "78 %", "which of the room's 2 windows"});
}

TEST_CASE("fairlead: the crate board is no room, names an owner and a town") {
  says(fairlead().done({"where-to", "L-04"}),
       {"It names no room of this house", "“MERROW” is like the name of A-01 Tobias Merrow", "Port Ellery",
        "It says where a case was sent, not where this piece of it belongs"});
  says(fairlead().done({"where-to", "L-12"}), {"“PELL” is like the name of A-06", "where a case was sent"});
  const auto refused = fairlead().run({"link", "E-H.12", "302", "--label", "L-04"});
  CHECK(refused.code == 4);
  CHECK(refused.err.find("not taken for a place") != std::string::npos);
  says(fairlead().done({"proposals", "labels", "L-04"}), {"nothing is proposed"});
}

TEST_CASE("fairlead: initials, a storey by two counts, numerals") {
  says(fairlead().done({"where-to", "L-05"}), {"It means 202 Chart Room.", "Part: shelf"});
  says(fairlead().done({"where-to", "L-06"}),
       {"It means 202 Chart Room.", "initials of a name in this house"});
  says(fairlead().done({"where-to", "L-07"}), {"It says a storey and no room", "ST-1", "ST-A",
                                               "how the writer counted storeys", "storey-convention us"});
  says(fairlead().done({"where-to", "L-07", "--storeys", "uk"}), {"It says a storey", "ST-A"});
  says(fairlead().done({"where-to", "L-08"}), {"VIIII is 9"});
  says(fairlead().done({"where-to", "L-09"}), {"IX is 11 or 9"});
  says(fairlead().done({"where-to", "L-10"}), {"105 Dining Room"});
  says(fairlead().done({"where-to", "L-11"}), {"It means 205 Bath Room.", "where it was first sent"});
}

TEST_CASE("fairlead: a label typed in, and wrong uses in a sentence") {
  says(fairlead().done({"where-to", "--text", "Lamp R. shelf"}), {"It means 301 Lamp Room."});
  CHECK(fairlead().run({"where-to", "--text", "Lamp [R."}).code == 4);
  CHECK(fairlead().run({"where-to", "L-99"}).code == 3);
  CHECK(fairlead().run({"where-to", "A-01"}).code == 4);
  CHECK(fairlead().run({"where-to", "L-01", "--text", "x"}).code == 4);
  CHECK(fairlead().run({"where-to", "L-01", "--storeys", "fr"}).code != 0);
  const auto json = fairlead().done({"where-to", "L-01", "--json"});
  CHECK(json.find("\"verdict\": \"clear\"") != std::string::npos);
  CHECK(json.find("\"cites\": \"S-03, sheet 3\"") != std::string::npos);
}

TEST_CASE("fairlead: what was made for the Chart Room, and what has no home") {
  says(fairlead().done({"made-for", "202"}),
       {"N-207 Iron back-plate", "fitted: its four screw holes", "(screw holes)", "E-202.14 Air grille",
        "marked for it; fit not tested", "PC-01"});
  const auto others = fairlead().done({"made-for", "N-207"});
  says(others, {"made for 202", "E-202.14 Air grille", "PC-01"});
  CHECK(others.find("N-207") == std::string::npos);
  says(fairlead().done({"made-for", "205"}), {"PC-20", "not linked yet; its label means it", "Bath L.H."});
  says(fairlead().done({"made-for", "--no-home"}), {"PC-20", "E-H.12", "It means 205 Bath Room."});
  CHECK(fairlead().run({"made-for"}).code == 4);
  CHECK(fairlead().run({"made-for", "A-01"}).code == 4);
}

TEST_CASE("fairlead: a pick becomes 'marked for' citing the label, a fit needs its own words") {
  const Fairlead& house = written_in();
  // Nobody names the room: the label is clear.
  says(house.done({"link", "PC-20", "--by", "A-20"}),
       {"PC-20", "is marked for 205 Bath Room", "fit not tested"});
  says(house.done({"why", "PC-20", "intended-for"}),
       {"L-11", "transcription", "House notebook I", "name Bath Room"});
  says(house.done({"made-for", "205"}), {"marked for it; fit not tested", "L-11 “Bath L.H.”"});
  // A label that names no one room does not link by itself.
  const auto open = house.run({"link", "PC-09"});
  CHECK(open.code == 4);
  CHECK(open.err.find("names no one room") != std::string::npos);
  CHECK(house.run({"link", "PC-20", "205", "--tested", "ghost"}).code == 4);
  says(house.done({"link", "PC-20", "205", "--fit", "hinges meet the old rebates", "--tested", "size",
                   "--source", "S-46", "--at", "p. 141", "--by", "A-20"}),
       {"fits and stood in"});
  says(house.done({"made-for", "205"}), {"fitted: hinges meet the old rebates (size)"});
}

TEST_CASE("fairlead: proposals of a label are accepted by key and cite it") {
  const Fairlead& house = written_in();
  const auto listed = house.done({"proposals", "labels", "L-10"});
  says(listed, {"PC-12 Three-way brass cock was meant for 105 Dining Room",
                "that it stood there is another statement"});
  const auto key = listed.substr(0, listed.find(' '));
  house.done({"accept", "labels", "L-10", key, "--by", "A-20"});
  says(house.done({"why", "PC-12", "intended-for"}), {"L-10", "Dining Room", "proposed by labels 1.0"});
  says(house.done({"proposals", "labels", "L-10"}), {"nothing is proposed"});
  says(house.done({"proposals", "labels", "L-09"}), {"reads 11", "reads 9"});
}
