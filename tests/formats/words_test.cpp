// Words that break formats go through every exporter and come back as they were.
#include <catch2/catch.hpp>

#include "tests/formats/press.hpp"
#include "tests/view/fake_reader.hpp"

using namespace lathbook;
using namespace lathbook::test;
namespace fs = std::filesystem;

namespace {

std::vector<std::string> hard_words() {
  return {
      "quotes \" ' ` \xE2\x80\x9C\xE2\x80\x9D",
      "]]> <b>&amp; <!-- --> <?x?>",
      "=HYPERLINK(\"http://x\")",
      "-2+3",
      "@SUM(A1:A9)",
      "100% of {braces} [brackets] \\backslash ~tilde ^hat #hash $dollar _low",
      "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xE2\x80\xAE"
      "abc \xD8\xB3\xD9\x84\xD8\xA7\xD9\x85",
      "\xF0\x9F\x8F\x9A\xEF\xB8\x8F \xF0\x9F\x91\xA9\xE2\x80\x8D\xF0\x9F\x94\xA7 tile",
      "two\nlines and\ta tab",
      "a | b ; c=d, e",
      "%0A %0D %25 %zz",
      std::string("long ") + std::string(std::size_t{1} << 20U, 'x').substr(0, (std::size_t{1} << 20U) - 32)};
}

std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c == '\n' ? "\\n" : c == '\t' ? "\\t" : std::string(1, c);
  }
  return out + "\"";
}

}  // namespace

TEST_CASE("words that break formats come through each exporter") {
  if (!have_python()) return;
  const auto words = hard_words();
  FakeReader reader;
  const Uuid room = reader.add(Kind::place, "R-1", "Room");
  const Uuid wall = reader.add(Kind::element, "E-1", words[1]);
  const Uuid source = reader.add(Kind::source, "S-1", "Source");
  const Uuid person = reader.add(Kind::agent, "A-1", words[0]);
  reader.say(source, "source-type", "photograph");
  reader.say(source, "title", words[1]);
  const std::string svg = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 40 30'/>";
  reader.say(source, "media", sha256(svg).hex(), Confidence::none, {{"file-name", "a\nb\r%0A \"x\".svg"}});
  reader.say(wall, "stands-in", room);
  reader.say(wall, "pictured-in", source, {{"spot", "xywh=1,2,3,4"}});
  for (const auto& word : words) {
    reader.say(source, "note", word);
    reader.say(wall, "note", word, Confidence::certain).content.author = person;
  }
  const TempFolder folder;
  Press press;
  press.files.held.emplace(sha256(svg), svg);
  std::string files;
  const auto add = [&](const std::string& kind, const fs::path& path) {
    files += (files.empty() ? "" : ",") + std::string("[\"") + kind + "\"," + quoted(path.string()) + "]";
  };
  const auto file = [&](const std::string& plugin, const std::string& format, const std::string& kind) {
    const auto path = folder / (plugin + "-" + format);
    write_file(path, press.text(reader, plugin, format));
    add(kind, path);
  };
  file("citations", "csl-json", "csl");
  file("citations", "bibtex", "bibtex");
  file("lido", "lido", "xml");
  press.folder(reader, "dublin-core", folder / "dc", "records");
  add("xml", folder / "dc" / "records" / (wall.text() + ".xml"));
  press.folder(reader, "tables", folder / "tables");
  std::string all;
  for (const auto& word : words) all += (all.empty() ? "" : ",") + quoted(word);
  write_file(folder / "listing.json", "{\"words\":[" + all + "],\"files\":[" + files + "]}");
  press.folder(reader, "iiif", folder / "iiif");
  const auto faults = judged({"words=" + (folder / "listing.json").string(),
                              "iiif=" + (folder / "iiif").string(), "csvw=" + (folder / "tables").string()});
  INFO(joined(faults));
  CHECK(faults.size() == 0);
  // A name between < and > must not be run as HTML by a viewer.
  CHECK(read_file(folder / "iiif" / "manifests" / (wall.text() + ".json")).find("xywh=1,2,3,4") !=
        std::string::npos);
}

TEST_CASE("a base address that cannot begin names is refused in one sentence") {
  FakeReader reader;
  reader.add(Kind::element, "E-1", "Wall");
  Press press;
  for (const char* plugin : {"citations", "lido"}) {
    for (const char* base : {"http://example.org/my archive/", "nowhere", "http://example.org/x"}) {
      INFO(plugin << " " << base);
      CHECK_THROWS_WITH(press.text(reader, plugin, {}, {}, base),
                        Catch::Contains("cannot begin the names of records"));
    }
  }
  const TempFolder folder;
  CHECK_THROWS_WITH(press.folder(reader, "iiif", folder / "x", {}, {}, "urn:uuid:1#"),
                    Catch::Contains("needs addresses of the web"));
  CHECK_THROWS_WITH(press.folder(reader, "iiif", folder / "x"),
                    Catch::Contains("no photograph with a picture file"));
  CHECK_FALSE(fs::exists(folder / "x"));
}

TEST_CASE("an export that is stopped, or fails, leaves nothing under its name") {
  const Fairlead& fairlead = Fairlead::get();
  if (!fairlead.there) return;
  const auto reader = fairlead.archive->read();
  const TempFolder folder;
  Press press;
  Fairlead::lend(press);
  for (const std::uint64_t after : {1U, 30U, 300U}) {
    for (const char* plugin : {"tables", "iiif", "dublin-core"}) {
      INFO(plugin << " stopped after " << after);
      press.ear.steps = 0;
      press.ear.stop_after = after;
      const std::string format = std::string(plugin) == "dublin-core" ? "records" : "";
      CHECK_THROWS_AS(press.folder(*reader, plugin, folder / "out", format), Error);
      CHECK(fs::is_empty(folder.path()));
    }
  }
  press.ear.stop_after = 0;
  // This press has no exchange document of its own and lends a wrong one: a bag is made of it all the same,
  // and its own fault is what a verifier is for.
  press.files.held.clear();
  CHECK_THROWS_AS(press.folder(*reader, "iiif", folder / "out"), Error);
  CHECK(fs::is_empty(folder.path()));
}
