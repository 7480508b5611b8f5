// The archive as Linked Art: random archives and the whole sample against the published schemas and context,
// and faults put in on purpose that the checks must find.
#include <catch2/catch.hpp>
#include <filesystem>
#include <functional>

#include "core/base/error.hpp"
#include "core/plugin/host.hpp"
#include "tests/support/random_archive.hpp"
#include "tests/support/sample.hpp"
#include "tests/support/support.hpp"
#include "tests/view/fake_reader.hpp"

using namespace lathbook;
using namespace lathbook::test;
namespace fs = std::filesystem;

namespace {

const std::string kBase = "http://example.org/archive/";

/// The plugins of this build, as the program loads them; keeps what they say.
class Plugins : public PluginListener {
public:
  std::vector<std::string> notes;
  bool stop = false;
  void note(const std::string&, Severity, const std::string& text) override { notes.push_back(text); }
  bool stop_requested() override { return stop; }

  void write(const StatementReader& reader, const fs::path& folder, const std::string& base = kBase,
             const Uuid& scope = {}) {
    host_.export_folder("linked-art", Snapshot(reader), {scope, Level::possible, base, "json-ld", {}},
                        folder);
    host_.forget_results();
  }

private:
  PluginHost host_{{fs::path(LATHBOOK_BUILD_DIR) / "lib" / "lathbook" / "plugins"}, *this};
};

/// What check_linked_art.py says of these folders; "skipped" when it cannot run here.
Ran check(const std::vector<fs::path>& folders, std::vector<std::string> options = {}) {
  if (standards().empty() || !fs::exists(standards() / "linked-art")) {
    WARN("the schemas of Linked Art are not at hand (LATHBOOK_STANDARDS): their check is left out");
    return {0, "skipped", {}};
  }
  if (run({"/usr/bin/python3", "-c", "import jsonschema, pyld"}).code != 0) {
    WARN("python3-jsonschema or python3-pyld is not installed: the check of Linked Art is left out");
    return {0, "skipped", {}};
  }
  std::vector<std::string> call{"/usr/bin/python3", "-W", "ignore",
                                std::string(LATHBOOK_SOURCE_DIR) + "/tests/linked_art/check_linked_art.py"};
  call.insert(call.end(), options.begin(), options.end());
  call.push_back(standards().string());
  for (const fs::path& folder : folders) call.push_back(folder.string());
  return run(call);
}

void check_random_archives(unsigned first, unsigned count, const std::vector<std::string>& options) {
  const TempFolder folder;
  Plugins plugins;
  std::vector<fs::path> folders;
  for (unsigned seed = first; seed < first + count; ++seed) {
    INFO("seed " << seed);
    const RandomArchive archive(seed, {seed % 25 == 0 ? 120U : 12U, true, true});
    folders.push_back(folder / ("a" + std::to_string(seed)));
    const Uuid scope = seed % 5 == 0 ? archive.room : Uuid{};
    plugins.write(archive, folders.back(), "https://example.org/a" + std::to_string(seed) + "/", scope);
  }
  const Ran ran = check(folders, options);
  INFO(ran.out.substr(0, 3000) << ran.err.substr(0, 3000));
  CHECK(ran.code == 0);
}

/// Replaces the first occurrence in the first file that has one; true when there was one.
bool spoil(const fs::path& folder, const std::string& from, const std::string& to) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file() && entry.path().filename() != "index.json") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  for (const fs::path& file : files) {
    std::string text = read_file(file);
    const auto at = text.find(from);
    if (at == std::string::npos) continue;
    text.replace(at, from.size(), to);
    write_file(file, text);
    return true;
  }
  return false;
}

std::string files_of(const fs::path& folder) {
  std::vector<std::string> all;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file())
      all.push_back(fs::relative(entry.path(), folder).string() + "\n" + read_file(entry.path()));
  std::sort(all.begin(), all.end());
  std::string text;
  for (const std::string& one : all) text += one;
  return text;
}

}  // namespace

