// The typed views: what each takes from the statements of its record. The house and its people are invented.
#include "core/view/views.hpp"

#include <catch2/catch.hpp>

#include "tests/view/fake_reader.hpp"

using namespace lathbook;
using lathbook::test::FakeReader;

namespace {

template <typename View>
View view_of(const FakeReader& reader, const Uuid& id) {
  return View(RecordView::read(reader, *reader.record(id)));
}

}  // namespace

TEST_CASE("names of a room stand in the order of their periods") {
  FakeReader reader;
  const Uuid room = reader.add(Kind::place, "R-2");
  reader.say(room, "place-type", "room");
  reader.say(room, "storey-number", "-1");
  reader.say(room, "name", "Store", Confidence::certain, {{"sort", "in use now"}});
  reader.say(room, "name", "Chart Room", Confidence::certain,
             {{"sort", "on a plan"}, {"from", "1912"}, {"to", "1931"}, {"used-by", "the owner"}});
  reader.say(room, "name", "Morgenzimmer", Confidence::certain, {{"to", "1890"}}).content.language = "de";
  const auto view = view_of<PlaceView>(reader, room);
  CHECK(view.type == "room");
  CHECK(view.storey_number == -1);
  REQUIRE(view.names.size() == 3);
  CHECK(view.names[0].text == "Morgenzimmer");
  CHECK(view.names[0].language == "de");
  CHECK(view.names[1].text == "Chart Room");
  CHECK(view.names[1].sort == "on a plan");
  CHECK(view.names[1].from == "1912");
  CHECK(view.names[1].to == "1931");
  CHECK(view.names[1].used_by == "the owner");
  CHECK(view.names[1].statement == sha256("statement 4"));
  CHECK(view.names[2].text == "Store");
}

TEST_CASE("an outline is read whole or not at all") {
  FakeReader reader;
  const Uuid room = reader.add(Kind::place, "R-2");
  reader.say(room, "footprint", "0,0 4.25,0 4.25,-3.5");
  const auto view = view_of<PlaceView>(reader, room);
  REQUIRE(view.footprint.size() == 3);
  CHECK(view.footprint[1].x == 4.25);
  CHECK(view.footprint[2].y == -3.5);
  const std::string faulty = GENERATE("0,0 4.25,0 4.25", "0,0 a,0 1,1", "0,0,0 1,1 2,2", "0,0 1,1x 2,2");
  const Uuid other = reader.add(Kind::place, "R-3");
  reader.say(other, "footprint", faulty);
  CHECK(view_of<PlaceView>(reader, other).footprint.empty());
}

TEST_CASE("an element stands in places, each with role, face and placement") {
  FakeReader reader;
  const Uuid room = reader.add(Kind::place, "R-1");
  const Uuid hall = reader.add(Kind::place, "R-2");
  const Uuid wall = reader.add(Kind::element, "E-1");
  const Uuid wing = reader.add(Kind::element, "E-2");
  reader.say(wall, "element-type", "lath and plaster partition");
  reader.say(wall, "element-class", "partition");
  reader.say(wall, "material", "lime plaster", Confidence::probable);
  reader.say(wall, "material", "riven oak lath");
  reader.say(wall, "part-of", wing);
  reader.say(wall, "stands-in", room, {{"role", "bounds"}, {"face", "north"}, {"placement", "2"}});
  reader.say(wall, "stands-in", hall);
  const auto view = view_of<ElementView>(reader, wall);
  CHECK(view.type == "lath and plaster partition");
  CHECK(view.of_class == "partition");
  CHECK(view.materials == std::vector<std::string>{"riven oak lath", "lime plaster"});
  CHECK(view.part_of == wing);
  REQUIRE(view.places.size() == 2);
  CHECK(view.places[0].place == hall);
  CHECK(view.places[0].role == "stands in");
  CHECK(view.places[0].placement == 0);
  CHECK(view.places[1].place == room);
  CHECK(view.places[1].role == "bounds");
  CHECK(view.places[1].face == "north");
  CHECK(view.places[1].placement == 2);
  CHECK(view.placements == 2);
}

TEST_CASE("placements are as many as stated or mentioned") {
  FakeReader reader;
  const Uuid mantel = reader.add(Kind::element, "E-1");
  CHECK(view_of<ElementView>(reader, mantel).placements == 1);
  reader.say(mantel, "installed", "1931", Confidence::certain, {{"placement", "2"}});
  CHECK(view_of<ElementView>(reader, mantel).placements == 2);
  reader.say(mantel, "placements", "3");
  CHECK(view_of<ElementView>(reader, mantel).placements == 3);
}

TEST_CASE("a finish has element, layer, role and colour") {
  FakeReader reader;
  const Uuid wall = reader.add(Kind::element, "E-1");
  const Uuid coat = reader.add(Kind::finish, "F-1");
  reader.say(coat, "finish-on", wall);
  reader.say(coat, "layer", "4");
  reader.say(coat, "layer-role", "finish coat");
  reader.say(coat, "colour", "dull green");
  reader.say(coat, "munsell", "10GY 5/2");
  const auto view = view_of<FinishView>(reader, coat);
  CHECK(view.element == wall);
  CHECK(view.layer == 4);
  CHECK(view.role == "finish coat");
  CHECK(view.colour == "dull green");
  CHECK(view.munsell == "10GY 5/2");
  const Uuid other = reader.add(Kind::finish, "F-2");
  reader.say(other, "layer", "fourth");
  CHECK_FALSE(view_of<FinishView>(reader, other).layer);
}

