// What happens when plugins are called: what they throw, what they are lent, how long they live.
#include <catch2/catch.hpp>
#include <sstream>

#include "tests/plugin/plugin_bench.hpp"

using namespace lathbook;
using namespace lathbook::test;

namespace {

Thrown report(PluginHost& host, const Bench& bench, const std::string& plugin, const std::string& format) {
  ReportRequest request;
  request.format = format;
  std::ostringstream out;
  return thrown_by([&] { host.report_to(plugin, bench.archive, request, out); });
}

}  // namespace

TEST_CASE("whatever a call throws becomes one sentence, and the host goes on") {
  Bench bench;
  bench.take("thrower");
  bench.take("example");
  PluginHost host = bench.host();
  const std::string failed = "plugin 'thrower' failed: ";
  CHECK(report(host, bench, "thrower", "standard").text == failed + "the kiln is cold");
  CHECK(report(host, bench, "thrower", "private").text == failed + "a trouble known here only");
  CHECK(report(host, bench, "thrower", "number").text ==
        failed + "it threw something that tells nothing of itself");
  CHECK(report(host, bench, "thrower", "memory").text == failed + "there is not enough memory");
  CHECK(report(host, bench, "thrower", "standard").kind == ErrorKind::unsupported);
  const Thrown own = report(host, bench, "thrower", "error");
  CHECK(own.text == failed + "there is no such room");
  CHECK(own.kind == ErrorKind::not_found);
  CHECK(report(host, bench, "thrower", "needless").text ==
        failed + "it asked for the result of \u201ctimeline\u201d, which is not among its needs");
  CHECK(thrown_by([&] { host.export_formats("thrower"); }).text == failed + "a trouble known here only");
  CHECK(report(host, bench, "example", "text").text == "nothing");
}

TEST_CASE("the text of an exception outlives the library of its type") {
  Bench bench;
  bench.take("thrower");
  Thrown thrown;
  {
    PluginHost host = bench.host();
    thrown = report(host, bench, "thrower", "private");
  }
  CHECK(thrown.text == "plugin 'thrower' failed: a trouble known here only");
}

TEST_CASE("formats: the first unless named, others refused") {
  Bench bench;
  bench.take("example");
  PluginHost host = bench.host();
  CHECK(host.report_formats("example") == std::vector<std::string>{"text", "csv"});
  bench.reader.add(Kind::place, "R-1");
  bench.reader.add(Kind::place, "R-2");
  bench.reader.add(Kind::element, "E-1");
  std::ostringstream text;
  host.report_to("example", bench.archive, {}, text);
  CHECK(text.str() == "place        2\nelement      1\nstate of the archive: " + Digest{}.hex() + "\n");
  ReportRequest request;
  request.format = "csv";
  std::ostringstream csv;
  host.report_to("example", bench.archive, request, csv);
  CHECK(csv.str().rfind("kind,records\nplace,2\nelement,1\npiece,0\n", 0) == 0);
  const Thrown wrong = report(host, bench, "example", "stone");
  CHECK(wrong.kind == ErrorKind::invalid);
  CHECK(wrong.text == "plugin 'example' does not write \u201cstone\u201d; it writes text, csv");
  CHECK(thrown_by([&] { host.export_formats("example"); }).text ==
        "plugin 'example' exports nothing; 'lathbook plugins' tells what each one does");
}

TEST_CASE("a report says when something was withheld") {
  Bench bench;
  bench.take("example");
  bench.reader.state.withheld = 12;
  PluginHost host = bench.host();
  CHECK(report(host, bench, "example", "").text == "nothing");
  CHECK(bench.ears.notes == std::vector<std::string>{"example: 12 statements are withheld; the private "
                                                     "archive may hold more records"});
  CHECK(bench.ears.steps == all_kinds().size());
}

TEST_CASE("what a plugin does to its stream does not stick to the caller's") {
  Bench bench;
  bench.take("thrower");
  PluginHost host = bench.host();
  ReportRequest request;
  request.format = "stream";
  std::ostringstream out;
  host.report_to("thrower", bench.archive, request, out);
  CHECK(out.exceptions() == std::ios::goodbit);
  out << ' ' << 255;
  CHECK(out.str() == "0xff 255");
}

TEST_CASE("a full disk is the disk's fault") {
  Bench bench;
  bench.take("example");
  PluginHost host = bench.host();
  std::ofstream full("/dev/full");
  const Thrown thrown = thrown_by([&] { host.report_to("example", bench.archive, {}, full); });
  CHECK(thrown.kind == ErrorKind::io);
  CHECK(thrown.text == "what plugin 'example' wrote could not be stored; look at the space on the disk");
}

