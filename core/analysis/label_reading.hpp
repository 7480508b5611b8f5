// The typed result of reading destination labels: which room each sends its component to, and why. Values
// only.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/analysis/draft.hpp"
#include "core/evidence/reader.hpp"

namespace lathbook {

/// What a label turned out to be.
enum class LabelVerdict : std::uint8_t {
  none,               ///< says no room of this house, or nothing that could be one
  clear,              ///< one place far ahead of all others
  ambiguous,          ///< several places, or one ahead that must be checked
  not_a_destination,  ///< an address, a parcel's wording, or it stands on a thing that came from elsewhere
  assembly_number     ///< a number that fits a frame together
};

/// One reason for or against a place: a factor from 0 to 1 and what it rests on, in words without a full
/// stop.
struct LabelFactor {
  std::string
      about;  ///< "name", "time", "storey", "position", "kind of room", "fitting", "sense of the words"
  double weight = 1;
  std::string words;
  Digest statement;  ///< a dated name, an outline, a convention; nil when it rests on none
};

/// A place the label may mean.
struct LabelCandidate {
  RecordInfo place;        ///< a room; a storey when the label says no more than that
  std::string called;      ///< the name that fits, as it stands in the archive; empty when taken by position
  std::string shown;       ///< code and name for people: "203 North Chamber (also Back Bedroom)"
  std::string convention;  ///< "us" or "uk" when it holds only by that way of counting storeys
  double score = 0;        ///< product of the factors
  double share = 0;        ///< of all that could be meant, 'none of them' included (docs/labels.md)
  std::vector<LabelFactor> factors;
  std::vector<std::string> left_open;  ///< what the label does not settle if this place is meant
};

/// One word of the label and what it was taken for in the likeliest way of taking it.
struct LabelWord {
  std::string written;
  std::string taken_as;
  std::string ground;  ///< "as its beginning"; empty when the table or the word itself says so
};

/// A number cut by a carpenter: its strokes, the numbers they may add up to, tags and ticks as they stand.
struct LabelNumeral {
  std::string strokes;
  std::vector<int> values;
  std::string tags;
};

struct LabelReading {
  RecordInfo label;    ///< nil id for a text that was typed in
  RecordInfo carrier;  ///< nil id when not said
  std::string text;    ///< the transcription in the published signs
  Digest transcription;
  std::string when;  ///< "1888"; empty when the day of writing is not known
  LabelVerdict verdict = LabelVerdict::none;
  std::string words;                       ///< the verdict in a sentence or two
  std::vector<LabelCandidate> candidates;  ///< best first, at most 12
  double none_share = 0;                   ///< share of 'none of them'
  std::vector<LabelWord> taken;
  std::string part;                    ///< "casing, west wall, piece 4": what of the room, in words
  std::vector<std::string> left_open;  ///< of the best candidate
  std::vector<std::string> cautions;   ///< what the label must not be taken for
  std::vector<std::string> hints;      ///< what would settle it, other ways of counting
  std::vector<std::string> unknown;    ///< words that nothing explains, as written
  std::vector<LabelNumeral> numerals;
};

struct LabelReadings {
  Reading reading;
  std::vector<LabelReading> labels;      ///< one for each transcription of each label, by code
  std::vector<std::string> conventions;  ///< the conventions in force, a sentence each
  std::vector<Draft> proposals;
};

/// The word of a verdict: "none", "clear", "ambiguous", "not a destination", "assembly number".
inline const char* word(LabelVerdict verdict) {
  switch (verdict) {
    case LabelVerdict::clear:
      return "clear";
    case LabelVerdict::ambiguous:
      return "ambiguous";
    case LabelVerdict::not_a_destination:
      return "not a destination";
    case LabelVerdict::assembly_number:
      return "assembly number";
    case LabelVerdict::none:
      break;
  }
  return "none";
}

}  // namespace lathbook