TEST_CASE("the state of a piece is that of the latest day, not of the latest entry") {
  FakeReader reader;
  const Uuid field = reader.add(Kind::element, "E-1");
  const Uuid crate = reader.add(Kind::container, "K-2");
  const Uuid bench_box = reader.add(Kind::container, "K-1");
  const Uuid tile = reader.add(Kind::piece, "E-1.07");
  reader.say(tile, "piece-of", field);
  reader.say(tile, "position", "lower left", Confidence::certain,
             {{"field", "hearth"}, {"row", "1"}, {"column", "7"}});
  reader.say(tile, "piece-state", "in container", Confidence::certain, {{"on", "2026-05-03"}});
  reader.say(tile, "piece-state", "in place", Confidence::certain, {{"on", "2024-04"}});
  reader.say(tile, "piece-state", "on bench");
  reader.say(tile, "in-container", crate, {{"on", "2026-05-03"}});
  reader.say(tile, "in-container", bench_box, {{"on", "2026-05-01"}});
  const auto view = view_of<PieceView>(reader, tile);
  CHECK(view.element == field);
  CHECK(view.field == "hearth");
  CHECK(view.row == 1);
  CHECK(view.column == 7);
  CHECK(view.state == "in container");
  CHECK(view.container == crate);
}

TEST_CASE("transcriptions and readings keep reader and day") {
  FakeReader reader;
  const Uuid tile = reader.add(Kind::piece, "E-1.07");
  const Uuid mark = reader.add(Kind::mark, "M-1");
  const Uuid hand = reader.add(Kind::agent, "A-1");
  reader.say(mark, "mark-on", tile);
  reader.say(mark, "mark-method", "relief");
  reader.say(mark, "face", "back");
  reader.say(mark, "orientation", "upright");
  Statement& read = reader.say(mark, "transcription", "CARR[---]MAN");
  read.content.author = hand;
  read.content.said_on = "2026-05-03";
  reader.say(mark, "reading", "Carrowman");
  const auto view = view_of<MarkView>(reader, mark);
  CHECK(view.carrier == tile);
  CHECK(view.method == "relief");
  CHECK(view.face == "back");
  CHECK(view.orientation == "upright");
  REQUIRE(view.transcriptions.size() == 1);
  CHECK(view.transcriptions[0].text == "CARR[---]MAN");
  CHECK(view.transcriptions[0].reader == hand);
  CHECK(view.transcriptions[0].read_on == "2026-05-03");
  REQUIRE(view.readings.size() == 1);
  CHECK_FALSE(view.readings[0].reader);

  const Uuid label = reader.add(Kind::label, "L-1");
  reader.say(label, "label-on", tile);
  reader.say(label, "label-tool", "pencil");
  reader.say(label, "transcription", "over Chart Rm");
  const auto written = view_of<LabelView>(reader, label);
  CHECK(written.carrier == tile);
  CHECK(written.tool == "pencil");
  REQUIRE(written.transcriptions.size() == 1);
  CHECK(written.readings.empty());
}

TEST_CASE("a footnote names what a reader needs to find the place again") {
  FakeReader reader;
  const Uuid photo = reader.add(Kind::source, "S-3");
  reader.say(photo, "source-type", "photograph");
  reader.say(photo, "title", "Front with porch");
  reader.say(photo, "creator", "H. Orme");
  reader.say(photo, "source-date", "about 1905").content.edtf = "1905~";
  reader.say(photo, "repository", "Fairlead House Trust");
  reader.say(photo, "shelf-mark", "P-14");
  reader.say(photo, "media", sha256("photograph").hex());
  const auto view = view_of<SourceView>(reader, photo);
  CHECK(view.date == "1905~");
  CHECK(view.date_typed == "about 1905");
  REQUIRE(view.media.size() == 1);
  CHECK(view.media[0] == sha256("photograph"));
  CHECK(view.footnote("left third") ==
        "H. Orme, Front with porch (photograph), about 1905, Fairlead House Trust, P-14, left third");

  const Uuid bare = reader.add(Kind::source, "S-4");
  CHECK(view_of<SourceView>(reader, bare).footnote("") == "S-4");
  reader.say(bare, "creator", "R. Vane");
  reader.say(bare, "creator", "the parish");
  reader.say(bare, "published-in", "Haven Courier");
  CHECK(view_of<SourceView>(reader, bare).footnote("p. 2") ==
        "the parish and R. Vane, S-4, Haven Courier, p. 2");
}

TEST_CASE("phases and campaigns") {
  FakeReader reader;
  const Uuid house = reader.add(Kind::place, "B-1");
  const Uuid works = reader.add(Kind::campaign, "C-1");
  const Uuid phase = reader.add(Kind::phase, "PH-1");
  reader.say(works, "works-began", "spring 1911").content.edtf = "1911-21";
  reader.say(phase, "phase-number", "2");
  reader.say(phase, "phase-of", house);
  reader.say(phase, "opened-by", works);
  CHECK(view_of<CampaignView>(reader, works).began == "1911-21");
  CHECK(view_of<CampaignView>(reader, works).ended.empty());
  const auto view = view_of<PhaseView>(reader, phase);
  CHECK(view.number == 2);
  CHECK(view.place == house);
  CHECK(view.campaign == works);
}
