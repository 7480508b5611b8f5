// Differences and conversions of colour against published values.
#include <algorithm>
#include <catch2/catch.hpp>
#include <iostream>
#include <vector>

#include "core/base/colour_difference.hpp"
#include "core/base/renotation.hpp"
#include "plugins/finishes/measured.hpp"

using namespace lathbook;
using namespace lathbook::finishes;

namespace {

Munsell colour(const char* text) {
  const auto reading = read_munsell(text);
  REQUIRE(reading.good());
  return reading.colour;
}

struct SharmaPair {
  Lab one, two;
  double difference;
};

// G. Sharma, W. Wu, E. N. Dalal, Color Research and Application 30, 2005, 21-30, table 1: all 34 pairs.
const std::vector<SharmaPair> kSharma{
    {{50.0000, 2.6772, -79.7751}, {50.0000, 0.0000, -82.7485}, 2.0425},
    {{50.0000, 3.1571, -77.2803}, {50.0000, 0.0000, -82.7485}, 2.8615},
    {{50.0000, 2.8361, -74.0200}, {50.0000, 0.0000, -82.7485}, 3.4412},
    {{50.0000, -1.3802, -84.2814}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, -1.1848, -84.8006}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, -0.9009, -85.5211}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, 0.0000, 0.0000}, {50.0000, -1.0000, 2.0000}, 2.3669},
    {{50.0000, -1.0000, 2.0000}, {50.0000, 0.0000, 0.0000}, 2.3669},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0009}, 7.1792},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0010}, 7.1792},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0011}, 7.2195},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0012}, 7.2195},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0009, -2.4900}, 4.8045},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0010, -2.4900}, 4.8045},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0011, -2.4900}, 4.7461},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 0.0000, -2.5000}, 4.3065},
    {{50.0000, 2.5000, 0.0000}, {73.0000, 25.0000, -18.0000}, 27.1492},
    {{50.0000, 2.5000, 0.0000}, {61.0000, -5.0000, 29.0000}, 22.8977},
    {{50.0000, 2.5000, 0.0000}, {56.0000, -27.0000, -3.0000}, 31.9030},
    {{50.0000, 2.5000, 0.0000}, {58.0000, 24.0000, 15.0000}, 19.4535},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.1736, 0.5854}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.2972, 0.0000}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 1.8634, 0.5757}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.2592, 0.3350}, 1.0000},
    {{60.2574, -34.0099, 36.2677}, {60.4626, -34.1751, 39.4387}, 1.2644},
    {{63.0109, -31.0961, -5.8663}, {62.8187, -29.7946, -4.0864}, 1.2630},
    {{61.2901, 3.7196, -5.3901}, {61.4292, 2.2480, -4.9620}, 1.8731},
    {{35.0831, -44.1164, 3.7933}, {35.0232, -40.0716, 1.5901}, 1.8645},
    {{22.7233, 20.0904, -46.6940}, {23.0331, 14.9730, -42.5619}, 2.0373},
    {{36.4612, 47.8580, 18.3852}, {36.2715, 50.5065, 21.2231}, 1.4146},
    {{90.8027, -2.0831, 1.4410}, {91.1528, -1.6435, 0.0447}, 1.4441},
    {{90.9257, -0.5406, -0.9208}, {88.6381, -0.8985, -0.7239}, 1.5381},
    {{6.7747, -0.2908, -2.4247}, {5.8714, -0.0985, -2.2286}, 0.6377},
    {{2.0776, 0.0795, -1.1350}, {0.9033, -0.0636, -0.5514}, 0.9082},
};

struct ChartPatch {
  const char* munsell;
  double x, y, luminance;
};

