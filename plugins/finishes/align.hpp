// Two sequences of coats laid beside each other: which coats are one, and where the shorter one begins.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/base/colour_difference.hpp"
#include "core/base/munsell.hpp"

namespace lathbook::finishes {

/// A coat as the comparison sees it, from the substrate outward.
struct ComparedCoat {
  std::optional<Munsell> colour;  ///< matched by eye against the book
  Lab lab;                        ///< measured, else converted from the notation; under D65
  bool measured = false;
  double spread = 1;  ///< how much wider than usual its colour may be read: yellowed, patterned
  bool dirt_below = false;
  std::vector<std::string> pigments;  ///< folded words; empty when none were looked for
};

/// Figures of the comparison. Except where a source is named they are our own (docs/finishes.md).
struct AlignFigures {
  double sigma = 1.6;           ///< spread of one reading against another, Godlove units
  double broad = 12;            ///< spread of coats that are not the same
  double sigma_measured = 2.5;  ///< the same between two measured colours, CIEDE2000
  double sigma_mixed = 4;       ///< between a measured colour and a notation, CIEDE2000
  double broad_measured = 25;   ///< spread of coats that are not the same, CIEDE2000
  double skipped = 0.08;        ///< a coat of the reference that the other lacks
  double extra = 0.04;          ///< a coat that only the other has
  double first_skipped = 0.08;  ///< it stood, and lacks the reference's coat under its own first one
  double top_lost = 0;  ///< the other lost its top: charge for all that is missing there; 0 = it did not
};

/// How far two coats are apart, and the spread that two readings of one coat would have in the same unit.
struct Apart {
  double difference = 0;
  double sigma = 1;
  double broad = 1;    ///< spread of coats that are not the same
  bool by_eye = true;  ///< Godlove units; else CIEDE2000
};

/// Two notations are compared by Godlove's formula; two measured colours, or a measured one and a notation,
/// by CIEDE2000.
Apart apart(const ComparedCoat& a, const ComparedCoat& b, const AlignFigures& figures);

/// Factor by which two coats being one is likelier than two coats of any colour.
double likelihood(const ComparedCoat& a, const ComparedCoat& b, const AlignFigures& figures);

struct AlignedPair {
  std::size_t reference = 0;
  std::size_t other = 0;
  double probability = 0;
  bool operator==(const AlignedPair&) const = default;
};

/// The answer of align(). All probabilities together, `after`, `reference_later` and `unlike`, make one.
struct Alignment {
  std::vector<double> after;      ///< after[k]: the other was first painted after k coats of the reference
  double reference_later = 0;     ///< the reference begins part-way up the other
  double unlike = 0;              ///< no coat is common to both
  std::vector<AlignedPair> best;  ///< of the most probable single alignment
  std::size_t k = 0;              ///< most probable place in `after`
};

/// Most coats that a sequence may have here; longer ones are refused.
inline constexpr std::size_t kMostCoats = 60;

/// Sums over all alignments that keep the order of coats (forward and backward sums; the best single one by
/// S. B. Needleman and C. D. Wunsch, 'A general method applicable to the search for similarities in the amino
/// acid sequence of two proteins', Journal of Molecular Biology 48, 1970, 443-453). The other's first coat
/// may lie over any number of coats of the reference at no charge, since that number is what is asked; the
/// tops are held together. Nothing when either is empty. Throws Error(invalid) for more than kMostCoats. O(n
/// m).
std::optional<Alignment> align(const std::vector<ComparedCoat>& reference,
                               const std::vector<ComparedCoat>& other, const AlignFigures& figures = {});

}  // namespace lathbook::finishes