TEST_CASE("random archives become valid Linked Art") {
  check_random_archives(1, 300, {"--schemas-of", "30", "--expand-of", "30"});
}

TEST_CASE("every file of random archives is valid Linked Art", "[.long]") {
  for (unsigned first = 1; first < 301; first += 100) check_random_archives(first, 100, {});
}

TEST_CASE("the whole sample becomes valid Linked Art") {
  Sample sample;
  REQUIRE(sample.faults == "");
  const TempFolder folder;
  Plugins plugins;
  const auto reader = sample.archive->read();
  plugins.write(*reader, folder / "whole");
  const Ran ran = check({folder / "whole"}, {"--schemas-of", "15", "--expand-of", "15"});
  INFO(ran.out.substr(0, 3000) << ran.err.substr(0, 3000));
  CHECK(ran.code == 0);
  std::size_t records = 0;
  reader->each_record(Kind::unknown, [&](const RecordInfo& info) {
    records += fs::exists(folder / ("whole/record/" + info.id.text() + ".json")) ? 1U : 0U;
    return true;
  });
  CHECK(records > 700);
  CHECK(plugins.notes.size() == 3);
}

TEST_CASE("every file of the sample is valid Linked Art", "[.long]") {
  const Sample sample;
  const TempFolder folder;
  Plugins plugins;
  plugins.write(*sample.archive->read(), folder / "whole");
  const Ran ran = check({folder / "whole"});
  INFO(ran.out.substr(0, 3000) << ran.err.substr(0, 3000));
  CHECK(ran.code == 0);
}

TEST_CASE("faults that are put into Linked Art on purpose are found") {
  struct Fault {
    const char* check;
    std::string from, to;
  };
  const Fault faults[] = {
      {"check 1:", "\"_label\"", "\"nickname\""},
      {"check 1:", "\"carried_out_by\": [", "\"carried_out_by\": [ {\"type\": \"Person\"},"},
      {"check 2:", "https://linked.art/ns/v1/linked-art.json", "https://linked.art/ns/v1/linked-art.jsonld"},
      {"check 3:", "\"id\": \"" + kBase + "record/", "\"id\": \"" + kBase + "records/"},
      {"check 4:", "http://vocab.getty.edu/aat/300404670", "http://vocab.getty.edu/aat/300404671"},
      {"check 6:", "\"made_of\"", "\"made_off\""},
      {"check 6:", "\"id\": \"http://vocab.getty.edu/aat/", "\"id\": \"aat/"},
      {"check 7:", "\"dimension\": [", "\"used_for\": ["},
      {"check 8:", "\"type\": \"Person\",\n          \"_label\"",
       "\"type\": \"Group\",\n          \"_label\""},
      {"check 9:", "T23:59:59Z", "T00:00:00Z"},
      {"check 10:", "\"assigned_property\": \"", "\"assigned_property\": \"un"},
      {"check 12:", "http://vocab.getty.edu/aat/300418049", "http://vocab.getty.edu/aat/300418048"},
      {"check 13:", "\"unit\": {", "\"unity\": {"},
      {"check 15:", "confidence.certain", "confidence.conjecture"},
      {"check 16:", "http://vocab.getty.edu/aat/300435420", "http://vocab.getty.edu/aat/300435421"},
      {"check 17:", "\"type\": \"Material\"", "\"type\": \"crm:E57_Materiel\""},
  };
  FakeReader reader;
  const Uuid person = reader.add(Kind::agent, "A-1", "Reed");
  const Uuid source = reader.add(Kind::source, "S-1", "Permit");
  const Uuid tile = reader.add(Kind::piece, "P-1", "Tile");
  reader.say(person, "agent-type", "person", Confidence::none);
  reader.say(source, "source-type", "permit", Confidence::none);
  for (const auto& [property, value] : {std::pair("material", "clay"), std::pair("piece-type", "tile")})
    reader.say(tile, property, value);
  reader.say(tile, "dimension", "152 mm", Confidence::certain, {{"of", "width"}});
  reader.say(reader.add(Kind::mark, "M-1", "Stamp"), "mark-on", tile.text());
  for (Statement& statement : reader.said()) {
    auto& said = statement.content;
    if (said.confidence == Confidence::none) continue;
    said.author = person;
    said.said_on = "2024-05-18";
    said.evidence = EvidenceClass::documentary;
    said.citations = {{source, "p. 3", "clay tiles"}};
  }
  const TempFolder folder;
  Plugins plugins;
  std::vector<fs::path> folders;
  for (std::size_t at = 0; at < std::size(faults); ++at) {
    INFO(faults[at].check << " " << faults[at].from);
    folders.push_back(folder / ("f" + std::to_string(at)));
    plugins.write(reader, folders.back());
    REQUIRE(spoil(folders.back(), faults[at].from, faults[at].to));
  }
  folders.push_back(folder / "good");
  plugins.write(reader, folders.back());
  const Ran ran = check(folders);
  if (ran.out == "skipped") return;
  CHECK(ran.code == 1);
  for (std::size_t at = 0; at < std::size(faults); ++at) {
    const std::string found = "f" + std::to_string(at) + ": " + faults[at].check;
    INFO(found << " " << faults[at].from << "\n" << ran.out);
    CHECK(("\n" + ran.out).find("\n" + found) != std::string::npos);
  }
  CHECK(ran.out.find("good: ") == std::string::npos);
}

