// The whole sample: parsers, models, and questions of a researcher that graph and program must answer alike.
#include <catch2/catch.hpp>

#include "tests/crm/export_support.hpp"
#include "tests/crm/facts.hpp"
#include "tests/crm/tools.hpp"
#include "tests/support/sample.hpp"

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
