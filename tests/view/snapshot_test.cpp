// Walking the archive: places in places, elements in them, finishes on those.
#include "core/view/snapshot.hpp"

#include <catch2/catch.hpp>

#include "tests/view/fake_reader.hpp"

using namespace lathbook;
using lathbook::test::FakeReader;

TEST_CASE("records come in natural order and are found by code and id") {
  FakeReader reader;
  reader.add(Kind::place, "R-10");
  reader.add(Kind::place, "R-2", "Chart Room");
  reader.add(Kind::element, "R-3");
  const Snapshot archive(reader);
  std::vector<std::string> codes;
  archive.each(Kind::place, [&](const RecordView& view) { codes.push_back(view.info.code); });
  CHECK(codes == std::vector<std::string>{"R-2", "R-10"});
  REQUIRE(archive.find_code("R-2"));
  CHECK(archive.find_code("R-2")->info.name == "Chart Room");
  CHECK_FALSE(archive.find_code("R-99"));
  CHECK(archive.find(uuid_from_name("R-3"))->info.kind == Kind::element);
  CHECK_FALSE(archive.find(uuid_from_name("nothing")));
}

TEST_CASE("places within a place, parents first, at any depth, also round a loop") {
  FakeReader reader;
  const Uuid house = reader.add(Kind::place, "B-1");
  const Uuid upper = reader.add(Kind::place, "S-2");
  const Uuid ground = reader.add(Kind::place, "S-1");
  const Uuid room10 = reader.add(Kind::place, "R-10");
  const Uuid room9 = reader.add(Kind::place, "R-9");
  reader.add(Kind::place, "B-2");
  reader.say(upper, "within", house);
  reader.say(ground, "within", house);
  reader.say(room10, "within", ground);
  reader.say(room9, "within", ground);
  const Snapshot archive(reader);
  CHECK(archive.places_within(house) == std::vector<Uuid>{house, ground, room9, room10, upper});
  CHECK(archive.places_within(room9) == std::vector<Uuid>{room9});
  reader.say(house, "within", room9);
  CHECK(archive.places_within(house) == std::vector<Uuid>{house, ground, room9, room10, upper});
}

TEST_CASE("elements in places: any role, each once, parts without a place of their own") {
  FakeReader reader;
  const Uuid room = reader.add(Kind::place, "R-1");
  const Uuid hall = reader.add(Kind::place, "R-2");
  const Uuid wall = reader.add(Kind::element, "E-2");
  const Uuid hearth = reader.add(Kind::element, "E-1");
  const Uuid slab = reader.add(Kind::element, "E-1.1");
  const Uuid flue = reader.add(Kind::element, "E-1.2");
  const Uuid mantel = reader.add(Kind::element, "E-3");
  const Uuid tile = reader.add(Kind::piece, "E-1.07");
  reader.say(wall, "stands-in", room, {{"role", "bounds"}});
  reader.say(wall, "stands-in", hall, {{"role", "bounds"}});
  reader.say(hearth, "stands-in", room);
  reader.say(slab, "part-of", hearth);
  reader.say(flue, "part-of", hearth);
  reader.say(flue, "stands-in", hall);
  reader.say(mantel, "fitted-in", room, {{"fit", "holes"}});
  reader.say(tile, "fitted-in", room, {{"fit", "bed"}});
  const Snapshot archive(reader);
  CHECK(archive.elements_in({room}) == std::vector<Uuid>{hearth, wall, mantel, slab});
  CHECK(archive.elements_in({hall}) == std::vector<Uuid>{flue, wall});
  CHECK(archive.elements_in({room, hall}) == std::vector<Uuid>{hearth, wall, mantel, flue, slab});
  CHECK(archive.elements_in({}).empty());
}

TEST_CASE("finishes by element and layer, those without a number last") {
  FakeReader reader;
  const Uuid wall = reader.add(Kind::element, "E-2");
  const Uuid door = reader.add(Kind::element, "E-1");
  const Uuid top = reader.add(Kind::finish, "F-1");
  const Uuid loose = reader.add(Kind::finish, "F-2");
  const Uuid base = reader.add(Kind::finish, "F-3");
  const Uuid varnish = reader.add(Kind::finish, "F-4");
  for (const Uuid& coat : {top, loose, base}) reader.say(coat, "finish-on", wall);
  reader.say(varnish, "finish-on", door);
  reader.say(top, "layer", "10");
  reader.say(base, "layer", "2");
  const Snapshot archive(reader);
  CHECK(archive.finishes_on({wall, door}) == std::vector<Uuid>{base, top, loose, varnish});
}
