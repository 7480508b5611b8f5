// Rules across statements at entry, privacy of readings, search, migration, refusal of foreign files.
#include <sqlite3.h>

#include <catch2/catch.hpp>

#include "core/storage/schema.hpp"
#include "tests/storage/store.hpp"

using namespace lathbook;
using namespace lathbook::test;

namespace {

constexpr ReadOptions kPrivate{
    .with_private = true, .known_on = {}, .by_entry_day = false, .fingerprint = {}};

}  // namespace

TEST_CASE("rules across statements are kept at entry") {
  Store store;
  const auto archive = store.open();
  const auto source = make(*archive, Kind::source, "S-1");
  const auto wall = make(*archive, Kind::element, "E-1");
  const auto plaster = make(*archive, Kind::element, "E-2");
  CHECK_THROWS_WITH(make(*archive, Kind::element, "E-1"), Catch::Contains("already in use"));
  enter(*archive, about(wall, "element-type", "wall", source));
  CHECK_THROWS_WITH(enter(*archive, about(wall, "element-type", "partition", source)),
                    Catch::Contains("already has an answer"));
  enter(*archive, about(plaster, "part-of", wall.text(), source));
  CHECK_THROWS_WITH(enter(*archive, about(wall, "part-of", plaster.text(), source)),
                    Catch::Contains("circle"));
  CHECK_THROWS_WITH(enter(*archive, about(wall, "part-of", wall.text(), source)),
                    Catch::Contains("and itself"));
  CHECK_THROWS_AS(enter(*archive, about(wall, "material", "brick")), Error);  // no citation
  CHECK(archive->read()->record_by_code("E-1")->id == wall);
}

TEST_CASE("one session sees every seat that is taken, given up and taken again") {
  Store store;
  const auto archive = store.open();
  const auto source = make(*archive, Kind::source, "S-1");
  const auto field = make(*archive, Kind::element, "N-1");
  std::vector<Uuid> tiles;
  for (const char* code : {"N-1.1", "N-1.2", "N-1.3"}) tiles.push_back(make(*archive, Kind::piece, code));
  const auto seat = [&](std::size_t tile, const std::string& column) {
    Content content = about(tiles[tile], "position", "cell", source);
    content.qualifiers = {{"field", "N-1"}, {"row", "1"}, {"column", column}};
    return content;
  };
  const auto taken = Catch::Contains("two pieces cannot sit in one cell");
  const auto writer = archive->write();
  for (const std::size_t tile : {0U, 1U}) writer->add(about(tiles[tile], "piece-of", field.text(), source));
  const Digest first = writer->add(seat(0, "1"));
  CHECK_THROWS_WITH(writer->add(seat(1, "1")), taken);
  // Seated before anybody says whose piece it is.
  writer->add(seat(2, "3"));
  writer->add(about(tiles[2], "piece-of", field.text(), source));
  CHECK_THROWS_WITH(writer->add(seat(1, "3")), taken);
  // Moved on, its old cell is free; the move taken back, it is taken again.
  Content moved = seat(0, "2");
  moved.targets = {first};
  moved.why = "misread";
  const Digest move = writer->add(moved);
  CHECK_THROWS_WITH(writer->add(seat(1, "2")), taken);
  Content back;
  back.act = Act::withdraw;
  back.targets = {move};
  back.why = "it was right";
  writer->add(back);
  CHECK_THROWS_WITH(writer->add(seat(1, "1")), taken);
  writer->add(seat(1, "2"));
  writer->commit();
}

TEST_CASE("private statements and records stay out of public readings") {
  Store store;
  const auto archive = store.open();
  const auto source = make(*archive, Kind::source, "S-1");
  const auto element = make(*archive, Kind::element, "E-1");
  auto secret = about(element, "note", "the key lies under the third slate", source);
  secret.privacy = Privacy{"safety", ""};
  enter(*archive, secret);
  auto lapsed = about(element, "note", "no longer secret", source);
  lapsed.privacy = Privacy{"until the sale", "2001"};
  enter(*archive, lapsed);
  CHECK(values(*archive, element, "note") == std::vector<std::string>{"no longer secret"});
  CHECK(values(*archive, element, "note", kPrivate).size() == 2);
  CHECK(archive->search("slate", {}, 5).empty());
  CHECK(archive->search("slate", kPrivate, 5).size() == 1);
  CHECK(archive->read()->reading().withheld == 1);

  const auto piece = make(*archive, Kind::piece, "P-1");
  enter(*archive, about(piece, "whereabouts", "bay 4", source));
  CHECK(values(*archive, piece, "whereabouts").empty());

  const auto person = make(*archive, Kind::agent, "A-1");
  enter(*archive, about(person, "name", "Living Person", source));
  auto hidden = about(person, "private-record", "living");
  const auto mark = enter(*archive, hidden);
  CHECK_FALSE(archive->read()->record(person));
  CHECK(archive->read(kPrivate)->record(person)->name == "Living Person");
  Content back;
  back.act = Act::withdraw;
  back.targets = {mark};
  back.why = "consented";
  enter(*archive, back);
  CHECK(archive->read()->record(person)->name == "Living Person");
}