TEST_CASE("the same archive gives the same folder") {
  const RandomArchive archive(5, {60, true, true});
  const TempFolder folder;
  Plugins plugins;
  plugins.write(archive, folder / "one");
  plugins.write(archive, folder / "other");
  CHECK(files_of(folder / "one") == files_of(folder / "other"));
}

TEST_CASE("an export that is stopped or fails leaves no folder") {
  const RandomArchive archive(5, {60, true, true});
  const TempFolder folder;
  Plugins plugins;
  CHECK_THROWS_WITH(plugins.write(archive, folder / "refused", "urn:uuid:x#"),
                    Catch::Contains("needs addresses of the web"));
  plugins.stop = true;
  CHECK_THROWS_AS(plugins.write(archive, folder / "stopped"), Error);
  CHECK_FALSE(fs::exists(folder / "refused"));
  CHECK_FALSE(fs::exists(folder / "stopped"));
}

TEST_CASE("what breaks formats comes back from Linked Art as it was") {
  FakeReader reader;
  const Uuid tile = reader.add(Kind::piece, "P-1", "Tile");
  std::vector<std::string> texts{"a \"quoted\" \\ and \\n",
                                 "]]> <b>&amp;</b>",
                                 "two\nlines\tand a tab",
                                 "\u05E9\u05DC\u05D5\u05DD \u202Eesrever\u202C \u2028",
                                 "\U0001F9F1\U0001F469\u200D\U0001F527",
                                 "100%0D%0A.png"};
  std::string long_text;
  while (long_text.size() < 1'000'000) long_text += "renew the stove niche \u00e9 \"";
  texts.push_back(long_text);
  for (const std::string& text : texts) reader.say(tile, "note", text);
  const TempFolder folder;
  Plugins plugins;
  plugins.write(reader, folder / "one");
  write_file(folder / "ask.py",
             "import json, sys\n"
             "record = json.load(open(sys.argv[1], encoding='utf-8'))\n"
             "notes = [one['content'] for one in record['referred_to_by']]\n"
             "sys.stdout.reconfigure(encoding='utf-8', newline='\\n')\n"
             "sys.stdout.write('\\0'.join(notes))\n");
  const Ran ran = run({"/usr/bin/python3", (folder / "ask.py").string(),
                       (folder / ("one/record/" + tile.text() + ".json")).string()});
  REQUIRE(ran.code == 0);
  std::string wanted;
  for (const std::string& text : texts) wanted += (wanted.empty() ? "" : std::string(1, '\0')) + text;
  CHECK(ran.out == wanted);
}
