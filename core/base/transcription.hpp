// What stands on a mark or label, letter for letter: the Leiden signs as typed, read into tokens.
//
// Signs and meanings: the Leiden conventions as set out by H. Krummrey and S. Panciera, 'Criteri di edizione
// e segni diacritici', Tituli 2, 1980, 205-215, and S. Panciera, 1991, in the alignment of the EpiDoc
// Guidelines (edition 8). docs/transcription.md lists every sign, what may be typed for it on a phone, and
// what is our own.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"

namespace lathbook {

/// The texts read here are at most this many bytes, and brackets stand at most this deep in one another.
inline constexpr std::size_t kMostTranscription = 1U << 20U;
inline constexpr std::size_t kDeepestBracket = 12;

enum class TokenKind : std::uint8_t {
  letter,    ///< one letter or digit
  sign,      ///< punctuation, interpunct, '&' or symbol
  space,     ///< a run of blanks
  line_end,  ///< '/', '|' or a line feed: the next line begins
  part_end,  ///< '//' or '||': the next face, column or stamp begins
  gap,       ///< letters that were not read
  blank,     ///< room left free by the cutter (vac.)
  note       ///< a word of the reader about the reading: (!), (?), (rtl), (mirrored)
};

/// Why letters were not read. `none` is the unwritten end of an abbreviation, a(- - -).
enum class GapReason : std::uint8_t { none, lost, illegible, covered, erased };

/// How a letter or gap stands in the reading; any several together.
enum Standing : std::uint32_t {
  kUncertain = 1U << 0U,    ///< dotted: the traces would bear another letter too
  kRestored = 1U << 1U,     ///< [abc] lost, supplied by the reader: no evidence
  kExpanded = 1U << 2U,     ///< a(bc) never written: the reader writes the abbreviation out
  kErased = 1U << 3U,       ///< 〚abc〛 struck out, still legible
  kOverErasure = 1U << 4U,  ///< «abc» written where something was erased
  kSuperfluous = 1U << 5U,  ///< {abc} written by mistake
  kSupplied = 1U << 6U,     ///< <abc> left out by the cutter, supplied by the reader: not on the thing
  kCorrected = 1U << 7U,    ///< ⸢abc⸣ other letters stand there; the reader corrects
  kAdded = 1U << 8U,        ///< `abc´ added later, above the line or by another hand
  kDoubtful = 1U << 9U,     ///< [abc?], (abc?): the reader's supplement is itself a guess
  kMirrored = 1U << 10U,    ///< the letter itself stands mirrored
  kJoined = 1U << 11U,      ///< written in one with the letter after it
  kWholeLine = 1U << 12U,   ///< of a gap: whole lines, not letters
  kTight = 1U << 13U        ///< of a line end: no blank on either side, so the word goes on
};

/// One step of the reading. `at` and `length` are the bytes of the raw text it was read from.
struct Token {
  TokenKind kind = TokenKind::letter;
  GapReason reason = GapReason::none;
  std::uint32_t standing = 0;
  /// Letter or sign as written, composed (NFC), without underdot, mirrored forms as their plain letter.
  char32_t letter = 0;
  std::uint32_t at = 0;
  std::uint32_t length = 0;
  /// Letters in a gap (lines with kWholeLine; letters' widths in a blank): at least, at most, most likely.
  /// -1 = not known. Equal: counted.
  std::int32_t least = 0;
  std::int32_t most = 0;
  std::int32_t likely = 0;

  bool is(Standing flag) const { return (standing & flag) != 0; }
  bool counted() const { return least == most && least >= 0; }
  bool operator==(const Token&) const = default;
};

struct TranscriptionOptions {
  /// Dots in square brackets were counted, one a letter, as the published convention has it. Otherwise dots
  /// typed by hand mean 'some letters, about so many'; a number, [2], is always counted.
  bool dots_counted = false;
};

/// Where and why a text is no transcription. `reason` goes on after the quoted text: "has a bracket ...".
struct TranscriptionFault {
  std::size_t at = 0;         ///< byte offset
  std::size_t character = 0;  ///< code points before it, plus one
  std::string reason;
};

/// A text read. The raw text is kept as it was typed; everything else is derived from it.
struct LATHBOOK_API Transcription {
  std::string raw;
  std::vector<Token> tokens;
  bool mirrored_plate = false;       ///< (mirrored): the whole stamp or plate prints mirrored
  std::vector<std::string> remarks;  ///< what the reader of this text should know, one sentence each
  std::vector<std::uint32_t> lines;  ///< index of the first token of each line
  std::vector<bool> right_to_left;   ///< of each line: (rtl), it runs from right to left on the thing

  /// In the published signs, ready to print: typed substitutes replaced, counts made plain. Reading it again
  /// with dots counted gives the same tokens (but for their places in the text).
  std::string shown() const;
  /// The same without any sign of the convention: letters read, restored and expanded, gaps as '…', line ends
  /// as ' / '. For lists and search boxes, never for judging.
  std::string plain() const;
  /// Only what is on the thing, in order: no restored, expanded or supplied letters.
  std::string letters() const;
};

/// Reads a transcription; costs time and memory in proportion to its length. Throws Error(invalid) with
/// the sentence of the fault.
LATHBOOK_API Transcription read_transcription(std::string_view text, TranscriptionOptions options = {});
/// The first fault of a text, or nothing when read_transcription would read it.
LATHBOOK_API std::optional<TranscriptionFault> fault_in_transcription(std::string_view text);

/// Could the thing have borne this text? Case, diacritics, blanks, points and line ends do not count;
/// restored letters may be others in the same number; expanded, supplied and superfluous groups may be there
/// or not; an uncertain letter may be any one letter. Bounded by tokens times letters; a transcription of
/// more than 4,096 tokens throws Error(invalid).
LATHBOOK_API bool could_bear(const Transcription& transcription, std::string_view text);

}  // namespace lathbook
