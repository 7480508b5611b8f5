// From a Munsell notation to CIE coordinates and to a colour that a screen shows.
#pragma once

#include <string>

#include "core/base/api.hpp"
#include "core/base/colour_difference.hpp"
#include "core/base/munsell.hpp"

namespace lathbook {

/// How far a converted colour can be trusted.
enum class ColourTrust {
  renotation,    ///< lies between published colours
  beyond,        ///< value or chroma outside the published ones: the nearest trend was carried on
  not_on_screen  ///< lies outside sRGB and was greyed until it fits
};

/// "renotation", "beyond the renotation", "not on screens".
LATHBOOK_API std::string word(ColourTrust trust);

/// CIE 1931 x, y and luminance factor Y (0 to 1) under illuminant C.
struct Chromaticity {
  double x = 0;
  double y = 0;
  double luminance = 0;
  bool beyond = false;  ///< outside the published colours
};

/// Luminance factor of a value: the fifth-degree formula of ASTM D1535 (1 for value 10). The renotation of
/// 1943 gives Y against magnesium oxide, 1/0.975 times as much.
LATHBOOK_API double luminance_of(double value);

/// Interpolates in the renotation data of Newhall, Nickerson and Judd 1943 (schemas/munsell-renotation.tsv):
/// straight in chroma; between hues by angle and distance from the white; between values straight in
/// luminance.
LATHBOOK_API Chromaticity chromaticity_of(const Munsell& colour);

struct LATHBOOK_API ScreenColour {
  int red = 0, green = 0, blue = 0;  ///< sRGB (IEC 61966-2-1), 0 to 255
  Lab lab;                           ///< of the colour itself, adapted to D65, before it was made to fit
  ColourTrust trust = ColourTrust::renotation;
  std::string hex() const;  ///< "#d8b98c"
};

/// The colour as seen under D65: chromaticity_of, adapted from C by the Bradford transform.
LATHBOOK_API ScreenColour on_screen(const Munsell& colour);

/// The same for a measured colour (D65).
LATHBOOK_API ScreenColour on_screen(const Lab& colour);

/// L* a* b* (D65) of chromaticity under illuminant C.
LATHBOOK_API Lab lab_of(const Chromaticity& colour);

}  // namespace lathbook
