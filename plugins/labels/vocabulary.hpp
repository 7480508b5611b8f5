// The words of labels and of rooms' names: schemas/label-words-en.tsv and schemas/room-names-en.tsv.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/base/calendar.hpp"

namespace lathbook::labels {

/// What a word of a label can be. The order is that of `sense_words()`.
enum class Sense {
  name,      ///< words of a room's name
  generic,   ///< room, chamber, bedroom, closet
  relation,  ///< over, under, next
  compass,
  storey,   ///< ground, cellar, attic, upper
  floor,    ///< the word floor, story, storey
  ordinal,  ///< first, 2nd
  fitting,  ///< window, mantel, stair
  face,     ///< wall, ceiling, corner
  hand,     ///< left, right
  end,      ///< front, back, side
  tip,      ///< top, bottom
  number,   ///< No.
  job,      ///< order, box, job
  handling,
  carriage,
  either,  ///< or
  joiner,  ///< and
  idle,
  figure,   ///< a number in digits
  numeral,  ///< an assembly numeral
  unknown
};

/// One thing a word may stand for.
struct Meaning {
  Sense sense = Sense::unknown;
  std::string means;   ///< canonical words: "dining room", "north-east", "over", "2"
  double weight = 1;   ///< 1 = it says so; less = one sense of several, or a guess
  std::string ground;  ///< how it was come by, for people; empty when the word is written out
};

enum class RoomKind { room, chamber, closet, passage };

/// Two names of which the one may stand for the other.
struct SameName {
  std::string a, b;  ///< canonical, without 'room'
  std::optional<Day> from, to;
  double weight = 0;
  std::string source;
};

class Vocabulary {
public:
  /// The built-in tables. Throws Error(corrupt) naming a broken row.
  static const Vocabulary& standard();

  /// Rows of a word as written (folded, without points); empty when the table does not know it.
  const std::vector<Meaning>& meanings(const std::string& key) const;
  /// All canonical single words of the kind 'name', for words cut short or damaged.
  const std::vector<std::string>& name_words() const { return name_words_; }
  const std::vector<SameName>& same_names() const { return same_; }
  std::optional<RoomKind> kind_of_word(const std::string& word) const;

  /// A room's name as canonical words: "Bath Room" = bath, room; "Parlor" = parlour; "Bed Rm" = bedroom.
  std::vector<std::string> canonical(std::string_view name) const;

private:
  Vocabulary();
  void read_words();
  void read_rooms();

  std::unordered_map<std::string, std::vector<Meaning>> words_;
  std::unordered_map<std::string, RoomKind> kinds_;
  std::vector<std::string> name_words_;
  std::vector<SameName> same_;
};

/// Folded words of a name: letters and digits only, apostrophes dropped, 'and' for '&'.
std::vector<std::string> plain_words(std::string_view text);

/// True for room, chamber, bedroom, closet: words that name no room by themselves.
bool is_generic(const std::string& word);
/// Degrees clockwise from north for "north", "north-east" ...; nothing for another word.
std::optional<double> bearing_of(const std::string& word);

}  // namespace lathbook::labels
