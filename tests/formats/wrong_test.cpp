// Exports that are wrong on purpose, one fault each: our own checks must see every one.
#include <catch2/catch.hpp>
#include <functional>

#include "tests/formats/press.hpp"
#include "tests/support/random_archive.hpp"

using namespace lathbook;
using namespace lathbook::test;
namespace fs = std::filesystem;

namespace {

/// Replaces the first occurrence; the test fails when there is none, for then nothing would be seeded.
std::string with(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  INFO("looking for " << from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

bool any_line(const std::vector<std::string>& lines, const std::string& part) {
  for (const auto& line : lines)
    if (line.find(part) != std::string::npos) return true;
  return false;
}

struct Wrong {
  const char* check;  ///< words of the line that must be told
  const char* from;
  const char* to;
};

/// Seeds each fault into a copy of one file and judges the copies in one process; file names tell them apart.
void check_seeded(const std::string& kind, const std::string& good, const std::vector<Wrong>& faults,
                  const fs::path& folder) {
  std::vector<std::string> judge;
  for (std::size_t i = 0; i < faults.size(); ++i) {
    const auto path = folder / (kind + "-" + std::to_string(i) + ".wrong");
    write_file(path, with(good, faults[i].from, faults[i].to));
    judge.push_back(kind + "=" + path.string());
  }
  const auto lines = judged(judge);
  for (std::size_t i = 0; i < faults.size(); ++i) {
    INFO(faults[i].check << " by " << faults[i].to << "\n" << joined(lines));
    CHECK(any_line(lines, std::string("check ") + faults[i].check + ": " +
                              (folder / (kind + "-" + std::to_string(i) + ".wrong")).string()));
  }
}

}  // namespace

TEST_CASE("wrong citations are seen") {
  if (!have_python() || !have_standards()) return;
  const TempFolder folder;
  Press press;
  const Fairlead& fairlead = Fairlead::get();
  if (!fairlead.there) return;
  const auto reader = fairlead.archive->read();
  const auto csl = press.text(*reader, "citations", "csl-json");
  check_seeded("csl", csl,
               {{"csl-schema", "\"citation-key\"", "\"made-up\""},
                {"csl-schema", "\"issued\": {", "\"issued\": \"1888-05\", \"accessed\": {"},
                {"csl-schema", "\"type\": \"graphic\"", "\"type\": \"photograph\""}},
               folder.path());
  check_seeded("bibtex", press.text(*reader, "citations", "bibtex"),
               {{"bibtex-form", "title = {{", "title = {"},
                {"bibtex-special", "\\&", "&"},
                {"bibtex-required", "  publisher = {", "  x = {"}},
               folder.path());
}

TEST_CASE("wrong LIDO and Dublin Core are seen") {
  if (!have_python() || !have_standards()) return;
  const Fairlead& fairlead = Fairlead::get();
  if (!fairlead.there) return;
  const TempFolder folder;
  Press press;
  const auto reader = fairlead.archive->read();
  const auto lido = press.text(*reader, "lido", "lido");
  check_seeded("lido", lido,
               {{"lido-event", "lido-schema.org/lido00008<", "lido-schema.org/lido99999<"},
                {"lido-date", "<lido:earliestDate>18", "<lido:earliestDate>about 18"}},
               folder.path());
  // What the schema itself refuses: a part left out, an order turned round, an attribute without its prefix.
  const std::vector<std::pair<std::string, std::string>> broken{
      {"<lido:recordSource>", "<lido:recordSauce>"},
      {"<lido:objectWorkType>", "<lido:objectWorkTipe>"},
      {" lido:type=\"http://terminology.lido-schema.org/lido00099\" lido:source", " type=\"x\" lido:source"}};
  for (std::size_t i = 0; i < broken.size(); ++i) {
    const auto path = folder / ("broken-" + std::to_string(i) + ".xml");
    std::string text = with(lido, broken[i].first, broken[i].second);
    if (broken[i].first[0] == '<')
      text = with(text, "</" + broken[i].first.substr(1), "</" + broken[i].second.substr(1));
    write_file(path, text);
    INFO(broken[i].second);
    CHECK(against_schema("lido/xsd/lido-v1.1.xsd", {path}).size() > 0);
  }
  check_seeded("repository", press.text(*reader, "dublin-core", "repository"),
               {{"oai-email", "archive@fairlead.example", "nobody"},
                {"oai-identify", "<oai:deletedRecord>no</oai:deletedRecord>", ""},
                {"oai-datestamp", "<oai:earliestDatestamp>2025", "<oai:earliestDatestamp>2999"}},
               folder.path());
  press.folder(*reader, "dublin-core", folder / "dc", "records", reader->record_by_code("202")->id);
  const auto one = fs::directory_iterator(folder / "dc" / "records")->path();
  write_file(one, with(with(read_file(one), "<dc:title", "<dc:subtitle"), "</dc:title", "</dc:subtitle"));
  CHECK(against_schema("dc/oai_dc.xsd", {one}).size() > 0);
}

TEST_CASE("wrong manifests and sheets are seen") {
  if (!have_python()) return;
  const Fairlead& fairlead = Fairlead::get();
  if (!fairlead.there) return;
  const TempFolder folder;
  Press press;
  Fairlead::lend(press);
  const auto reader = fairlead.archive->read();
  const auto mark = reader->record_by_code("M-01");
  REQUIRE(mark);
  const auto tile = reader->record_by_code("N-203.14");
  const std::vector<Wrong> manifest{
      {"iiif-motivation", "\"motivation\": \"identifying\",", ""},
      {"iiif-painting", "\"motivation\": \"painting\"", "\"motivation\": \"tagging\""},
      {"iiif-items", "\"items\": [", "\"items\": [], \"structures\": ["},
      {"iiif-context", "presentation/3/context.json", "presentation/2/context.json"},
      {"iiif-property", "\"type\": \"Manifest\",", "\"type\": \"Manifest\", \"made-up\": 1,"},
      {"iiif-size", "\"height\": ", "\"height\": 0, \"was\": "},
      {"iiif-format", "image/svg+xml", "image/png"}};
  std::vector<std::string> judge;
  for (std::size_t i = 0; i < manifest.size(); ++i) {
    const auto to = folder / ("iiif-" + std::to_string(i));
    press.folder(*reader, "iiif", to, {}, reader->record_by_code("202")->id);
    const auto path = to / "manifests" / (mark->id.text() + ".json");
    write_file(path, with(read_file(path), manifest[i].from, manifest[i].to));
    judge.push_back("iiif=" + to.string());
  }
  const std::vector<Wrong> sheets{{"csvw-formula", ",relief,", ",=1+1,"},
                                  {"csvw-header", "(address)", "(adress)"},
                                  {"csvw-foreign", ",A-20,", ",A-99,"},
                                  {"csvw-lines", "\r\n", "\n"}};
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const auto to = folder / ("csvw-" + std::to_string(i));
    press.folder(*reader, "tables", to);
    write_file(to / "marks.csv", with(read_file(to / "marks.csv"), sheets[i].from, sheets[i].to));
    judge.push_back("csvw=" + to.string());
  }
  const auto lines = judged(judge);
  for (std::size_t i = 0; i < manifest.size(); ++i) {
    INFO(manifest[i].check << "\n" << joined(lines));
    CHECK(any_line(lines, std::string("check ") + manifest[i].check + ": " +
                              (folder / ("iiif-" + std::to_string(i))).string()));
  }
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    INFO(sheets[i].check << "\n" << joined(lines));
    CHECK(any_line(lines, std::string("check ") + sheets[i].check + ": " +
                              (folder / ("csvw-" + std::to_string(i))).string()));
  }
}