// C. S. McCamy, H. Marcus and J. G. Davidson, 'A color-rendition chart', Journal of Applied Photographic
// Engineering 2, 1976, 95-99: Munsell notation and CIE x, y, Y (illuminant C, Y against magnesium oxide) of
// the chart's colours. The patch 'green' is left out: its chroma is printed as 9.6 and as 8.65.
const std::vector<ChartPatch> kChart{
    {"3YR 3.7/3.2", 0.4002, 0.3504, 0.1005},    {"2.2YR 6.47/4.1", 0.3773, 0.3446, 0.3582},
    {"4.3PB 4.95/5.5", 0.2470, 0.2514, 0.1933}, {"6.7GY 4.2/4.1", 0.3372, 0.4220, 0.1329},
    {"9.7PB 5.47/6.7", 0.2651, 0.2400, 0.2427}, {"2.5BG 7/6", 0.2608, 0.3430, 0.4306},
    {"5YR 6/11", 0.5060, 0.4070, 0.3005},       {"7.5PB 4/10.7", 0.2110, 0.1750, 0.1200},
    {"2.5R 5/10", 0.4533, 0.3058, 0.1977},      {"5P 3/7", 0.2845, 0.2020, 0.0656},
    {"5GY 7.1/9.1", 0.3800, 0.4887, 0.4429},    {"10YR 7/10.5", 0.4729, 0.4375, 0.4306},
    {"7.5PB 2.9/12.7", 0.1866, 0.1285, 0.0611}, {"5R 4/12", 0.5385, 0.3129, 0.1200},
    {"5Y 8/11.1", 0.4480, 0.4703, 0.5910},      {"2.5RP 5/12", 0.3635, 0.2325, 0.1977},
    {"5B 5/8", 0.1958, 0.2519, 0.1977},         {"N 9.5/", 0.3101, 0.3163, 0.9001},
    {"N 8/", 0.3101, 0.3163, 0.5910},           {"N 6.5/", 0.3101, 0.3163, 0.3620},
    {"N 5/", 0.3101, 0.3163, 0.1977},           {"N 3.5/", 0.3101, 0.3163, 0.0900},
    {"N 2/", 0.3101, 0.3163, 0.0313},
};

}  // namespace

TEST_CASE("CIEDE2000: the full published table, both ways round") {
  REQUIRE(kSharma.size() == 34);
  for (const SharmaPair& pair : kSharma) {
    CHECK(ciede2000(pair.one, pair.two) == Approx(pair.difference).margin(0.00005));
    CHECK(ciede2000(pair.two, pair.one) == Approx(pair.difference).margin(0.00005));
  }
}

TEST_CASE("Nickerson's index on its documented value") {
  // Documented output 18: manuals of the R packages colorscience and munsellinterpol,
  // NickersonColorDifference.
  CHECK(nickerson(colour("10B 5/6"), colour("5B 5/4")) == Approx(18));
  CHECK(nickerson_symmetric(colour("10B 5/6"), colour("5B 5/4")) == Approx(14));
  CHECK(nickerson_symmetric(colour("5B 5/4"), colour("10B 5/6")) == Approx(14));
}

TEST_CASE("Godlove's formula: worked by hand from the published formula") {
  CHECK(godlove(colour("5R 5/10"), colour("10R 5/10")) == Approx(3.129).margin(0.0005));
  CHECK(godlove(colour("5R 5/10"), colour("5R 6/10")) == Approx(4));
  CHECK(godlove(colour("5R 5/10"), colour("5R 5/8")) == Approx(2));
  CHECK(godlove(colour("N 9/"), colour("N 8.5/")) == Approx(2));
  CHECK(godlove(colour("10RP 5/6"), colour("5R 5/6")) == Approx(1.877).margin(0.0005));
  // Symmetrical, and smooth at grey: hue means nothing there.
  CHECK(godlove(colour("5R 5/0.001"), colour("5BG 5/0.001")) < 0.01);
}

TEST_CASE("renotation: colours of the chart of 1976, most of them between the published ones") {
  double worst = 0, sum = 0;
  for (const ChartPatch& patch : kChart) {
    const Munsell munsell = colour(patch.munsell);
    const Chromaticity found = chromaticity_of(munsell);
    const double against_perfect_white = 0.975 * patch.luminance;
    INFO(patch.munsell << ": " << found.x << ' ' << found.y << ' ' << found.luminance);
    const double apart = ciede2000(lab_of(found), lab_of({patch.x, patch.y, against_perfect_white, false}));
    worst = std::max(worst, apart);
    sum += apart;
    CHECK(found.x == Approx(patch.x).margin(0.005));
    CHECK(found.y == Approx(patch.y).margin(0.005));
    // The notations are rounded to a tenth or a hundredth of value.
    CHECK(found.luminance == Approx(against_perfect_white).margin(0.003));
    CHECK(apart < 0.6);
  }
  std::cout << "renotation against the chart of 1976: CIEDE2000 mean "
            << sum / static_cast<double>(kChart.size()) << ", worst " << worst << '\n';
}

