// Random valid archives through the exporter as the program loads it, timeline and all, against other
// people's parsers and the published models.
#include <algorithm>
#include <catch2/catch.hpp>
#include <iostream>
#include <iterator>

#include "tests/crm/export_support.hpp"
#include "tests/crm/facts.hpp"
#include "tests/crm/tools.hpp"
#include "tests/support/random_archive.hpp"

using namespace lathbook;
using namespace lathbook::test;

namespace {

/// All archives of these seeds, each under its own base, one file a format: a few processes then read them
/// all.
void check_random_archives(unsigned first, unsigned count) {
  const TempFolder folder;
  Plugins plugins;
  Facts facts;
  std::ofstream turtle(folder / "all.ttl", std::ios::binary), ntriples(folder / "all.nt", std::ios::binary);
  for (unsigned seed = first; seed < first + count; ++seed) {
    INFO("seed " << seed);
    const RandomArchive archive(seed, {seed % 25 == 0 ? 120U : 12U, true, true});
    const Snapshot snapshot(archive);
    ExportRequest request{
        {}, Level::possible, "http://example.org/a" + std::to_string(seed) + "/", "turtle", {}};
    plugins->export_to("crm", snapshot, request, turtle);
    request.format = "ntriples";
    plugins->export_to("crm", snapshot, request, ntriples);
    facts.add(archive, request.base_iri);
    plugins->forget_results();
  }
  turtle.close();
  ntriples.close();
  CHECK(facts.beliefs() > 5 * count);
  CHECK(facts.rooms().size() > count / 4);
  std::ofstream out(folder / "facts.json", std::ios::binary);
  facts.write(out);
  out.close();
  check_parsers(folder / "all.ttl", folder / "all.nt");
  const Ran ran = check_models(folder / "all.nt", folder / "facts.json");
  INFO("seeds from " << first << ": " << ran.out.substr(0, 3000) << ran.err);
  CHECK(ran.code == 0);
}

/// Whether a line of N-Quads has a fourth part, the name of its graph.
bool is_quad(const std::string& line) {
  const auto subject = line.find("> ");
  const auto predicate = line.find("> ", subject + 1);
  const std::string object = line.substr(predicate + 2, line.size() - predicate - 4);
  if (object[0] == '<') return object.find("> <") != std::string::npos;
  // The end of a literal is the last quotation mark; what follows is a language, a datatype, or the graph.
  const auto rest = object.substr(object.rfind('"') + 1);
  return rest.find(" <") != std::string::npos;
}

}  // namespace

TEST_CASE("random archives become the same triples everywhere and keep the models") {
  check_random_archives(1, 300);
}

TEST_CASE("many random archives keep the models", "[.long]") {
  for (unsigned first = 1001; first < 4001; first += 300) check_random_archives(first, 300);
}

TEST_CASE("TriG claims in named graphs what its default graph does not assert") {
  const TempFolder folder;
  Plugins plugins;
  std::size_t named = 0;
  const std::string serdi = tool("serdi");
  if (serdi.empty()) return;
  for (unsigned seed = 1; seed <= 12; ++seed) {
    INFO("seed " << seed);
    const RandomArchive archive(seed, {60, true, true});
    ExportRequest request{{}, Level::possible, kBase, "trig", {}};
    std::ostringstream trig, plain;
    plugins->export_to("crm", Snapshot(archive), request, trig);
    request.format = "ntriples";
    plugins->export_to("crm", Snapshot(archive), request, plain);
    write_file(folder / "one.trig", trig.str());
    const Ran ran = run({serdi, "-q", "-i", "trig", "-o", "nquads", (folder / "one.trig").string()});
    REQUIRE(ran.code == 0);
    // The default graph is the Turtle; nothing of a named graph is in it, and each graph is a claim of the
    // file.
    Lines facts;
    std::vector<std::string> quads;
    for (const std::string& line : lines_of(ran.out)) {
      if (is_quad(line))
        quads.push_back(line);
      else
        facts.insert(line);
    }
    const Lines expected = lines_of(plain.str());
    std::vector<std::string> apart;
    std::set_symmetric_difference(facts.begin(), facts.end(), expected.begin(), expected.end(),
                                  std::back_inserter(apart));
    // A type that only claims use is told of beside the facts: what differs is that, and only in TriG.
    for (const std::string& line : apart) {
      INFO(line);
      CHECK(facts.count(line) == 1);
      CHECK(line.rfind("<" + std::string(kBase) + "type/", 0) == 0);
    }
    for (const std::string& quad : quads) {
      INFO(quad);
      const auto at = quad.rfind(" <");
      // That an act took place at all the sequence of another record may tell as well.
      const bool act =
          quad.find("-installed-") < quad.find(' ') && (quad.find(" " + kType + " ") != std::string::npos ||
                                                        quad.find("AP7_produced") != std::string::npos);
      CHECK((act || facts.count(quad.substr(0, at) + " .") == 0));
      CHECK(facts.count(quad.substr(at + 1, quad.size() - at - 3) + " " + kType + " " +
                        extension("crminf", "I17_One-Proposition_Set") + " .") == 1);
    }
    named += quads.size();
  }
  CHECK(named > 100);
}
