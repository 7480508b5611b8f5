// The generator of random archives: deterministic, varied, and every statement keeps the registry's rules.
#include <catch2/catch.hpp>

#include "tests/support/random_archive.hpp"

using namespace lathbook;
using namespace lathbook::test;

TEST_CASE("random archives say sooner or later everything that the registry allows") {
  std::set<std::uint32_t> properties;
  std::size_t replaced = 0, withdrawn = 0, concluded = 0;
  for (unsigned seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    const RandomArchive archive(seed, {200, true, true});
    for (const Statement& statement : archive.statements()) {
      properties.insert(statement.content.property);
      replaced += statement.current ? 0U : 1U;
      withdrawn += statement.content.act == Act::withdraw ? 1U : 0U;
      concluded += statement.content.grounds.empty() ? 0U : 1U;
    }
    CHECK(archive.record(archive.room)->kind == Kind::place);
  }
  for (const Property& property : Registry::standard().properties()) {
    if (property.id == property::private_record) continue;
    INFO(property.name);
    CHECK(properties.count(property.id) == 1);
  }
  CHECK(replaced > 100);
  CHECK(withdrawn > 50);
  CHECK(concluded > 50);
}

TEST_CASE("the same seed gives the same random archive") {
  const RandomArchive one(7), other(7), next(8);
  REQUIRE(one.statements().size() == other.statements().size());
  for (std::size_t at = 0; at < one.statements().size(); ++at)
    CHECK(one.statements()[at].content == other.statements()[at].content);
  CHECK(next.statements().back().content != one.statements().back().content);
}
