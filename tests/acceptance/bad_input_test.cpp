// Bad input: one clear sentence, an exit code that is not 0, and nothing changed.
#include <fcntl.h>
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <fstream>
#include <functional>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

struct Begun : House {
  Begun() {
    begin();
    take_in(archive, usual_sheets());
    document = everything(archive);
  }

  // A document that cannot be restored: one sentence, no folder left.
  void check_refused(const fs::path& file, const std::string& words) const {
    const auto target = folder / "restored";
    const auto ran = run({"restore", file.string(), target.string()});
    INFO(ran.err.substr(0, 500) << ran.out.substr(0, 500));
    CHECK(ran.code != 0);
    CHECK(ran.code < 100);
    CHECK(is_one_sentence(ran.err));
    CHECK(ran.err.size() < 1000);
    CHECK_THAT(ran.err, Contains(words));
    CHECK(ran.out == "");
    CHECK_FALSE(fs::exists(target));
  }
  void check_refused_text(const std::string& text, const std::string& words) const {
    write_file(folder / "bad.xml", text);
    check_refused(folder / "bad.xml", words);
  }
  std::string with(const std::string& what, const std::string& by) const {
    auto text = document;
    const auto at = text.find(what);
    if (at == std::string::npos) throw std::runtime_error("the document has no " + what);
    return text.replace(at, what.size(), by);
  }

  // A sheet that cannot be taken in: one line that names file, line and column, nothing changed.
  void check_sheet(const std::string& name, const std::string& text,
                   const std::vector<std::string>& words) const {
    write_file(folder / "bad" / name, text);
    const auto ran = run({"take-in", (folder / "bad" / name).string()});
    INFO(ran.err << ran.out);
    CHECK(ran.code != 0);
    CHECK(ran.code < 100);
    CHECK(std::count(ran.err.begin(), ran.err.end(), '\n') == 1);
    for (const auto& word : words) CHECK_THAT(ran.err, Contains(word));
    CHECK(everything(archive) == document);
  }

  std::string document;
};

// Writes to a pipe that the program reads as its document; the writer is a process of its own.
pid_t feed(const fs::path& pipe, const std::function<void(std::ostream&)>& write) {
  ::mkfifo(pipe.c_str(), 0600);
  const pid_t child = ::fork();
  if (child == 0) {
    ::signal(SIGPIPE, SIG_DFL);
    ::alarm(120);
    std::ofstream out(pipe, std::ios::binary);
    write(out);
    ::_exit(0);
  }
  return child;
}

}  // namespace

TEST_CASE("bad documents are refused in one sentence and leave no folder") {
  Begun house;
  SECTION("malformed XML") {
    house.check_refused_text(house.with("</says>", "</sayz>"), "bad.xml:");
  }
  SECTION("cut off") {
    house.check_refused_text(house.document.substr(0, house.document.size() / 2), "bad.xml:");
  }
  SECTION("no XML at all") {
    house.check_refused_text("Dear Sir,\nthank you for the tiles.\n", "bad.xml:");
  }
  SECTION("elements in the wrong order") {
    const auto value = house.document.find("<value>");
    const auto end = house.document.find("</value>", value) + 8;
    const auto says = house.document.find("</says>", end);
    auto text = house.document;
    const auto moved = text.substr(value, end - value);
    text.insert(says, "<why>first</why>" + moved);
    text.erase(value, end - value);
    house.check_refused_text(text, "bad.xml:");
  }
  SECTION("an unknown element") {
    house.check_refused_text(house.with("<value>", "<worth>x</worth><value>"), "worth");
  }
  SECTION("an unknown property") {
    house.check_refused_text(house.with("property=\"code\" property-id=\"2\"",
                                        "property=\"colour-of-ghost\" property-id=\"9999\""),
                             "colour-of-ghost");
  }
  SECTION("a statement changed") {
    house.check_refused_text(house.with(">Ada Reed<", ">Eda Reed<"), "changed");
  }
  SECTION("an empty file") {
    house.check_refused_text("", "empty");
  }
  SECTION("a folder") {
    fs::create_directories(house.folder / "a-folder");
    house.check_refused(house.folder / "a-folder", "folder");
  }
  SECTION("a missing file") {
    house.check_refused(house.folder / "nowhere.xml", "nowhere.xml");
  }
  SECTION("bytes of Latin-1") {
    house.check_refused_text(house.with(">Ada Reed<", ">Ad\xE9 Reed<"), "UTF-8");
  }
  SECTION("Latin-1 declared as such") {
    house.check_refused_text("<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?>\n<lathbook>\xE9</lathbook>\n",
                             "bad.xml:");
  }
  SECTION("billion laughs") {
    std::string text = "<?xml version=\"1.0\"?>\n<!DOCTYPE lolz [<!ENTITY lol0 \"lol\">";
    for (int i = 1; i < 10; ++i) {
      text += "<!ENTITY lol" + std::to_string(i) + " \"";
      for (int j = 0; j < 10; ++j) text += "&lol" + std::to_string(i - 1) + ";";
      text += "\">";
    }
    house.check_refused_text(text + "]>\n<lolz>&lol9;</lolz>\n", "document type");
  }
  SECTION("an external entity") {
    house.check_refused_text(
        "<?xml version=\"1.0\"?>\n<!DOCTYPE a [<!ENTITY x SYSTEM \"file:///etc/passwd\">]>\n<a>&x;</a>\n",
        "document type");
    CHECK_FALSE(folder_holds(house.folder.path(), "root:x:"));
  }
}

