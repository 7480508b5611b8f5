// Canary words in every private place: no public output sings, every private one does.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cctype>
#include <map>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

// Every canary begins with this, so that one search finds any of them.
const std::string kCanary = "zqcanary";

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

class Aviary : public House {
public:
  Aviary() {
    begin();
    take_in(archive, usual_sheets());
    take_in(archive,
            {{"agents.csv",
              "code,name,agent-type,source,class,confidence\nZQCANARYAGENTCODE,Zqcanaryagentname,person,S-1,"
              "physical,certain\n"},
             {"sources.csv",
              "code,source-type,title,creator,source-date,class,confidence\n"
              "INT-1,interview,Talk with the neighbour,,2024-05-01,oral,certain\n"
              "ZQCANARYSOURCECODE,letter,Zqcanarysourcetitle,Zqcanarycreator,1911,documentary,certain\n"
              "S-2,photograph,North wall,,1908,documentary,certain\n"},
             {"places.csv",
              "code,name,place-type,within,source,class,confidence\nZQCANARYROOMCODE,Zqcanaryroomname,room,B,"
              "S-1,physical,certain\n"},
             {"elements.csv",
              "code,name,element-type,stands-in,installed,source,class,confidence\n"
              "ZQCANARYELEMENTCODE,Zqcanaryelementname,safe,201 {face=north wall; role=stands "
              "in},1901,S-1,physical,certain\n"},
             {"samples.csv",
              "code,sample-from,remainder,source,class,confidence\nSA-1,N-2,zqcanaryremainder "
              "drawer,S-1,physical,certain\n"}});
    const auto secret = std::vector<std::string>{"--private", "zqcanaryreason", "--why", "zqcanarywhy",
                                                 "--quote",   "zqcanaryquote",  "--at",  "zqcanarylocator"};
    const auto put = [&](const std::string& subject, const std::string& property, const std::string& value,
                         std::vector<std::string> more) {
      return say(archive, subject, property, value, more);
    };
    auto with = secret;
    with.insert(with.end(), {"--with", "share=zqcanaryshare", "--with", "where=zqcanarywhere"});
    put("N-1", "new-fabric", "zqcanaryvalue", with);
    put("N-1", "installed", "1890", {});
    put("N-2", "installed", "1925", {});
    put("N-3", "seen-in", "S-2", {"--with", "feature=zqcanaryfeature", "--private", "asked for"});
    put("N-1.01", "whereabouts", "zqcanarywhereabouts shelf", {});
    const auto hidden = put("N-2", "note", "zqcanarywithdrawn", {"--private", "asked for"});
    done({"withdraw", hidden, "--why", "zqcanarywithdrawal"});
    const auto open = put("N-2", "description", "a thin coat", {});
    done({"amend", open, "zqcanaryamended", "--why", "zqcanaryamendwhy", "--private", "asked for"});
    done({"say", "N-3", "note", "zqcanaryinterviewvalue", "--source", "INT-1", "--quote",
          "zqcanaryinterviewquote", "--class", "oral", "--confidence", "probable"});
    write_file(folder / "open.png", "a picture for all");
    put("S-1", "media", (folder / "open.png").string(), {});
    write_file(folder / "zqcanaryfile.png", "ZQCANARYPICTURE");
    done({"say", "S-2", "media", (folder / "zqcanaryfile.png").string(), "--private", "shows a living person",
          "--with", "file-name=zqcanaryfile.png", "--source", "S-1", "--class", "physical", "--confidence",
          "certain"});
    put("N-3", "condition", "sound, by an author who is hidden",
        {"--by", "ZQCANARYAGENTCODE", "--on", "2024-05-02"});
    put("N-3", "note", "entered by one who is hidden", {"--recorder", "ZQCANARYAGENTCODE"});
    done({"say", "N-3", "description", "told by a hidden letter", "--source", "ZQCANARYSOURCECODE", "--class",
          "documentary", "--confidence", "certain"});
    done({"new", "label", "L-1"});
    put("L-1", "transcription", "ZQCANARYLABEL [...]", {"--private", "an address"});
    put("N-2", "intended-for", "ZQCANARYROOMCODE", {"--with", "part=zqcanarypart"});
    for (const char* code :
         {"ZQCANARYAGENTCODE", "ZQCANARYSOURCECODE", "ZQCANARYROOMCODE", "ZQCANARYELEMENTCODE"}) {
      done({"say", code, "private-record", "zqcanaryhiding"});
    }
    done({"say", "ARCHIVE", "archive-name", "The Fairlead"});
  }

