// Every way in which a file can be no plugin of ours, each with its sentence; the good one beside them works
// on.
#include <catch2/catch.hpp>
#include <sstream>

#include "core/plugin/descriptor.hpp"
#include "tests/plugin/plugin_bench.hpp"

using namespace lathbook;
using namespace lathbook::test;

namespace fs = std::filesystem;

namespace {

/// The reason for which the host refuses this file; the example beside it must load and work all the same.
std::string refusal(Bench& bench, const fs::path& file) {
  if (!fs::exists(bench.file("example"))) bench.take("example");
  PluginHost host = bench.host();
  std::string reason = "not looked at";
  for (const PluginInfo& info : host.discover())
    if (info.file == file) reason = info.loaded ? "loaded" : info.reason;
  std::ostringstream out;
  host.report_to("example", bench.archive, {}, out);
  CHECK(out.str().find("state of the archive") != std::string::npos);
  return reason;
}

}  // namespace

TEST_CASE("a good plugin loads") {
  Bench bench;
  bench.take("example");
  PluginHost host = bench.host();
  const auto found = host.discover();
  REQUIRE(found.size() == 1);
  CHECK(found[0].reason.empty());
  CHECK(found[0].loaded);
  CHECK(found[0].name == "example");
  CHECK(found[0].version == "1.0");
  CHECK(found[0].kind == "report");
  CHECK(found[0].summary == "counts the records of an archive by kind");
  CHECK(found[0].file == bench.file("example"));
}

TEST_CASE("files that are no shared library") {
  Bench bench;
  const fs::path file = bench.file("wrong");
  SECTION("text") {
    write_file(file, "kind,records\nplace,15\n");
    CHECK(refusal(bench, file) == "it is not a shared library: it does not begin as one");
  }
  SECTION("a few bytes") {
    write_file(file, "ab");
    CHECK(refusal(bench, file) == "it is not a shared library: it does not begin as one");
  }
  SECTION("empty") {
    write_file(file, "");
    CHECK(refusal(bench, file) == "it is empty");
  }
  SECTION("a folder") {
    fs::create_directory(file);
    CHECK(refusal(bench, file) == "it is a folder");
  }
  SECTION("a link to nothing") {
    fs::create_symlink(bench.folder / "nothing", file);
    CHECK(refusal(bench, file) == "there is no such file");
  }
  SECTION("another kind of machine") {
    std::string bytes = read_file(bench.take("plain", "wrong"));
    bytes[18] = static_cast<char>(bytes[18] + 1);  // e_machine (System V ABI, chapter 4, ELF header)
    write_file(file, bytes);
    CHECK(refusal(bench, file) == "it is made for another kind of machine");
  }
  SECTION("another kind of object file") {
    std::string bytes = read_file(bench.take("plain", "wrong"));
    bytes[16] = 1;  // e_type: relocatable
    write_file(file, bytes);
    CHECK(refusal(bench, file) == "it is not a shared library but another kind of object file");
  }
}

TEST_CASE("a library cut short is refused wherever it is cut, stripped or not") {
  const std::string name = GENERATE("plain", "stripped");
  Bench bench;
  const std::string whole = read_file(bench.take(name));
  for (std::size_t percent = 1; percent < 100; percent += 3) {
    write_file(bench.file(name), whole.substr(0, whole.size() * percent / 100));
    INFO(name << " cut at " << percent << " %");
    const std::string reason = refusal(bench, bench.file(name));
    CHECK(reason.rfind("it is cut short or damaged: its own tables reach beyond its ", 0) == 0);
  }
  write_file(bench.file(name), whole.substr(0, whole.size() - 1));
  CHECK(refusal(bench, bench.file(name)) == "it is cut short or damaged: its own tables reach beyond its " +
                                                std::to_string(whole.size() - 1) +
                                                " bytes; build or copy it again");
}

TEST_CASE("a stripped plugin is as good as any") {
  Bench bench;
  CHECK(refusal(bench, bench.take("stripped")) == "loaded");
}

TEST_CASE("descriptors that do not fit; nothing of their files has run") {
  Bench bench;
  const std::string stamp = LATHBOOK_STAMP;
  const std::vector<std::pair<std::string, std::string>> cases{
      {"no-descriptor", "it has no descriptor 'lathbook_plugin', so it is not a plugin of this program"},
      {"other-word", "its descriptor does not begin with the word LATHBOOK"},
      {"other-interface", "it was made for plugin interface 7 and this program has interface 3; rebuild it"},
      {"other-stamp", "it was built as (another compiler) and this program as (" + stamp + "); rebuild it"},
      {"other-kind",
       "it is of the kind \u201coracle\u201d, which is not one of analysis, export, report, import"}};
  for (const auto& [name, reason] : cases) CHECK(refusal(bench, bench.take(name)) == reason);
  CHECK(bench.traces().empty());
}

TEST_CASE("the stamp tells compiler, level, string and the contract's headers") {
  const std::string stamp = LATHBOOK_STAMP;
  CHECK(stamp.find(", C++ 202002L, string ABI 1") != std::string::npos);
  CHECK(stamp.find(", contract " LATHBOOK_CONTRACT_DIGEST) != std::string::npos);
  CHECK(std::string(LATHBOOK_CONTRACT_DIGEST).size() == 16);
}

TEST_CASE("a plugin that calls what nobody has") {
  Bench bench;
  const std::string reason = refusal(bench, bench.take("unresolved"));
  CHECK(reason.rfind("the system cannot load it: ", 0) == 0);
  CHECK(reason.find("undefined symbol") != std::string::npos);
}

