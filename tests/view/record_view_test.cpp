// Which of competing statements a record view takes.
#include "core/view/record_view.hpp"

#include <catch2/catch.hpp>

#include "core/base/error.hpp"
#include "tests/view/fake_reader.hpp"

using namespace lathbook;
using lathbook::test::FakeReader;

namespace {

RecordView view_of(const FakeReader& reader, const Uuid& id) {
  return RecordView::read(reader, *reader.record(id));
}

}  // namespace

TEST_CASE("the better founded statement wins, whatever was entered last") {
  FakeReader reader;
  const Uuid hearth = reader.add(Kind::element, "E-1");
  reader.say(hearth, "material", "glazed tile", Confidence::probable);
  reader.say(hearth, "material", "slate", Confidence::certain);
  reader.say(hearth, "material", "soapstone", Confidence::possible);
  reader.say(hearth, "material", "marble", Confidence::conjecture);
  const RecordView view = view_of(reader, hearth);
  std::vector<std::string> order;
  for (const Statement* statement : view.all("material")) order.push_back(statement->content.value);
  CHECK(order == std::vector<std::string>{"slate", "glazed tile", "soapstone", "marble"});
  CHECK(view.text("material") == "slate");
}

TEST_CASE("among equally sure statements the later entered wins") {
  FakeReader reader;
  const Uuid hearth = reader.add(Kind::element, "E-1");
  reader.say(hearth, "element-type", "hearth");
  reader.say(hearth, "element-type", "hearth slab");
  CHECK(view_of(reader, hearth).text("element-type") == "hearth slab");
  SECTION("within one second the higher number of a chain") {
    reader.say(hearth, "element-type", "slab").header.entered.seconds = 2;
    CHECK(view_of(reader, hearth).text("element-type") == "slab");
  }
}

TEST_CASE("replaced, withheld and expunged statements are not facts") {
  FakeReader reader;
  const Uuid hearth = reader.add(Kind::element, "E-1");
  reader.say(hearth, "element-type", "hearth");
  reader.say(hearth, "element-type", "replaced").current = false;
  reader.say(hearth, "element-type", "withheld").presence = Presence::withheld;
  reader.say(hearth, "element-type", "expunged").presence = Presence::expunged;
  const RecordView view = view_of(reader, hearth);
  REQUIRE(view.facts.size() == 1);
  CHECK(view.text("element-type") == "hearth");
}

TEST_CASE("a date typed in words gives the EDTF that was understood") {
  FakeReader reader;
  const Uuid works = reader.add(Kind::campaign, "C-1");
  reader.say(works, "works-began", "about 1890").content.edtf = "1890~";
  reader.say(works, "works-ended", "1891-05");
  const RecordView view = view_of(reader, works);
  CHECK(view.text("works-began") == "about 1890");
  CHECK(view.edtf("works-began") == "1890~");
  CHECK(view.edtf("works-ended") == "1891-05");
}

TEST_CASE("what is not said is empty, and what is no property is an error") {
  FakeReader reader;
  const Uuid hearth = reader.add(Kind::element, "E-1");
  const RecordView view = view_of(reader, hearth);
  CHECK(view.text("material").empty());
  CHECK(view.edtf("installed").empty());
  CHECK(view.best("material") == nullptr);
  CHECK_FALSE(view.record("part-of"));
  CHECK_THROWS_AS(view.all("no-such-property"), Error);
}

TEST_CASE("a value that is no record is no record") {
  FakeReader reader;
  const Uuid hearth = reader.add(Kind::element, "E-1");
  reader.say(hearth, "part-of", "the chimney breast");
  CHECK_FALSE(view_of(reader, hearth).record("part-of"));
}

TEST_CASE("a record is shown by code and name") {
  const Uuid id = uuid_from_name("E-1");
  CHECK(display({id, Kind::element, "N-203", "sea-green tile field"}) == "N-203 sea-green tile field");
  CHECK(display({id, Kind::element, "N-203", ""}) == "N-203");
  CHECK(display({id, Kind::element, "", "tile field"}) == "tile field");
  CHECK(display({id, Kind::element, "", ""}) == id.text());
}
