// The sample house: what its author meant, drawn; and phases by two ways of reckoning.
#include <catch2/catch.hpp>
#include <regex>

#include "core/plugin/host.hpp"
#include "core/storage/archive.hpp"
#include "plugins/sequence/phase_reach.hpp"
#include "tests/acceptance/house.hpp"

using namespace lathbook;
using test::House;

namespace {

double width_of(const std::string& svg) {
  std::smatch found;
  REQUIRE(std::regex_search(svg, found, std::regex("viewBox=\"0 0 ([0-9.]+) ")));
  return std::stod(found[1]);
}

}  // namespace

TEST_CASE("the Fairlead's sequences") {
  House house;
  house.begin();
  const std::filesystem::path sample = LATHBOOK_SOURCE_DIR "/archive-sample";
  house.done({"take-in", (sample / "sheets").string(), "--media", (sample / "media").string()});

  const std::string text = house.done({"sequence", "202"});
  const auto at = [&](const std::string& words) {
    const auto found = text.find(words);
    INFO(words);
    REQUIRE(found != std::string::npos);
    return found;
  };
  CHECK(text.find("! Loop") == std::string::npos);
  CHECK(at("* N-204 Ivory tile field") < at("* N-206 Cement bed"));
  CHECK(at("* N-206 Cement bed") < at("x N-212 Four screw holes"));
  CHECK(at("x N-212 Four screw holes") < at("* N-203 Sea-green tile field"));
  CHECK(at("Floating: nothing ties this chain") < at("* E-202.08 Wiring of the gas jet"));
  // Said in the record, and by the bed between them already.
  CHECK(text.find("covers N-203") == std::string::npos);
  CHECK(house.done({"sequence", "202", "--redundant"}).find("covers N-203") != std::string::npos);
  CHECK(at("N-211 Bell wires behind the slip touches N-202 Slip of the niche: slid in") > 0);

  const auto svg = house.folder / "house.svg";
  house.done({"sequence", "FL-H", "--svg", svg.string()});
  CHECK(width_of(test::read_file(svg)) < 2600);  // broken into tiers; in one row it would be 6,000
  house.done({"sequence", "FL-H", "--svg", svg.string(), "--narrow"});
  CHECK(width_of(test::read_file(svg)) == 360);

  const FixedClock clock(Moment{1'777'800'000, 0});
  const Archive archive(house.archive, clock);
  const auto reader = archive.read({});
  const Snapshot snapshot(*reader);
  PluginListener listener;
  PluginHost host({LATHBOOK_BUILD_DIR "/lib/lathbook/plugins"}, listener);
  const auto& timeline = std::get<Timeline>(host.run_analysis("timeline", snapshot, AnalysisRequest{}));
  const sequence::PhaseReach reach(timeline);
  std::size_t compared = 0;
  for (const TimelineItem& item : timeline.items)
    for (std::uint32_t number = 0; number < timeline.network.instants.size(); ++number) {
      const NetworkInstant& instant = timeline.network.instants[number];
      if (instant.kind != InstantKind::begins || instant.record != item.record.id ||
          instant.placement != item.placement)
        continue;
      std::vector<std::size_t> possible;
      for (const PhasePart& part : item.phases)
        if (part.installed != Membership::no) possible.push_back(part.phase);
      const auto range = reach.of(number);
      INFO(item.record.code);
      REQUIRE(range.has_value() == !possible.empty());
      if (!range) continue;
      CHECK(range->first == possible.front());
      CHECK(range->second == possible.back());
      ++compared;
    }
  CHECK(compared > 150);
}