TEST_CASE("an attribute of 64 MiB is refused at once") {
  Begun house;
  const auto big = house.with("chain=\"", "chain=\"" + std::string(std::size_t{64} << 20U, 'a'));
  const auto begin = std::chrono::steady_clock::now();
  house.check_refused_text(big, "bad.xml:");
  CHECK(std::chrono::steady_clock::now() - begin < std::chrono::seconds(60));
}

TEST_CASE("an attribute of 2 GB that arrives through a pipe is refused after a little of it") {
  Begun house;
  const auto pipe = house.folder / "endless.xml";
  const auto at = house.document.find("chain=\"") + 7;
  const pid_t writer = feed(pipe, [&](std::ostream& out) {
    out << house.document.substr(0, at);
    const std::string piece(std::size_t{1} << 20U, 'a');
    for (int i = 0; i < 2048 && out; ++i) out << piece;
  });
  const auto begin = std::chrono::steady_clock::now();
  house.check_refused(pipe, "endless.xml");
  CHECK(std::chrono::steady_clock::now() - begin < std::chrono::seconds(60));
  ::kill(writer, SIGKILL);
  int status = 0;
  ::waitpid(writer, &status, 0);
}

TEST_CASE("bad sheets are refused by file, line and column and change nothing") {
  Begun house;
  const std::string grounds = ",source,class,confidence\n";
  const std::string ground = ",S-1,physical,certain\n";
  SECTION("a dangling reference") {
    house.check_sheet("relations.csv",
                      "from,relation,to,contact" + grounds + "N-1,covers,N-404,laps over" + ground,
                      {"relations.csv:2", "to", "N-404"});
  }
  SECTION("a circle of part-of") {
    house.check_sheet("elements.csv", "code,element-type,part-of" + grounds + "C-1,post,C-1" + ground,
                      {"elements.csv:2", "C-1"});
  }
  SECTION("an invalid date") {
    house.check_sheet("elements.csv",
                      "code,element-type,installed" + grounds + "C-1,post,1924-02-30" + ground,
                      {"elements.csv:2", "installed", "1924-02-30"});
  }
  SECTION("an unknown property") {
    house.check_sheet("statements.csv",
                      "subject,property,value" + grounds + "N-1,colour-of-ghost,white" + ground,
                      {"statements.csv:2", "colour-of-ghost"});
  }
  SECTION("an unknown column") {
    house.check_sheet("elements.csv", "code,ghostliness\nC-1,high\n", {"elements.csv:1", "ghostliness"});
  }
  SECTION("a code that is taken") {
    house.check_sheet("elements.csv", "code,element-type" + grounds + "N-1,post" + ground,
                      {"elements.csv:2", "N-1"});
  }
  SECTION("bytes of Latin-1") {
    house.check_sheet("elements.csv", "code,element-type" + grounds + "C-1,p\xF4st" + ground,
                      {"elements.csv:2", "UTF-8"});
  }
  SECTION("a quotation mark that is never closed") {
    house.check_sheet("elements.csv", "code,element-type" + grounds + "C-1,\"post" + ground,
                      {"elements.csv:2"});
  }
  SECTION("an empty file") {
    house.check_sheet("elements.csv", "", {"elements.csv"});
  }
  SECTION("a name that tells nothing") {
    house.check_sheet("ghosts.csv", "code\nC-1\n", {"ghosts.csv"});
  }
  SECTION("a missing file") {
    const auto ran = house.run({"take-in", (house.folder / "elements.csv").string()});
    CHECK(ran.code == 3);
    CHECK(is_one_sentence(ran.err));
  }
  SECTION("a folder without sheets") {
    fs::create_directories(house.folder / "no-sheets");
    const auto ran = house.run({"take-in", (house.folder / "no-sheets").string()});
    CHECK(ran.code != 0);
    CHECK(is_one_sentence(ran.err));
  }
  SECTION("a picture that is not there") {
    house.check_sheet("sources.csv",
                      "code,source-type,title,media,class,confidence\nS-9,photograph,North "
                      "wall,gone.png,documentary,certain\n",
                      {"sources.csv:2", "gone.png"});
  }
  SECTION("a picture outside the folder") {
    house.check_sheet("sources.csv",
                      "code,source-type,title,media,class,confidence\nS-9,photograph,North "
                      "wall,../../../etc/passwd,documentary,certain\n",
                      {"sources.csv:2", "passwd"});
  }
}

