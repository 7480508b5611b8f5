// The whole sample: parsers, models, and questions of a researcher that graph and program must answer alike.
#include <catch2/catch.hpp>

#include "tests/crm/export_support.hpp"
#include "tests/crm/facts.hpp"
#include "tests/crm/tools.hpp"
#include "tests/support/sample.hpp"
#include "tests/view/fake_reader.hpp"

using namespace lathbook;
using namespace lathbook::test;

TEST_CASE("the whole sample keeps the models, reads the same everywhere and answers like the program") {
  Sample sample;
  REQUIRE(sample.faults == "");
  const TempFolder folder;
  Facts facts;
  {
    const auto reader = sample.archive->read();
    Plugins plugins;
    ExportRequest request{{}, Level::possible, kBase, "turtle", {}};
    std::ofstream turtle(folder / "house.ttl", std::ios::binary),
        triples(folder / "house.nt", std::ios::binary);
    plugins->export_to("crm", Snapshot(*reader), request, turtle);
    request.format = "ntriples";
    plugins->export_to("crm", Snapshot(*reader), request, triples);
    facts.add(*reader, kBase);
    std::ofstream out(folder / "facts.json", std::ios::binary);
    facts.write(out);
  }
  CHECK(facts.claims() > 6000);
  CHECK(facts.removed().size() > 100);
  check_parsers(folder / "house.ttl", folder / "house.nt");
  const Ran models = check_models(folder / "house.nt", folder / "facts.json");
  INFO(models.out.substr(0, 3000) << models.err);
  CHECK(models.code == 0);
  if (!python_has("rdflib")) return;
  const auto archive = sample.folder / "archive";
  sample.archive.reset();
  const Ran asked =
      run({"/usr/bin/python3", script("questions.py"), (folder / "house.nt").string(), kBase, program(),
           archive.string()},
          {"XDG_STATE_HOME=" + (sample.folder / "state").string(), "LATHBOOK_ARCHIVE=", "LATHBOOK_PLUGINS="});
  INFO(asked.out << asked.err);
  CHECK(asked.code == 0);
}

TEST_CASE("a text of a megabyte and an address with blanks come through alike in every parser") {
  FakeReader reader;
  const Uuid tile = reader.add(Kind::piece, "P-1", "Tile \"14\"\n\u05E9\u05DC\u05D5\u05DD \U0001F9F1");
  std::string text;
  while (text.size() < 1'000'000) text += "renew the stove niche \u00e9 \\ \"\t]]>\n";
  reader.say(tile, "note", text);
  // What validation refuses today may come from an older archive: blanks are written as %20.
  reader.say(tile, "concept", "http://example.org/a tile <of> clay", Confidence::none);
  const TempFolder folder;
  write_file(folder / "one.ttl", exported(reader, "turtle"));
  write_file(folder / "one.nt", exported(reader, "ntriples"));
  CHECK(read_file(folder / "one.nt").size() > 2 * text.size());
  CHECK(read_file(folder / "one.nt").find("<http://example.org/a%20tile%20%3Cof%3E%20clay>") !=
        std::string::npos);
  check_parsers(folder / "one.ttl", folder / "one.nt");
}