  /// What each command says, on both streams and in the files it writes; keyed by the command.
  std::map<std::string, std::string> outputs(bool with_private) {
    std::map<std::string, std::string> said;
    const auto hear = [&](std::vector<std::string> arguments) {
      std::string name;
      for (const auto& one : arguments) name += (name.empty() ? "" : " ") + one;
      if (with_private) arguments.emplace_back("--with-private");
      const auto ran = run(arguments);
      said[name] = lower(ran.out + ran.err);
      return ran.code;
    };
    std::vector<std::string> codes{"ARCHIVE", "ME",  "S-1",    "S-2",  "INT-1", "B",   "201", "N-1",
                                   "N-2",     "N-3", "N-1.01", "SA-1", "K-1",   "K-2", "L-1"};
    if (with_private) {
      codes.insert(codes.end(),
                   {"ZQCANARYAGENTCODE", "ZQCANARYSOURCECODE", "ZQCANARYROOMCODE", "ZQCANARYELEMENTCODE"});
    }
    for (const auto& code : codes) {
      CHECK(hear({"show", code}) == 0);
      CHECK(hear({"show", code, "--json"}) == 0);
      CHECK(hear({"show", code, "--all"}) == 0);
      CHECK(hear({"show", code, "--all", "--json"}) == 0);
      for (const auto& [property, unused] : asked()) hear({"why", code, property});
    }
    for (const char* typed : {"ZQCANAR", "ZQCANAYAGENTCODE", "ZQCNARYROOMCODE"}) hear({"show", typed});
    for (const char* words :
         {"zqcanary", "zqcanaryvalue", "zqcanarylabel", "canaryl", "hidden", "zqcanaryinterviewquote"}) {
      hear({"find", words});
      hear({"find", words, "--json"});
    }
    hear({"show", "N-1", "--known-on", "2026-05-03"});
    hear({"show", "N-3", "--known-on", "2026-05-03", "--json"});
    hear({"tally"});
    hear({"tally", "--json"});
    hear({"made-for", "201"});
    hear({"made-for", "201", "--json"});
    hear({"properties"});
    hear({"write-out", "-"});
    const auto file = folder / (with_private ? "private.xml" : "public.xml");
    hear({"write-out", file.string(), "--json"});
    said["media beside the document"] =
        folder_holds(file.string() + ".media", "ZQCANARYPICTURE") ? "zqcanarypicture" : "";
    plugin_outputs(said, hear, with_private);
    return said;
  }

private:
  static const std::map<std::string, int>& asked() {
    static const std::map<std::string, int> all{
        {"description", 0}, {"new-fabric", 0}, {"condition", 0}, {"note", 0}, {"seen-in", 0}};
    return all;
  }