TEST_CASE("factories that throw") {
  Bench bench;
  CHECK(refusal(bench, bench.take("bad-start")) == "it could not start: the lamp is out");
  CHECK(refusal(bench, bench.take("bad-start-number")) ==
        "it could not start: an exception of a type that tells nothing");
}

TEST_CASE("one name for two files") {
  Bench bench;
  const fs::path first = bench.take("plain");
  SECTION("in one folder, the second under another file name") {
    const fs::path second = bench.take("plain", "twin");
    CHECK(refusal(bench, second) ==
          "the name 'plain' is already taken by '" + first.string() + "'; remove one of the two");
  }
  SECTION("in two folders") {
    const fs::path other = bench.folder / "other";
    fs::create_directory(other);
    fs::copy_file(first, other / "plain.so");
    PluginHost host({bench.plugins(), other}, bench.ears);
    const auto found = host.discover();
    REQUIRE(found.size() == 2);
    CHECK(found[0].loaded);
    CHECK(found[1].file == other / "plain.so");
    CHECK(found[1].reason ==
          "the name 'plain' is already taken by '" + first.string() + "'; remove one of the two");
  }
  SECTION("one folder named twice is one folder") {
    fs::create_directory_symlink(bench.plugins(), bench.folder / "again");
    PluginHost host({bench.plugins(), bench.folder / "again"}, bench.ears);
    CHECK(host.discover().size() == 1);
  }
}

TEST_CASE("a file named otherwise than its plugin") {
  Bench bench;
  CHECK(refusal(bench, bench.take("plain", "aaa")) ==
        "it calls itself 'plain'; its file must be called 'plain.so'");
}

TEST_CASE("what anybody may write to is not loaded from") {
  Bench bench;
  const fs::path file = bench.take("witness");
  SECTION("the file") {
    fs::permissions(file, fs::perms::others_write, fs::perm_options::add);
    const std::string reason = refusal(bench, file);
    CHECK(reason.rfind("anybody may write to '" + file.string() + "' (mode 0", 0) == 0);
    CHECK(reason.find("so anybody could have put code there; take that away with 'chmod o-w'") !=
          std::string::npos);
  }
  SECTION("the folder, also with the sticky bit") {
    const bool sticky = GENERATE(false, true);
    fs::permissions(bench.plugins(), fs::perms::all | (sticky ? fs::perms::sticky_bit : fs::perms::none));
    PluginHost host = bench.host();
    const auto found = host.discover();
    REQUIRE(found.size() == 1);
    CHECK(found[0].file == bench.plugins());
    CHECK_FALSE(found[0].loaded);
    CHECK(found[0].reason == "anybody may write to '" + bench.plugins().string() + "' (mode " +
                                 (sticky ? "1777" : "0777") +
                                 "), so anybody could have put code there; take that away with 'chmod o-w'");
    const Thrown thrown = thrown_by([&] { host.report_formats("witness"); });
    CHECK(thrown.kind == ErrorKind::not_found);
    CHECK(thrown.text.find("anybody may write to") != std::string::npos);
  }
  SECTION("the folder that a link leads to") {
    const fs::path open = bench.folder / "open";
    fs::create_directory(open);
    fs::rename(file, open / "witness.so");
    fs::permissions(open, fs::perms::all);
    fs::create_symlink(open / "witness.so", file);
    CHECK(refusal(bench, file).rfind("anybody may write to '" + open.string() + "'", 0) == 0);
  }
  CHECK(bench.traces().empty());
}

TEST_CASE("folders that are not there are told, not passed over") {
  Bench bench;
  bench.take("example");
  write_file(bench.folder / "file", "x");
  PluginHost host({bench.folder / "nowhere", bench.folder / "file", bench.plugins()}, bench.ears);
  const auto found = host.discover();
  REQUIRE(found.size() == 3);
  CHECK(found[0].reason == "there is no such folder");
  CHECK(found[1].reason == "it is not a folder");
  CHECK(found[2].loaded);
}

TEST_CASE("a plugin asked for by name and refused says why") {
  Bench bench;
  write_file(bench.file("timeline"), "");
  PluginHost host = bench.host();
  const Thrown refused = thrown_by([&] { host.run_analysis("timeline", bench.archive, {}); });
  CHECK(refused.kind == ErrorKind::unsupported);
  CHECK(refused.text ==
        "plugin 'timeline' cannot be used: '" + bench.file("timeline").string() + "': it is empty");
  const Thrown missing = thrown_by([&] { host.report_formats("nothing"); });
  CHECK(missing.kind == ErrorKind::not_found);
  CHECK(missing.text ==
        "there is no plugin called \u201cnothing\u201d (looked in '" + bench.plugins().string() + "')");
  const Thrown path = thrown_by([&] { host.report_formats("../plugins/timeline"); });
  CHECK(path.text.rfind("there is no plugin called \u201c../plugins/timeline\u201d", 0) == 0);
}

TEST_CASE("a good file in a later folder serves when the earlier one is refused") {
  Bench bench;
  const fs::path first = bench.folder / "first";
  write_file(first / "plain.so", "");
  bench.take("plain");
  PluginHost host({first, bench.plugins()}, bench.ears);
  CHECK(std::get<Timeline>(host.run_analysis("plain", bench.archive, {})).statements_used == 1);
  REQUIRE(host.known().size() == 2);
  CHECK(host.known()[0].reason == "it is empty");
}
