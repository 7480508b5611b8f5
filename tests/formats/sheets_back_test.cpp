// Sheets written by the tables plugin, taken in again, are the same statements.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <iterator>
#include <map>
#include <set>

#include "core/exchange/sheets.hpp"
#include "tests/formats/press.hpp"

using namespace lathbook;
using namespace lathbook::test;
namespace fs = std::filesystem;

namespace {

/// A statement without what a copy has of its own: ids, chains, moments. Statements it names are given by
/// what they say themselves.
std::string told(const StatementReader& reader, const Statement& statement, int depth = 0) {
  const Content& said = statement.content;
  const auto code = [&](const Uuid& id) {
    const auto info = reader.record(id);
    return info ? info->code : std::string("-");
  };
  std::string text =
      std::string(word(said.act)) + "|" + code(said.subject) + "|" + std::to_string(said.property);
  const Property* property = Registry::standard().find(said.property);
  const bool record = property != nullptr && property->type == ValueType::record;
  const bool names = property != nullptr && property->type == ValueType::statement;
  text += "|" +
          (record  ? code(*Uuid::parse(said.value))
           : names ? std::string()
                   : said.value) +
          "|" + said.edtf + "|" + said.language;
  std::map<std::string, std::string> details;
  for (const auto& one : said.qualifiers) details.emplace(one.name, one.value);
  for (const auto& [name, value] : details) text += "|" + name + "=" + value;
  if (said.author) text += "|by " + code(*said.author);
  if (said.recorder) text += "|entered by " + code(*said.recorder);
  text +=
      "|" + said.said_on + "|" + std::string(word(said.evidence)) + "|" + std::string(word(said.confidence));
  for (const auto& one : said.citations) text += "|" + code(one.source) + "@" + one.locator + "@" + one.quote;
  text += "|" + said.why + (said.privacy ? "|" + said.privacy->reason + "|" + said.privacy->until : "");
  text += statement.current ? "|current" : "|taken back";
  if (depth > 3) return text;
  for (const auto& list : {said.targets, said.grounds})
    for (const Digest& id : list)
      if (const auto other = reader.statement(id)) text += "{" + told(reader, *other, depth + 1) + "}";
  return text;
}

std::multiset<std::string> all_told(const StatementReader& reader) {
  std::multiset<std::string> all;
  Query query;
  query.current_only = false;
  reader.each_statement(query, [&](const Statement& statement) {
    if (statement.presence == Presence::present) all.insert(told(reader, statement));
    return true;
  });
  return all;
}

/// Takes a folder of sheets into a new archive.
std::unique_ptr<Archive> taken_in(const fs::path& sheets, const fs::path& into, const Clock& clock) {
  Archive::create(into);
  OpenOptions options;
  options.write = true;
  auto archive = std::make_unique<Archive>(into, clock, options);
  auto writer = archive->write();
  writer->make_record(Kind::archive, "ARCHIVE", std::nullopt);
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(sheets))
    if (entry.path().extension() == ".csv") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  const auto report = import_sheets(files, *writer, {});
  for (const auto& fault : report.faults) UNSCOPED_INFO(fault.text());
  REQUIRE(report.applied);
  writer->commit();
  return archive;
}

std::vector<std::string> differing(const std::multiset<std::string>& a, const std::multiset<std::string>& b) {
  std::vector<std::string> only;
  std::set_difference(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(only));
  return only;
}

}  // namespace

TEST_CASE("the whole sample written as sheets and taken in says the same") {
  const Fairlead& fairlead = Fairlead::get();
  if (!fairlead.there) return;
  const TempFolder folder;
  Press press;
  Fairlead::lend(press);
  ReadOptions with_private;
  with_private.with_private = true;
  const auto reader = fairlead.archive->read(with_private);
  press.folder(*reader, "tables", folder / "sheets");
  for (const auto& note : press.ear.notes) CHECK(note == "");
  const auto back = taken_in(folder / "sheets", folder / "back", fairlead.clock);
  const auto again = back->read(with_private);
  const auto before = all_told(*reader);
  const auto after = all_told(*again);
  CHECK(before.size() > 5000);
  CHECK(joined(differing(before, after)) == "");
  CHECK(joined(differing(after, before)) == "");
}

TEST_CASE("hard words, corrections and details come back out of sheets") {
  const TempFolder folder;
  setenv("XDG_STATE_HOME", (folder / "state").c_str(), 1);
  const FixedClock clock{Moment{1'750'000'000, 0}};
  Archive::create(folder / "first");
  OpenOptions options;
  options.write = true;
  Archive archive(folder / "first", clock, options);
  auto writer = archive.write();
  const auto make = [&](Kind kind, const char* code) {
    return writer->make_record(kind, code, std::nullopt);
  };
  make(Kind::archive, "ARCHIVE");
  const Uuid person = make(Kind::agent, "A-1");
  const Uuid source = make(Kind::source, "S-1");
  const Uuid other = make(Kind::source, "S-2");
  const Uuid element = make(Kind::element, "E-1");
  const auto say = [&](const Uuid& subject, const char* property, const std::string& value,
                       Content content = {}) {
    content.subject = subject;
    content.property = Registry::standard().named(property).id;
    content.value = value;
    const bool cited = Registry::standard().named(property).cites != Cites::none;
    if (cited && subject != source) {
      content.evidence = EvidenceClass::physical;
      content.confidence = Confidence::probable;
      if (content.citations.empty()) content.citations.push_back({source, "p. 1", "the \"words\"; a=b | c"});
    }
    return writer->add(content);
  };
  say(source, "source-type", "photograph");
  std::vector<Digest> notes;
  for (const char* word :
       {"=1+1", "'tis", "''", "-5", "- 5", "+x", "@x", "a;b=c", "two\nlines", "{x=y}", "a | b", "\"q\"",
        "\xD7\xA9\xE2\x80\xAE"
        "x",
        " leads"})
    notes.push_back(
        say(element, "description", std::string(word).front() == ' ' ? "x" + std::string(word) : word));
  Content detailed;
  detailed.qualifiers = {{"share", "a third; where=left"}, {"where", "=top;"}};
  detailed.author = person;
  detailed.said_on = "2024-05~";
  detailed.citations = {{source, "p. 2", ""}, {other, "", "quoted"}};
  say(element, "new-fabric", "lime; sand=2", detailed);
  Content corrected;
  corrected.targets = {notes[0]};
  corrected.why = "slip = of the pen";
  const Digest right = say(element, "description", "two", corrected);
  Content withdrawn;
  withdrawn.act = Act::withdraw;
  withdrawn.targets = {notes[1]};
  withdrawn.why = "@wrong";
  writer->add(withdrawn);
  Content concluded;
  concluded.grounds = {right, notes[2]};
  say(element, "made", "about 1890", concluded);
  writer->commit();
  Press press;
  const auto reader = archive.read();
  press.folder(*reader, "tables", folder / "sheets");
  for (const auto& note : press.ear.notes) CHECK(note == "");
  const auto back = taken_in(folder / "sheets", folder / "back", clock);
  const auto before = all_told(*reader);
  const auto after = all_told(*back->read());
  CHECK(joined(differing(before, after)) == "");
  CHECK(joined(differing(after, before)) == "");
  if (have_python()) CHECK(joined(judged({"csvw=" + (folder / "sheets").string()})) == "");
}
