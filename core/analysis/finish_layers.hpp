// The typed result of comparing layers of paint: sequences, how they line up, what follows. Values only.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/analysis/draft.hpp"
#include "core/analysis/timeline.hpp"
#include "core/evidence/reader.hpp"

namespace lathbook {

/// A Munsell colour as a screen can show it.
struct ColourChip {
  std::string srgb;  ///< "#d8b98c"; empty when the notation could not be read
  /// How far to trust it: "measured", "renotation" (between published colours), "beyond the renotation"
  /// (outside them, chroma or value drawn in), "not on screens" (outside sRGB, drawn in).
  std::string trust;
};

/// One layer of a sequence, whatever its role.
struct FinishCoat {
  RecordInfo record;
  int layer = 0;     ///< as numbered, from the substrate outward
  std::string role;  ///< of the choice list layer-role
  std::string colour;
  std::string munsell;       ///< as written; empty when not matched
  std::string colour_fault;  ///< what could not be read in notation or measurement; usually empty
  std::string measured;      ///< L* a* b* as written; empty when not measured
  ColourChip chip;
  std::vector<std::string> pigments;
  std::string material;
  bool compared = false;     ///< takes part in the comparison (a finish coat, glaze or paper with a colour)
  bool white = false;        ///< compared, and white or nearly: tells little
  bool marker = false;       ///< compared, and unlike every other coat of its sequence: tells much
  bool dirt_below = false;   ///< a dirt line or fracture between it and the coat before
  std::vector<Digest> said;  ///< the statements that give layer, role and colour
};

/// Why nothing is concluded from a sequence; words of the report, and for machines.
enum class FinishRefusal : std::uint8_t {
  none,
  no_coats,         ///< nothing with a colour to compare
  single_coat,      ///< one coat only
  white_only,       ///< whites tell nothing
  layers_unclear,   ///< two coats of one number, a number left out, or none
  not_from_bottom,  ///< the sample does not reach the substrate
  stripped,         ///< signs of stripping found, or a stripped zone in the sequence
  clear_first,      ///< a clear finish was found under the first coat: it may have stood bare of paint
  unexamined,       ///< nobody looked for stripping, or could not tell
  no_neighbour,     ///< nothing of its kind in the place to compare with
  unlike            ///< it does not line up with the reference
};

struct FinishSequence {
  RecordInfo element;
  RecordInfo sample;   ///< nil id: the element's layers as recorded, not told sample by sample
  std::string family;  ///< "woodwork", "plaster", "metal", "other": only like is compared with like
  std::vector<FinishCoat> coats;  ///< from the substrate outward
  /// How the layers were read: "laboratory", "loupe" or "on site"; the last never exceeds possible.
  std::string read_by;
  Confidence most = Confidence::possible;  ///< the most that any conclusion from it can have
  FinishRefusal refusal = FinishRefusal::none;
  std::string refusal_words;          ///< a sentence, with what would settle it
  std::vector<ReasonStep> substrate;  ///< who looked for stripping, and what was found
};

/// A coat of one sequence taken for the same as a coat of another.
struct CoatMatch {
  std::size_t reference = 0;  ///< index into the reference's coats
  std::size_t coat = 0;       ///< index into the other's coats
  double godlove = -1;        ///< Godlove 1951, steps of chroma, a step of value 4; -1 without two notations
  double nickerson = -1;      ///< Nickerson 1936, symmetrical form; -1 without two notations
  double ciede2000 = 0;       ///< of the measured colours, else of those of the renotation
  double probability = 0;     ///< that these two are one coat
};

/// One sequence against the reference.
struct FinishAlignment {
  std::size_t reference = 0;  ///< index into FinishLayers::sequences
  std::size_t sequence = 0;
  /// Probability of 'installed after this many compared coats of the reference': after[k], k from 0.
  std::vector<double> after;
  /// Probability that the reference is the later of the two: it begins part-way up this one.
  double reference_later = 0;
  /// The sequence's own, or `unlike`, or none.
  FinishRefusal refusal = FinishRefusal::none;
  int k = 0;                       ///< most probable
  double probability = 0;          ///< of k
  std::vector<CoatMatch> matches;  ///< of the best alignment, from the substrate outward
  int matched_colours = 0;         ///< matches that are not white
  bool concluded = false;          ///< k > 0 and nothing forbids to say so
  Confidence confidence = Confidence::none;
  std::string words;  ///< the finding in two or three sentences
  std::vector<ReasonStep> reasons;
};

/// Sequences of one family in one place, against the one with the most layers.
struct FinishGroup {
  RecordInfo place;
  std::string family;
  std::size_t reference = 0;                ///< index into FinishLayers::sequences
  std::vector<std::size_t> sequences;       ///< the reference first, the others by code
  std::vector<FinishAlignment> alignments;  ///< one for each sequence that could be lined up
  std::vector<std::string> remarks;         ///< pairs that disagree, and the like
};

struct FinishLayers {
  RecordInfo scope;
  Reading reading;
  std::vector<FinishSequence> sequences;
  std::vector<FinishGroup> groups;
  std::vector<Draft> proposals;  ///< each cites what the coats were read from
  std::string method;            ///< colours, differences and figures used, in a few sentences
};

}  // namespace lathbook
