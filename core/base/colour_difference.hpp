// How far apart two colours are: three published formulas.
#pragma once

#include "core/base/api.hpp"
#include "core/base/munsell.hpp"

namespace lathbook {

/// CIE 1976 L* a* b*.
struct Lab {
  double l = 0;
  double a = 0;
  double b = 0;
};

/// Steps of hue between two colours the shorter way round the circle of 100; 0 to 50.
LATHBOOK_API double hue_steps(const Munsell& a, const Munsell& b);

/// I. H. Godlove, 'Improved color-difference formula, with applications to the perceptibility and
/// acceptability of fadings', Journal of the Optical Society of America 41, 1951, 760-772. In steps of
/// chroma; a step of value counts four. Symmetrical, and smooth at grey, where hue means nothing.
LATHBOOK_API double godlove(const Munsell& a, const Munsell& b);

/// D. Nickerson, 'The specification of color tolerances', Textile Research 6, 1936, 505-514: 0.4 C dH + 6 dV
/// + 3 dC with the chroma of the first. Not symmetrical.
LATHBOOK_API double nickerson(const Munsell& reference, const Munsell& other);
/// The same with the smaller of the two chromas.
LATHBOOK_API double nickerson_symmetric(const Munsell& a, const Munsell& b);

/// CIEDE2000 with weights of one (ISO/CIE 11664-6), after G. Sharma, W. Wu and E. N. Dalal, 'The CIEDE2000
/// color-difference formula: implementation notes, supplementary test data, and mathematical observations',
/// Color Research and Application 30, 2005, 21-30.
LATHBOOK_API double ciede2000(const Lab& a, const Lab& b);

}  // namespace lathbook
