// Numbers written for drawings and texts, against the C library's printf.
#include "core/base/number.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <random>

using namespace lathbook;

TEST_CASE("a number with so many places is what printf writes") {
  const auto printed = [](double value, int places) {
    char text[400];
    std::snprintf(text, sizeof text, "%.*f", places, value);
    return std::string(text);
  };
  for (const double value : {0.0, -0.0, 0.05, 0.25, 0.35, 2.5, -2.5, 1e15, -1e-9, 1e300, 12.345})
    for (const int places : {0, 1, 2, 4, 6}) CHECK(with_places(value, places) == printed(value, places));
  std::mt19937_64 draws(20261130);
  std::uniform_real_distribution<double> power(-6, 12);
  for (int turn = 0; turn < 2000; ++turn) {
    const double value = (turn % 2 == 0 ? 1 : -1) * std::pow(10, power(draws));
    CHECK(with_places(value, turn % 7) == printed(value, turn % 7));
  }
}
