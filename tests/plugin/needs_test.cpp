// Analyses that need the results of others: order, circles, missing needs, and when a result is made anew.
#include <catch2/catch.hpp>

#include "tests/plugin/plugin_bench.hpp"

using namespace lathbook;
using namespace lathbook::test;

namespace {

std::size_t used(const AnalysisResult& result) {
  return std::get<Timeline>(result).statements_used;
}

}  // namespace

TEST_CASE("needs are run first, each once") {
  Bench bench;
  for (const char* name : {"plain", "second", "third"}) bench.take(name);
  PluginHost host = bench.host();
  CHECK(used(host.run_analysis("third", bench.archive, {})) == 3);
  CHECK(bench.traces() == std::vector<std::string>{"plain ran", "second ran", "third ran"});
  CHECK(used(host.run_analysis("second", bench.archive, {})) == 2);
  CHECK(bench.traces().size() == 3);
}

TEST_CASE("a circle of needs is refused before anything runs, also where one could do without") {
  Bench bench;
  bench.take("circle-a");
  bench.take("circle-b");
  bench.take("plain");
  PluginHost host = bench.host();
  const Thrown a = thrown_by([&] { host.run_analysis("circle-a", bench.archive, {}); });
  CHECK(a.kind == ErrorKind::invalid);
  CHECK(a.text ==
        "these plugins need one another in a circle, so none can be run: circle-a needs circle-b needs "
        "circle-a");
  const Thrown b = thrown_by([&] { host.run_analysis("circle-b", bench.archive, {}); });
  CHECK(b.text ==
        "these plugins need one another in a circle, so none can be run: circle-b needs circle-a needs "
        "circle-b");
  CHECK(bench.traces().empty());
  CHECK(used(host.run_analysis("plain", bench.archive, {})) == 1);
}

TEST_CASE("a need that nothing provides is one sentence") {
  Bench bench;
  bench.take("hungry");
  PluginHost host = bench.host();
  const Thrown thrown = thrown_by([&] { host.run_analysis("hungry", bench.archive, {}); });
  CHECK(thrown.kind == ErrorKind::invalid);
  CHECK(thrown.text ==
        "plugin 'hungry' needs the analysis 'lost@1', which cannot be had: there is no plugin called "
        "\u201clost\u201d (looked in '" +
            bench.plugins().string() + "')");
  CHECK(bench.traces().empty());
}

TEST_CASE("a plugin that works without its need says so and works") {
  Bench bench;
  bench.take("easy");
  PluginHost host = bench.host();
  CHECK(used(host.run_analysis("easy", bench.archive, {})) == 1);
  REQUIRE(bench.ears.notes.size() == 1);
  CHECK(bench.ears.notes[0].rfind("easy: works without the analysis 'lost@1', which cannot be had: ", 0) ==
        0);
}

TEST_CASE("a need in another version is not met") {
  Bench bench;
  bench.take("ahead");
  bench.take("plain");
  PluginHost host = bench.host();
  CHECK(thrown_by([&] { host.run_analysis("ahead", bench.archive, {}); }).text ==
        "plugin 'ahead' needs the analysis 'plain@2', which cannot be had: there is 'plain@1' only");
}

TEST_CASE("a need that fails is told with its own reason") {
  Bench bench;
  bench.take("plain");
  bench.take("second");
  PluginHost host = bench.host();
  AnalysisRequest request;
  request.settings = {{"answer", "nothing"}};
  CHECK(
      thrown_by([&] { host.run_analysis("second", bench.archive, request); }).text ==
      "plugin 'second' needs the analysis 'plain@1', which cannot be had: plugin 'plain' failed: it gave no "
      "result");
}

TEST_CASE("a setting that neither a plugin nor what it needs takes is refused by the host") {
  Bench bench;
  bench.take("plain");
  bench.take("second");
  bench.take("example");
  PluginHost host = bench.host();
  AnalysisRequest request;
  request.settings = {{"a", "1"}, {"bb", "2"}};
  const Thrown thrown = thrown_by([&] { host.run_analysis("second", bench.archive, request); });
  CHECK(thrown.kind == ErrorKind::invalid);
  CHECK(thrown.text == "plugin 'second' has no setting \u201cbb\u201d; its settings are a, answer, b");
  CHECK(bench.traces().empty());
  ReportRequest report;
  report.settings = {{"a", "1"}};
  std::ostringstream out;
  CHECK(thrown_by([&] { host.report_to("example", bench.archive, report, out); }).text ==
        "plugin 'example' has no setting \u201ca\u201d; it takes none");
}

TEST_CASE("an analysis is found by what a plugin provides, whatever its own name") {
  Bench bench;
  bench.take("elsewhere");
  PluginHost host = bench.host();
  CHECK(used(host.run_analysis("survey", bench.archive, {})) == 1);
  const Thrown thrown = thrown_by([&] { host.run_analysis("elsewhere", bench.archive, {}); });
  CHECK(thrown.kind == ErrorKind::not_found);
  CHECK(thrown.text == "no plugin provides the analysis \u201celsewhere\u201d (looked in '" +
                           bench.plugins().string() + "')");
}

TEST_CASE("a result is made anew exactly when something it depends on has changed") {
  Bench bench;
  bench.take("plain");
  PluginHost host = bench.host();
  AnalysisRequest request;
  const auto runs_after = [&] {
    host.run_analysis("plain", bench.archive, request);
    return bench.traces().size();
  };
  REQUIRE(runs_after() == 1);
  const AnalysisResult& first = host.run_analysis("plain", bench.archive, request);
  CHECK(runs_after() == 1);
  request.level = Level::certain;
  CHECK(runs_after() == 2);
  CHECK(std::get<Timeline>(host.run_analysis("plain", bench.archive, request)).level == Level::certain);
  request.scope = uuid_from_name("R-1");
  CHECK(runs_after() == 3);
  request.settings = {{"a", "1"}, {"b", "2"}};
  CHECK(runs_after() == 4);
  request.settings = {{"b", "2"}, {"a", "1"}};
  CHECK(runs_after() == 4);
  request.leave_out = {sha256("x"), sha256("y")};
  CHECK(runs_after() == 5);
  request.leave_out = {sha256("y"), sha256("x")};
  CHECK(runs_after() == 5);
  bench.reader.state.with_private = true;
  CHECK(runs_after() == 6);
  bench.reader.state.fingerprint = sha256("another state");
  CHECK(runs_after() == 7);
  bench.reader.state.known_day = 20000;
  CHECK(runs_after() == 8);
  // Results lent before are still where they were.
  CHECK(used(first) == 1);
  CHECK(std::get<Timeline>(first).level == Level::possible);
  host.forget_results();
  CHECK(runs_after() == 9);
}
