// The built plugin, loaded by the real host.
#include <catch2/catch.hpp>

#include "core/plugin/host.hpp"
#include "tests/timeline_plugin/house.hpp"

using namespace lathbook;

TEST_CASE("the host loads the timeline and lends its result") {
  test::House house;
  house.say({"E1", "installed", "1900"});
  PluginListener listener;
  PluginHost host({LATHBOOK_BUILD_DIR "/lib/lathbook/plugins"}, listener);
  house.with_snapshot([&](const Snapshot& archive) {
    const AnalysisResult& result = host.run_analysis("timeline", archive, AnalysisRequest{});
    REQUIRE(std::holds_alternative<Timeline>(result));
    CHECK(test::days(std::get<Timeline>(result), "E1", 'B') == "1900-01-01..1900-12-31");
    AnalysisRequest unknown;
    unknown.scope = Uuid::random();
    CHECK_THROWS_AS(host.run_analysis("timeline", archive, unknown), Error);
  });
}
