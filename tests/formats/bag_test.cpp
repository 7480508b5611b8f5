// Bags of other programs, judged as the published suite expects; bags of ours, packed, broken and restored.
#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <map>

#include "core/base/digest.hpp"
#include "core/exchange/bag.hpp"
#include "tests/acceptance/house.hpp"
#include "tests/formats/press.hpp"

using namespace lathbook;
using namespace lathbook::test;
namespace fs = std::filesystem;
using Catch::Contains;

namespace {

std::string told(const BagVerdict& verdict) {
  std::string text;
  for (const auto& finding : verdict.findings)
    text += std::string(finding.severity == Severity::fault ? "fault " : "warning ") + finding.code + " " +
            finding.place + ": " + finding.text + "\n";
  return text;
}

bool has(const BagVerdict& verdict, const std::string& code) {
  return std::any_of(verdict.findings.begin(), verdict.findings.end(),
                     [&](const Finding& finding) { return finding.code == code; });
}

/// Bags of the suite whose verdict here differs from the folder they lie in, with the reason.
const std::map<std::string, std::string>& exceptions() {
  static const std::map<std::string, std::string> all{
      {"v0.97/warning/duplicate-file-with-different-case",
       "HELLO.txt is listed and, on a disk that tells capitals apart, is not there"},
      {"v0.97/warning/special-system-files",
       "data/.DS_Store is listed and was left out of the published suite"}};
  return all;
}

/// A small bag, made by hand: path and bytes of the payload.
void make_bag(const fs::path& folder, const std::map<std::string, std::string>& payload,
              const std::string& version = "1.0") {
  write_file(folder / "bagit.txt", "BagIt-Version: " + version + "\nTag-File-Character-Encoding: UTF-8\n");
  std::string manifest;
  for (const auto& [listed, bytes] : payload) {
    NamedHash hash("sha256");
    hash.add(bytes);
    manifest += hash.finish() + "  " + listed + "\n";
  }
  write_file(folder / "manifest-sha256.txt", manifest);
}

}  // namespace

TEST_CASE("every bag of the published suite gets the verdict that it expects") {
  if (!have_standards()) return;
  const fs::path suite = standards() / "bagit";
  std::size_t judged_bags = 0;
  std::size_t excepted = 0;
  for (const auto& version : fs::directory_iterator(suite)) {
    if (!version.is_directory()) continue;
    for (const auto& group : fs::directory_iterator(version.path())) {
      for (const auto& bag : fs::directory_iterator(group.path())) {
        if (!bag.is_directory()) continue;
        ++judged_bags;
        const std::string expected = group.path().filename();
        const std::string name = fs::relative(bag.path(), suite).generic_string();
        const auto verdict = verify_bag(bag.path());
        INFO(name << "\n" << told(verdict));
        const auto exception = exceptions().find(name);
        if (exception != exceptions().end()) {
          ++excepted;
          INFO("excepted: " << exception->second);
          CHECK_FALSE(verdict.valid());
          continue;
        }
        CHECK(verdict.valid() == (expected == "valid" || expected == "warning"));
        if (expected == "warning") CHECK(verdict.findings.size() > 0);
        if (expected == "linux-only" || expected == "windows-only") CHECK(has(verdict, "bag.path"));
      }
    }
  }
  CHECK(judged_bags >= 50);
  CHECK(excepted == exceptions().size());
}

// RFC 8493, sections 2.1.3 and 5.1: the suite has no bag for these.
TEST_CASE("names with %, carriage returns and line feeds are decoded in version 1.0 alone") {
  const TempFolder folder;
  const std::map<std::string, std::string> listed{
      {"data/a%0Ab", "1"}, {"data/50%25.txt", "2"}, {"data/c%0dd", "3"}};
  make_bag(folder / "new", listed);
  write_file(folder / "new" / "data" / "a\nb", "1");
  write_file(folder / "new" / "data" / "50%.txt", "2");
  write_file(folder / "new" / "data" / "c\rd", "3");
  CHECK(told(verify_bag(folder / "new")) == "");
  make_bag(folder / "old", listed, "0.97");
  for (const auto& [path, bytes] : listed) write_file(folder / "old" / path, bytes);
  CHECK(told(verify_bag(folder / "old")) == "");
  // A lone per cent sign stands for itself, and is told.
  make_bag(folder / "lone", {{"data/50%.txt", "2"}});
  write_file(folder / "lone" / "data" / "50%.txt", "2");
  const auto lone = verify_bag(folder / "lone");
  CHECK(lone.valid());
  CHECK_THAT(told(lone), Contains("%25"));
}