TEST_CASE("a stopped plugin gives no result") {
  Bench bench;
  bench.take("example");
  bench.take("plain");
  PluginHost host = bench.host();
  bench.ears.stop = true;
  CHECK(report(host, bench, "example", "").text == "plugin 'example' was stopped before its end, as asked");
  CHECK(thrown_by([&] { host.run_analysis("plain", bench.archive, {}); }).text ==
        "plugin 'plain' was stopped before its end, as asked");
  bench.ears.stop = false;
  CHECK(std::get<Timeline>(host.run_analysis("plain", bench.archive, {})).statements_used == 1);
}

TEST_CASE("drafts of an importer carry its name") {
  Bench bench;
  bench.take("witness");
  PluginHost host = bench.host();
  std::istringstream in("swept the flue\nand more");
  const auto drafts = host.import_from("witness", in, bench.archive);
  REQUIRE(drafts.size() == 1);
  CHECK(drafts[0].content.value == "swept the flue");
  CHECK(drafts[0].content.proposed_by == "witness 1.0");
  CHECK(bench.ears.notes == std::vector<std::string>{"witness: one line read"});
  CHECK(thrown_by([&] { host.report_formats("witness"); }).text ==
        "plugin 'witness' writes no report; 'lathbook plugins' tells what each one does");
}

TEST_CASE("the object dies before its library, and the library really goes") {
  Bench bench;
  bench.take("witness");
  {
    PluginHost host = bench.host();
    host.discover();
    CHECK(bench.traces() == std::vector<std::string>{"library loaded", "object made"});
  }
  CHECK(bench.traces() ==
        std::vector<std::string>{"library loaded", "object made", "object destroyed", "library closed"});
}

TEST_CASE("libraries are kept when sanitizers want to name their functions") {
  Bench bench;
  const Variable keep("LATHBOOK_KEEP_PLUGINS", "1");
  bench.take("witness");
  {
    PluginHost host = bench.host();
    host.discover();
  }
  CHECK(bench.traces() == std::vector<std::string>{"library loaded", "object made", "object destroyed"});
}

TEST_CASE("nothing is loaded that nobody asked for") {
  Bench bench;
  bench.take("witness");
  bench.take("example");
  PluginHost host = bench.host();
  CHECK(host.known().empty());
  CHECK(report(host, bench, "example", "").text == "nothing");
  REQUIRE(host.known().size() == 1);
  CHECK(host.known()[0].name == "example");
  CHECK(bench.traces().empty());
}

TEST_CASE("an export needs an address for its records, and takes the usual format") {
  Bench bench;
  bench.take("witness");
  PluginHost host = bench.host();
  CHECK(host.export_formats("witness") == std::vector<std::string>{"plain", "quoted", "leaves"});
  ExportRequest request;
  std::ostringstream out;
  const Thrown thrown = thrown_by([&] { host.export_to("witness", bench.archive, request, out); });
  CHECK(thrown.kind == ErrorKind::invalid);
  CHECK(thrown.text == "an export needs the web address under which its records are named; give one");
  CHECK(out.str().empty());
  request.base_iri = "https://example.org/fairlead/";
  host.export_to("witness", bench.archive, request, out);
  CHECK(out.str() == "https://example.org/fairlead/");
}

namespace {

struct Lender : ArchiveFiles {
  std::unique_ptr<std::istream> media(const Digest&) const override { return nullptr; }
  void write_exchange(std::ostream& out) const override { out << "<all/>"; }
};

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

TEST_CASE("a format that is a folder appears whole, or not at all when the plugin fails") {
  Bench bench;
  bench.take("witness");
  PluginHost host = bench.host();
  CHECK(host.export_makes_folder("witness", "leaves"));
  CHECK_FALSE(host.export_makes_folder("witness", ""));
  CHECK(thrown_by([&] { host.export_makes_folder("witness", "roots"); }).kind == ErrorKind::invalid);
  ExportRequest request;
  request.base_iri = "https://example.org/fairlead/";
  request.format = "leaves";
  const auto place = bench.folder / "out";
  const Thrown thrown =
      thrown_by([&] { host.export_folder("witness", bench.archive, request, place, nullptr); });
  CHECK(thrown.text == "plugin 'witness' failed: it asked for the archive's files, which are not lent here");
  CHECK_FALSE(std::filesystem::exists(place));
  bench.ears.stop = true;
  const Lender files;
  CHECK(thrown_by([&] { host.export_folder("witness", bench.archive, request, place, &files); }).text ==
        "plugin 'witness' was stopped before its end, as asked");
  CHECK_FALSE(std::filesystem::exists(place));
  bench.ears.stop = false;
  host.export_folder("witness", bench.archive, request, place, &files);
  CHECK(text_of(place / "address") == "https://example.org/fairlead/ 1234");
  CHECK(text_of(place / "deep" / "exchange") == "<all/>");
}
