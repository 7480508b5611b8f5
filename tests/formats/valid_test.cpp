// Exports of the whole sample and of random archives keep the published schemas and written rules.
#include <catch2/catch.hpp>
#include <iostream>

#include "tests/formats/press.hpp"
#include "tests/support/random_archive.hpp"

using namespace lathbook;
using namespace lathbook::test;
namespace fs = std::filesystem;

namespace {

std::vector<fs::path> files_in(const fs::path& folder) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file()) files.push_back(entry.path());
  return files;
}

/// Everything that one archive can be written as, in a folder, with what is to be judged of it.
struct Written {
  std::vector<std::string> judge;
  std::vector<fs::path> lido, dublin_core;
};

void write_all(Press& press, const StatementReader& reader, const fs::path& to, Written& written,
               const Uuid& scope = {}) {
  fs::create_directories(to);
  const auto file = [&](const std::string& plugin, const std::string& format, const std::string& name) {
    write_file(to / name, press.text(reader, plugin, format, scope));
    return (to / name).string();
  };
  written.judge.push_back("csl=" + file("citations", "csl-json", "sources.json"));
  written.judge.push_back("bibtex=" + file("citations", "bibtex", "sources.bib"));
  press.folder(reader, "dublin-core", to / "dc", "records", scope);
  for (const auto& path : files_in(to / "dc"))
    if (path.filename() == "repository.xml") {
      written.judge.push_back("repository=" + path.string());
    } else {
      written.dublin_core.push_back(path);
    }
  press.folder(reader, "tables", to / "tables", {}, scope);
  written.judge.push_back("csvw=" + (to / "tables").string());
  for (const char* format : {"lido", "every-piece"}) {
    try {
      const auto path = file("lido", format, std::string(format) + ".xml");
      written.judge.push_back("lido=" + path);
      written.lido.push_back(path);
    } catch (const Error& error) {
      // A document without a record is not valid, so an archive without things is refused.
      CHECK(std::string(error.what()).find("there is no element") != std::string::npos);
    }
  }
}

void check_all(const Written& written) {
  if (have_python()) {
    const auto faults = judged(written.judge);
    INFO(joined(faults));
    CHECK(faults.size() == 0);
  }
  if (!have_standards()) return;
  const auto lido = against_schema("lido/xsd/lido-v1.1.xsd", written.lido);
  INFO(joined(lido));
  CHECK(lido.size() == 0);
  const auto dublin_core = against_schema("dc/oai_dc.xsd", written.dublin_core);
  INFO(joined(dublin_core));
  CHECK(dublin_core.size() == 0);
}

void check_random(unsigned first, unsigned last) {
  std::cout << "random archives of the seeds " << first << " to " << last << "\n";
  const TempFolder folder;
  Press press;
  Written written;
  for (unsigned seed = first; seed <= last; ++seed) {
    INFO("seed " << seed);
    const RandomArchive archive(seed, {60, true, true});
    const auto to = folder / std::to_string(seed);
    CHECK_NOTHROW(write_all(press, archive, to, written, seed % 5 == 0 ? archive.room : Uuid{}));
  }
  CHECK(written.lido.size() > last - first);
  check_all(written);
}

}  // namespace

TEST_CASE("the whole sample is valid in every format") {
  const Fairlead& fairlead = Fairlead::get();
  if (!fairlead.there) return;
  const TempFolder folder;
  Press press;
  Fairlead::lend(press);
  const auto reader = fairlead.archive->read();
  Written written;
  press.folder(*reader, "iiif", folder / "iiif");
  written.judge.push_back("iiif=" + (folder / "iiif").string());
  write_all(press, *reader, folder / "all", written);
  const auto room = reader->record_by_code("202");
  REQUIRE(room);
  write_all(press, *reader, folder / "room", written, room->id);
  CHECK(written.dublin_core.size() > 500);
  CHECK(fs::file_size(folder / "room" / "lido.xml") < fs::file_size(folder / "all" / "lido.xml"));
  check_all(written);
}

TEST_CASE("the same state gives the same bytes") {
  const RandomArchive archive(11);
  Press one, other;
  for (const auto& [plugin, format] : std::vector<std::pair<std::string, std::string>>{
           {"citations", "csl-json"}, {"citations", "bibtex"}, {"lido", "every-piece"}})
    CHECK(one.text(archive, plugin, format) == other.text(archive, plugin, format));
}

TEST_CASE("random archives are valid in every format") {
  check_random(1, 15);
}

TEST_CASE("three hundred random archives are valid in every format", "[.long]") {
  check_random(1, 300);
}
