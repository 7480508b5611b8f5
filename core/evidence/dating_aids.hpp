// The table of dating aids (schemas/dating-aids.tsv): what a kind of nail, tile or pigment says of its piece.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"
#include "core/evidence/statement.hpp"

namespace lathbook {

/// What an aid is read on. It dates that, and never the whole it belongs to.
enum class AidOn : std::uint8_t { fixing, piece, finish };

/// How well the figures are founded.
enum class AidWeight : std::uint8_t {
  firm,   ///< a dated act or patent
  fair,   ///< a book or a named author
  weak,   ///< a web page, or sources that disagree
  memory  ///< not looked up
};

LATHBOOK_API std::string_view word(AidOn on);
LATHBOOK_API std::string_view word(AidWeight weight);

/// One row. Dates are EDTF; an empty one is not told.
struct DatingAid {
  std::string id;  ///< "screw-gimlet"; cited by statements, never changed
  std::string group;
  AidOn on = AidOn::piece;
  std::string feature;
  std::string first;  ///< first possible; empty when the aid gives no not-before
  std::string from;   ///< common from
  std::string to;     ///< common to
  std::string region;
  AidWeight weight = AidWeight::memory;
  std::string source;
  std::string note;

  /// The confidence that a not-before resting on it has unless its recorder says otherwise: probable when
  /// firm or fair, possible when weak or from memory. It is never certain by itself: a table says what was
  /// made, not what is in the hand.
  LATHBOOK_API Confidence confidence() const;
};

/// All rows in the order of the table. Throws Error(corrupt) for a row that breaks a rule: eleven columns,
/// an id of its own, a source, dates that are EDTF and in order.
LATHBOOK_API const std::vector<DatingAid>& dating_aids();
/// Rows of a text in the form of the table; what dating_aids() uses.
LATHBOOK_API std::vector<DatingAid> read_dating_aids(std::string_view text);
/// Null when there is none.
LATHBOOK_API const DatingAid* dating_aid(std::string_view id);
/// Rows in which every word is found, letters of any case, in id, group, feature, region or note.
LATHBOOK_API std::vector<const DatingAid*> find_aids(const std::vector<std::string>& words);

/// Year in which window panes of this mean thickness were made, by the line of R. W. Moir, 'Windows to Our
/// Past: A Chronological Scheme for the Thickness of Pane Fragments from 1635-1982' (1987), formula from
/// memory: 84.22 x millimetres + 1712.7; good for about 1810 to 1915 and for means of samples only.
LATHBOOK_API double moir_year(double mean_millimetres);

}  // namespace lathbook