  template <typename Hear>
  void plugin_outputs(std::map<std::string, std::string>& said, const Hear& hear, bool with_private) {
    for (const char* code : {"N-1", "N-2", "N-3"}) {
      CHECK(hear({"why", code}) == 0);
      CHECK(hear({"why", code, "--json"}) == 0);
    }
    for (const char* place : {"201", "B"}) {
      CHECK(hear({"history", place}) == 0);
      CHECK(hear({"history", place, "--json"}) == 0);
    }
    const auto page = folder / (with_private ? "private.html" : "public.html");
    CHECK(hear({"history", "201", "--html", page.string()}) == 0);
    said["the page of the history"] = lower(read_file(page));
    CHECK(hear({"export", "crm", "-"}) == 0);
    const std::string base = "https://example.org/aviary/";
    for (const char* format : {"csl-json", "bibtex"})
      CHECK(hear({"export", "citations", "-", "--format", format, "--base", base}) == 0);
    for (const char* format : {"lido", "every-piece"})
      CHECK(hear({"export", "lido", "-", "--format", format, "--base", base}) == 0);
    for (const auto& [plugin, format] : std::map<std::string, std::string>{
             {"bag", "bag"}, {"dublin-core", "records"}, {"tables", "csvw"}, {"iiif", "manifests"}}) {
      const auto to = folder / (plugin + (with_private ? "-private" : "-public"));
      hear({"export", plugin, to.string(), "--format", format, "--base", base});
      if (!fs::exists(to)) continue;  // no pictures for IIIF
      std::string all;
      for (const auto& entry : fs::recursive_directory_iterator(to))
        if (entry.is_regular_file()) all += entry.path().filename().string() + read_file(entry.path());
      said["the folder of " + plugin] = lower(all);
    }
  }
};

}  // namespace

TEST_CASE("no canary word gets out of a private place", "[slow]") {
  Aviary house;
  const auto open = house.outputs(false);
  CHECK(open.size() > 100);
  for (const auto& [command, said] : open) {
    const auto at = said.find(kCanary);
    INFO("lathbook " << command);
    CHECK((at == std::string::npos ? "" : said.substr(at < 60 ? 0 : at - 60, 160)) == "");
  }
  CHECK_THAT(open.at("show N-3"),
             Contains("sound, by an author who is hidden") && Contains("whose name is withheld"));

  // The words are there to be found: with the private parts asked for, each comes out.
  const auto all = house.outputs(true);
  for (const char* word :
       {"reason",      "why",         "quote",          "locator",        "share",     "where",
        "value",       "feature",     "whereabouts",    "remainder",      "withdrawn", "withdrawal",
        "amended",     "amendwhy",    "interviewvalue", "interviewquote", "file.png",  "agentname",
        "agentcode",   "sourcetitle", "sourcecode",     "roomname",       "roomcode",  "elementname",
        "elementcode", "label",       "part",           "hiding"}) {
    INFO(kCanary << word);
    CHECK_THAT(all.at("write-out -"), Contains(kCanary + word));
    if (std::string(word) == "withdrawal")
      continue;  // a withdrawal is shown where the withdrawn statement is
    CHECK(std::any_of(all.begin(), all.end(), [&](const auto& pair) {
      return pair.first.rfind("show ", 0) == 0 && pair.second.find(kCanary + word) != std::string::npos;
    }));
  }
  CHECK_THAT(all.at("find zqcanaryvalue"), Contains("zqcanaryvalue"));
  CHECK_THAT(all.at("media beside the document"), Contains(kCanary));
  const auto sings = [&](const std::string& command) { CHECK_THAT(all.at(command), Contains(kCanary)); };
  sings("history 201");
  sings("history 201 --json");
  sings("the page of the history");
  sings("export crm -");
  sings("the folder of bag");
  sings("the folder of tables");
  sings("the folder of dublin-core");
  sings("export lido - --format every-piece --base https://example.org/aviary/");
  sings("export citations - --format csl-json --base https://example.org/aviary/");
}

TEST_CASE("a public copy restored elsewhere holds no canary word in any byte", "[slow]") {
  Aviary house;
  const auto document = house.folder / "public.xml";
  house.done({"write-out", document.string()});
  const auto restored = house.folder / "restored";
  CHECK_THAT(house.done({"restore", document.string(), restored.string()}),
             Catch::Contains("withheld: this copy knows that something was said, and not what"));
  for (const auto& entry : fs::recursive_directory_iterator(restored)) {
    if (entry.is_regular_file()) CHECK(lower(read_file(entry.path())).find(kCanary) == std::string::npos);
  }
  CHECK(house.in(restored, {"check"}).code == 0);
  // A later merge with the whole archive fills what was withheld.
  CHECK(house.done_in(restored, {"merge", house.archive.string(), "--json"}).find("\"filled\"") !=
        std::string::npos);
  CHECK(house.everything(restored) == house.everything(house.archive));
}
