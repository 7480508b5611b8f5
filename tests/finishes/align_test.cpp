// Lining up two sequences: worked cases, the pitfalls, and random sequences of known truth.
#include "plugins/finishes/align.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <iostream>
#include <numeric>
#include <random>

#include "core/base/error.hpp"
#include "core/base/renotation.hpp"

using namespace lathbook;
using namespace lathbook::finishes;

namespace {

using Coats = std::vector<ComparedCoat>;

ComparedCoat coat_of(const Munsell& colour) {
  ComparedCoat coat;
  coat.colour = colour;
  coat.lab = on_screen(colour).lab;
  return coat;
}

Coats coats(const std::vector<const char*>& colours) {
  Coats out;
  for (const char* text : colours) {
    const auto reading = read_munsell(text);
    REQUIRE(reading.good());
    out.push_back(coat_of(reading.colour));
  }
  return out;
}

const std::vector<const char*> kReference{"2.5Y 8/4", "10YR 7/2", "5G 5/4", "N 9", "5YR 3/4", "N 9.5"};

Coats from(const Coats& all, std::size_t first) {
  return Coats(all.begin() + static_cast<std::ptrdiff_t>(first), all.end());
}

AlignFigures examined() {
  AlignFigures figures;
  figures.first_skipped = 0.025;
  return figures;
}

double total(const Alignment& one) {
  return std::accumulate(one.after.begin(), one.after.end(), 0.0) + one.reference_later + one.unlike;
}

Coats random_palette(std::mt19937& random, std::size_t size) {
  std::uniform_int_distribution<int> hue(0, 39), value(3, 9), chroma(0, 4);
  Coats out;
  for (std::size_t i = 0; i < size; ++i)
    out.push_back(coat_of({hue(random) * 2.5, static_cast<double>(value(random)), chroma(random) * 2.0}));
  return out;
}

Coats random_sequence(std::mt19937& random, const Coats& palette, std::size_t length) {
  std::uniform_int_distribution<std::size_t> pick(0, palette.size() - 1);
  Coats out;
  for (std::size_t i = 0; i < length; ++i) out.push_back(palette[pick(random)]);
  return out;
}

}  // namespace

TEST_CASE("align: a sequence that begins part-way up is put after the coat below") {
  const Coats a = coats(kReference);
  const auto found = align(a, from(a, 2), examined()).value();
  CHECK(found.k == 2);
  CHECK(found.after[2] == Approx(0.975).margin(0.002));
  CHECK(total(found) == Approx(1));
  REQUIRE(found.best.size() == 4);
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(found.best[i].reference == i + 2);
    CHECK(found.best[i].other == i);
    CHECK(found.best[i].probability > 0.95);
  }
}

TEST_CASE("align: unexamined wood leaves more room for 'it stood there unpainted'") {
  const Coats a = coats(kReference);
  const auto found = align(a, from(a, 2)).value();
  CHECK(found.k == 2);
  CHECK(found.after[2] == Approx(0.92).margin(0.005));
  CHECK(found.after[1] == Approx(0.08 * found.after[2]).margin(0.002));
}

TEST_CASE("align: half a value off is still the same coat") {
  const Coats a = coats(kReference);
  Coats b = from(a, 2);
  for (ComparedCoat& coat : b) coat.colour->value -= 0.5;
  const auto found = align(a, b, examined()).value();
  CHECK(found.k == 2);
  CHECK(found.after[2] > 0.95);
}

TEST_CASE("align: the whole sequence is as old") {
  const Coats a = coats(kReference);
  const auto found = align(a, a, examined()).value();
  CHECK(found.k == 0);
  CHECK(found.after[0] > 0.97);
}

TEST_CASE("align: a primer taken for a finish leads astray") {
  const Coats a = coats(kReference);
  Coats b = coats({"N 7"});
  const Coats rest = from(a, 2);
  b.insert(b.end(), rest.begin(), rest.end());
  CHECK(align(a, b, examined()).value().k == 1);
  CHECK(align(a, rest, examined()).value().k == 2);
}

TEST_CASE("align: nothing without coats, and no end of coats") {
  const Coats a = coats(kReference);
  CHECK_FALSE(align(a, {}));
  CHECK_FALSE(align({}, a));
  const Coats many(kMostCoats + 1, a.front());
  CHECK_THROWS_WITH(align(many, a), Catch::Contains("more than 60 coats"));
  const Coats most(kMostCoats, a.front());
  const auto found = align(most, most).value();
  CHECK(std::isfinite(total(found)));
  CHECK(total(found) == Approx(1));
}

TEST_CASE("align: repeated whites tell nothing of where they begin") {
  const Coats whites = coats({"N 9", "N 9", "N 9", "N 9", "N 9", "N 9"});
  const auto found = align(whites, coats({"N 9", "N 9"})).value();
  CHECK(*std::max_element(found.after.begin(), found.after.end()) < 0.9);
}

TEST_CASE("align: other colours altogether are unlike") {
  const auto found =
      align(coats({"5R 3/8", "5YR 4/8", "5Y 5/8"}), coats({"5B 8/6", "5PB 3/8", "5P 8/4"})).value();
  CHECK(found.unlike > 0.9);
}