TEST_CASE("two circles of part-of through several rows are refused") {
  Begun house;
  write_file(house.folder / "elements.csv",
             "code,element-type,part-of,source,class,confidence\nC-1,post,C-2,S-1,physical,certain\n"
             "C-2,post,C-3,S-1,physical,certain\nC-3,post,C-1,S-1,physical,certain\n");
  const auto ran = house.run({"take-in", (house.folder / "elements.csv").string()});
  CHECK(ran.code == 1);
  CHECK_THAT(ran.err, Contains("elements.csv:") && Contains("circle"));
  CHECK(house.everything(house.archive) == house.document);
}

TEST_CASE("bad words on the command line change nothing") {
  Begun house;
  const std::vector<std::string> ground{"--source", "S-1", "--class", "physical", "--confidence", "certain"};
  const auto check = [&](std::vector<std::string> arguments, int code, const std::string& words) {
    if (arguments[0] == "say") arguments.insert(arguments.end(), ground.begin(), ground.end());
    const auto ran = house.run(arguments);
    INFO(arguments[0] << ' ' << arguments[1] << ": " << ran.err << ran.out);
    CHECK(ran.code == code);
    CHECK(is_one_sentence(ran.err));
    CHECK_THAT(ran.err, Contains(words));
    CHECK(house.everything(house.archive) == house.document);
  };
  check({"say", "N-404", "note", "x"}, 3, "N-404");
  check({"say", "N-1", "colour-of-ghost", "x"}, 4, "colour-of-ghost");
  check({"say", "N-1", "installed", "1924-02-30"}, 4, "1924-02-30");
  check({"say", "N-1", "installed", "after the 1926 permit"}, 4, "permit");
  check({"say", "N-1", "element-type", "second answer"}, 4, "already has an answer");
  check({"say", "N-1", "part-of", "N-1"}, 4, "itself");
  check({"say", "N-1", "note", "Latin-1 \xE9"}, 4, "UTF-8");
  check({"say", "S-1", "media", "/nowhere/at/all.png"}, 3, "all.png");
  check({"new", "element", "N-1"}, 4, "already in use");
  check({"new", "unicorn", "U-1"}, 4, "unicorn");
  check({"withdraw", "nonsense", "--why", "x"}, 4, "nonsense");
  check({"check", "--fingerprint", "abc"}, 4, "64");
  check({"begin", house.archive.string()}, 4, "not empty");
}