TEST_CASE("renotation: documented outputs of two libraries") {
  // Manual of the Python library colour, munsell_colour_to_xyY: 4.2YR 8.1/5.3 and N8.9.
  const Chromaticity skin = chromaticity_of(colour("4.2YR 8.1/5.3"));
  CHECK(skin.x == Approx(0.38737).margin(0.001));
  CHECK(skin.y == Approx(0.35752).margin(0.001));
  CHECK(skin.luminance == Approx(0.59362).margin(0.0001));
  CHECK(chromaticity_of(colour("N 8.9/")).luminance == Approx(0.74613).margin(0.0001));
  // Manual of the R package munsellinterpol, after P. Centore's toolbox: 7.6P 8.9/2.2 is x 0.3108972, y
  // 0.3065102, Y 74.61345. (Its sRGB of that time was not adapted from illuminant C, so it is no check here.)
  const Chromaticity mauve = chromaticity_of(colour("7.6P 8.9/2.2"));
  CHECK(mauve.x == Approx(0.3108972).margin(0.001));
  CHECK(mauve.y == Approx(0.3065102).margin(0.001));
  CHECK(mauve.luminance == Approx(0.7461345).margin(0.0001));
  CHECK_FALSE(mauve.beyond);
}

TEST_CASE("renotation: a published colour comes out as published") {
  // S. M. Newhall, D. Nickerson, D. B. Judd 1943, table 1.
  const Chromaticity red = chromaticity_of(colour("2.5R 1/2"));
  CHECK(red.x == Approx(0.3768));
  CHECK(red.y == Approx(0.2816));
  CHECK(luminance_of(10) == Approx(1).margin(1e-4));
  CHECK(luminance_of(0) == 0);
}

TEST_CASE("renotation: neutrals are grey, and the trust is told") {
  for (const char* text : {"N 1/", "N 5/", "N 9.5/"}) {
    const ScreenColour grey = on_screen(colour(text));
    CHECK(std::abs(grey.red - grey.green) <= 1);
    CHECK(std::abs(grey.blue - grey.green) <= 1);
    CHECK(grey.trust == ColourTrust::renotation);
  }
  CHECK(on_screen(colour("N 0/")).hex() == "#000000");
  CHECK(on_screen(colour("N 10/")).hex() == "#ffffff");
  CHECK(on_screen(colour("5R 5/34")).trust == ColourTrust::not_on_screen);
  CHECK(on_screen(colour("2.5Y 9.5/2")).trust == ColourTrust::beyond);
  CHECK(on_screen(colour("5BG 5/10")).trust == ColourTrust::not_on_screen);
}

TEST_CASE("renotation: any colour of the notation gives a colour and never fails") {
  for (double hue = 0; hue < 100; hue += 1.7)
    for (double value = 0; value <= 10; value += 0.5)
      for (const double chroma : {0.0, 0.1, 3.0, 12.0, 50.0}) {
        const ScreenColour shown = on_screen(Munsell{hue, value, chroma});
        const bool in_range = shown.red >= 0 && shown.red <= 255 && shown.green >= 0 && shown.green <= 255 &&
                              shown.blue >= 0 && shown.blue <= 255;
        if (!in_range) FAIL("out of range at " << hue << ' ' << value << ' ' << chroma);
      }
}

TEST_CASE("measured colours: three numbers, with or without their names") {
  const auto plain = read_lab("52.1 3.2 -10.4");
  REQUIRE(plain);
  CHECK(plain->l == 52.1);
  CHECK(plain->b == -10.4);
  CHECK(read_lab("L* 52.1, a* 3.2, b* -10.4")->a == 3.2);
  for (const char* text :
       {"", "52.1 3.2", "52.1 3.2 1 2", "101 0 0", "50 0 200", "fifty 0 0", "nan 0 0", "a* 1 2 3"})
    CHECK_FALSE(read_lab(text));
  CHECK_FALSE(read_lab(std::string(1'000'000, '1')));
}

TEST_CASE("measured colours: sRGB of known L* a* b*") {
  // IEC 61966-2-1: the primaries under D65, L* a* b* from memory to two decimals.
  CHECK(on_screen(Lab{53.24, 80.09, 67.20}).hex() == "#ff0000");
  CHECK(on_screen(Lab{100, 0, 0}).hex() == "#ffffff");
  CHECK(on_screen(Lab{0, 0, 0}).hex() == "#000000");
  CHECK(on_screen(Lab{50, 120, -120}).trust == ColourTrust::not_on_screen);
}