TEST_CASE("align: the reference may be the later one") {
  const Coats a = coats({"5G 3/4", "5Y 8/4", "5R 4/6", "N 5/", "5B 6/4"});
  Coats b = coats({"7.5YR 4/4", "10R 3/6"});
  b.insert(b.end(), a.begin(), a.begin() + 2);
  b.push_back(a[4]);
  const auto found = align(a, b).value();
  CHECK(found.reference_later > 0.9);
}

TEST_CASE("align: a lost top does not pull the rest out of place") {
  const Coats a = coats({"7.5YR 4/4", "5G 3/4", "5Y 8/4", "5R 4/6", "5B 6/4", "10YR 6/4"});
  AlignFigures figures = examined();
  figures.top_lost = 0.02;
  const auto found = align(a, Coats{a[1], a[2]}, figures).value();
  CHECK(found.k == 1);
  CHECK(found.after[1] > 0.9);
}

TEST_CASE("align: pigments and dirt lines weigh") {
  ComparedCoat a = coats({"5G 4/4"}).front();
  ComparedCoat b = a;
  const double plain = likelihood(a, b, {});
  a.dirt_below = b.dirt_below = true;
  CHECK(likelihood(a, b, {}) > plain);
  b.dirt_below = false;
  CHECK(likelihood(a, b, {}) < plain);
  a.dirt_below = false;
  a.pigments = {"chrome green"};
  b.pigments = {"viridian"};
  CHECK(likelihood(a, b, {}) < plain);
  b.pigments = {"viridian", "chrome green"};
  CHECK(likelihood(a, b, {}) > plain);
}

TEST_CASE("align: measured colours are compared by CIEDE2000, a measured one with a notation too") {
  const AlignFigures figures;
  ComparedCoat eye = coats({"5G 4/4"}).front();
  ComparedCoat measured = eye;
  measured.colour.reset();
  measured.measured = true;
  CHECK_FALSE(apart(eye, measured, figures).by_eye);
  CHECK(apart(eye, measured, figures).difference == Approx(0).margin(1e-9));
  ComparedCoat other = measured;
  other.lab.l += 6;
  // Instruments scatter less: the same distance tells two measured coats apart sooner.
  CHECK(likelihood(measured, other, figures) < likelihood(eye, other, figures));
  CHECK(likelihood(measured, measured, figures) > likelihood(eye, eye, figures));
}

// Known truth without noise: B is A from its coat k on. Colours of A differ by more than reading can confuse.
TEST_CASE("align: random exact suffixes are put after their coat") {
  const unsigned seed = 20240611;
  std::mt19937 random(seed);
  std::cout << "seed of random suffixes " << seed << '\n';
  std::size_t right = 0, tried = 0;
  for (int i = 0; i < 1000; ++i) {
    Coats a;
    for (const ComparedCoat& coat : random_palette(random, 60)) {
      const bool distinct = std::all_of(
          a.begin(), a.end(), [&](const ComparedCoat& other) { return likelihood(coat, other, {}) < 0.05; });
      if (distinct && a.size() < 9) a.push_back(coat);
    }
    if (a.size() < 4) continue;
    const std::size_t k = random() % (a.size() - 1);
    const auto found = align(a, from(a, k), examined()).value();
    ++tried;
    if (found.k == k && found.after[k] > 0.9) ++right;
  }
  CHECK(tried > 900);
  CHECK(right == tried);
}

// Fifteen coats of sixty colours, read with noise of a hue step, a quarter value and 0.4 chroma; 8 % of coats
// skipped.
TEST_CASE("align: simulated readings with noise and gaps") {
  const unsigned seed = 7;
  std::mt19937 random(seed);
  std::normal_distribution<double> noise(0, 1);
  std::uniform_real_distribution<double> chance(0, 1);
  int right = 0, within_one = 0;
  double mean = 0;
  constexpr int kTrials = 1000;
  for (int trial = 0; trial < kTrials; ++trial) {
    const Coats a = random_sequence(random, random_palette(random, 60), 15);
    const std::size_t k = random() % 13;
    Coats b;
    for (std::size_t i = k; i < a.size(); ++i) {
      if (chance(random) < 0.08) continue;
      ComparedCoat coat = a[i];
      coat.colour->hue = std::fmod(coat.colour->hue + 2.5 * noise(random) + 100, 100);
      coat.colour->value = std::clamp(coat.colour->value + 0.25 * noise(random), 0.0, 10.0);
      coat.colour->chroma = std::max(0.0, coat.colour->chroma + 0.4 * noise(random));
      b.push_back(coat);
    }
    if (b.empty()) continue;
    const auto found = align(a, b).value();
    right += found.k == k;
    within_one += found.k <= k + 1 && k <= found.k + 1;
    mean += found.after[k];
  }
  std::cout << "simulated, seed " << seed << ": k exact " << right << " of " << kTrials << ", within one "
            << within_one << ", mean probability of the truth " << mean / kTrials << '\n';
  CHECK(right >= 850);
  CHECK(mean / kTrials >= 0.8);
}