TEST_CASE("what version 1.0 forbids is a fault there and a warning in drafts") {
  const TempFolder folder;
  const auto both = [&](const std::string& name, const std::function<void(const fs::path&)>& spoil,
                        const std::string& code) {
    for (const char* version : {"1.0", "0.97"}) {
      const auto bag = folder / (name + version);
      make_bag(bag, {{"data/x", "1"}}, version);
      write_file(bag / "data" / "x", "1");
      spoil(bag);
      const auto verdict = verify_bag(bag);
      INFO(name << " " << version << "\n" << told(verdict));
      CHECK(has(verdict, code));
      CHECK(verdict.valid() == (std::string(version) != "1.0"));
    }
  };
  both(
      "twice",
      [](const fs::path& bag) {
        const auto manifest = read_file(bag / "manifest-sha256.txt");
        write_file(bag / "manifest-sha256.txt", manifest + manifest);
      },
      "bag.twice");
  both(
      "star",
      [](const fs::path& bag) {
        auto manifest = read_file(bag / "manifest-sha256.txt");
        write_file(bag / "manifest-sha256.txt", manifest.replace(manifest.find("  data"), 2, " *"));
      },
      "bag.line");
  both(
      "oxum",
      [](const fs::path& bag) { write_file(bag / "bag-info.txt", "Payload-Oxum: 1.1\nPayload-Oxum: 1.1\n"); },
      "bag.oxum");
  both(
      "info", [](const fs::path& bag) { write_file(bag / "bag-info.txt", "Contact-Name : me\nno label\n"); },
      "bag.info");
  const auto blank = folder / "blank";
  make_bag(blank, {{"data/x", "1"}});
  write_file(blank / "data" / "x", "1");
  write_file(blank / "bagit.txt", "BagIt-Version : 1.0\nTag-File-Character-Encoding: UTF-8\n");
  CHECK(has(verify_bag(blank), "bag.declaration"));
  write_file(blank / "bagit.txt", "BagIt-Version: 1.0 \nTag-File-Character-Encoding: UTF-8\n");
  CHECK(has(verify_bag(blank), "bag.declaration"));
}

TEST_CASE("every version 1.0 manifest must list every file") {
  const TempFolder folder;
  const auto bag = folder / "bag";
  make_bag(bag, {{"data/x", "1"}, {"data/y", "2"}});
  write_file(bag / "data" / "x", "1");
  write_file(bag / "data" / "y", "2");
  NamedHash hash("sha512");
  hash.add("1");
  write_file(bag / "manifest-sha512.txt", hash.finish() + "  data/x\n");
  CHECK(has(verify_bag(bag), "bag.unlisted"));
}

TEST_CASE("the archive packed as a bag is valid, and comes back the same") {
  House house;
  house.begin();
  house.take_in(house.archive, usual_sheets());
  write_file(house.folder / "a photo \xF0\x9F\x93\xB7 50%.png", "the back of tile 14");
  house.say(house.archive, "S-1", "media", (house.folder / "a photo \xF0\x9F\x93\xB7 50%.png").string());
  const auto gone = house.say(house.archive, "N-3", "note", "words that go");
  house.done({"expunge", gone, "--why", "asked for", "--i-am-sure"});
  house.say(house.archive, "N-1", "note", "the key is under the slate", {"--private", "safety"});
  for (const bool with_private : {false, true}) {
    const std::string name = with_private ? "private" : "public";
    std::vector<std::string> arguments{"export", "bag", (house.folder / name).string(), "--base", kBase};
    if (with_private) arguments.push_back("--with-private");
    house.done(arguments);
    const auto bag = house.folder / name;
    CHECK(told(verify_bag(bag)) == "");
    CHECK(folder_holds(bag, "under the slate") == with_private);
    if (!standards().empty())
      CHECK(joined(against_schema("premis/premis-v3-0.xsd", {bag / "data" / "premis.xml"})) == "");
    CHECK_THAT(read_file(bag / "data" / "premis.xml"), Contains("deletion") && Contains("ingestion"));
    CHECK_THAT(house.done({"verify-bag", bag.string()}), Contains("is a valid bag, version 1.0"));
    const auto back = house.folder / (name + "-back");
    house.done({"restore", bag.string(), back.string()});
    CHECK(house.fingerprint(back) == house.fingerprint(house.archive));
    if (with_private) CHECK(house.everything(back) == house.everything(house.archive));
    CHECK(house.in(back, {"check"}).code == 0);
    // Packed again from the copy: the same bytes.
    auto again = arguments;
    again[2] = (house.folder / (name + "-again")).string();
    house.done_in(back, again);
    CHECK(read_file(house.folder / (name + "-again") / "manifest-sha512.txt") ==
          read_file(bag / "manifest-sha512.txt"));
  }
  // A bag that was changed is not restored, and each change is told.
  const auto bag = house.folder / "public";
  write_file(bag / "data" / "report.txt", "another report");
  write_file(bag / "data" / "more.txt", "not listed");
  fs::remove(bag / "data" / "premis.xml");
  fs::create_symlink("/etc/hostname", bag / "data" / "link");
  const auto verdict = verify_bag(bag);
  INFO(told(verdict));
  for (const char* code : {"bag.digest", "bag.unlisted", "bag.missing", "bag.link", "bag.oxum"})
    CHECK(has(verdict, code));
  const auto judged_bag = house.run({"verify-bag", bag.string(), "--json"});
  CHECK(judged_bag.code == 1);
  CHECK_THAT(judged_bag.out, Contains("\"valid\": false"));
  const auto refused = house.run({"restore", bag.string(), (house.folder / "never").string()});
  CHECK(refused.code == 5);
  CHECK(is_one_sentence(refused.err));
  CHECK_FALSE(fs::exists(house.folder / "never"));
  CHECK_THAT(house.run({"export", "bag", (house.folder / "part").string(), "--of", "201"}).err,
             Contains("holds the whole archive"));
}