TEST_CASE("the words of an interview wait for consent") {
  Store store;
  const auto archive = store.open();
  const auto talk = make(*archive, Kind::source, "INT-1");
  const auto element = make(*archive, Kind::element, "E-1");
  enter(*archive, about(talk, "source-type", "interview"));
  auto said = about(element, "note", "grandmother stood by it", talk);
  said.evidence = EvidenceClass::oral;
  enter(*archive, said);
  CHECK(values(*archive, element, "note").empty());
  CHECK(values(*archive, element, "note", kPrivate).size() == 1);
  enter(*archive, about(talk, "consent", "form signed, transcript approved"));
  CHECK(values(*archive, element, "note").size() == 1);
}

TEST_CASE("search finds words, beginnings of words, and letters inside marks") {
  Store store;
  const auto archive = store.open();
  const auto source = make(*archive, Kind::source, "S-1");
  const auto mark = make(*archive, Kind::mark, "M-1");
  enter(*archive, about(mark, "transcription", "[---]ANE & P[..]L / BURSL[---]", source));
  enter(*archive, about(source, "title", "Café Müller, ledger"));
  CHECK(archive->search("cafe mull", {}, 5).size() == 1);
  CHECK(archive->search("urs", {}, 5).size() == 1);
  CHECK(archive->search("\" OR *", {}, 5).empty());
  CHECK(archive->search("nowhere", {}, 5).empty());
}

TEST_CASE("codes that clash after a merge carry a suffix and are findings") {
  Store store;
  const auto archive = store.open();
  make(*archive, Kind::source, "S-1");
  Store second("second");
  ::setenv("XDG_STATE_HOME", (store.folder / "state").c_str(), 1);
  const auto other = second.open();
  const auto theirs = make(*other, Kind::source, "S-1");
  const auto report = archive->merge(*other);
  REQUIRE(report.findings.size() == 1);
  CHECK(report.findings[0].code == "rule.code");
  const auto reader = archive->read();
  CHECK_THROWS_WITH(reader->record_by_code("S-1"), Catch::Contains("carried by 2 records"));
  const auto shown = reader->record(theirs)->code;
  CHECK(shown == "S-1~" + theirs.text().substr(0, 4));
  CHECK(reader->record_by_code(shown)->id == theirs);
}

TEST_CASE("a newer archive is refused, an older one brought forward") {
  Store store;
  store.open();
  {
    const Database database(store.path / "archive.sqlite", OpenMode::write);
    database.execute("PRAGMA user_version=99");
  }
  CHECK_THROWS_WITH(store.open(), Catch::Contains("version 99") && Catch::Contains("newer program"));

  const Database database(store.path / "archive.sqlite", OpenMode::write);
  database.execute("PRAGMA user_version=1");
  {
    Transaction transaction(database);
    migrate(database, {{1, "CREATE TABLE extra(x)"}, {2, "INSERT INTO extra VALUES(7)"}}, 3);
    transaction.commit();
  }
  CHECK(database.number("SELECT x FROM extra") == 7);
  CHECK(database.number("PRAGMA user_version") == 3);
  CHECK_THROWS_WITH(migrate(database, {}, 4), Catch::Contains("cannot bring forward"));
}

TEST_CASE("a folder that is no archive is refused in words") {
  TempFolder folder;
  const FixedClock clock({0, 0});
  CHECK_THROWS_WITH(Archive(folder / "none", clock), Catch::Contains("there is no archive"));
  write_file(folder / "a" / "archive.sqlite",
             "not a database, but long enough to look at it twice....................."
             "............................................................");
  CHECK_THROWS_AS(Archive(folder / "a", clock), Error);
  CHECK_THROWS_WITH(Archive::create(folder / "a"), Catch::Contains("is not empty"));
}

TEST_CASE("media are kept once, by content, and checked") {
  Store store;
  write_file(store.folder / "one.svg", "<svg/>");
  write_file(store.folder / "two.svg", "<svg/>");
  const auto archive = store.open();
  const auto source = make(*archive, Kind::source, "S-1");
  {
    const auto writer = archive->write();
    const auto one = writer->add_media(store.folder / "one.svg");
    const auto two = writer->add_media(store.folder / "two.svg");
    CHECK(one.path == two.path);
    writer->add(about(source, "media", one.digest.hex()));
    writer->commit();
  }
  CHECK_FALSE(has_fault(archive->check({}, true)));
  const auto file = archive->medium(sha256("<svg/>")).path;
  write_file(file, "<svg>");
  const auto changed = archive->check({}, true);
  REQUIRE(changed.size() == 1);
  CHECK(changed[0].code == "media.changed");
  std::filesystem::remove(file);
  CHECK(archive->check({}, true)[0].code == "media.missing");
}
