// The house as labels see it: storeys, rooms with dated names and outlines, what stands in them.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/base/calendar.hpp"
#include "core/view/snapshot.hpp"
#include "plugins/labels/geometry.hpp"
#include "plugins/labels/vocabulary.hpp"

namespace lathbook::labels {

/// A stretch of days; an end that is not set is open or not known.
struct Period {
  std::optional<Day> first, last;
  std::string words;  ///< "1888 to 1922", "from 1926"; empty when neither end is said

  /// Years between the two, 0 when they can have a day in common.
  double years_from(const Period& other) const;
};

/// From two EDTF texts, either of which may be empty.
Period period_of(const std::string& from, const std::string& to);

struct RoomName {
  std::string text;
  std::vector<std::string> words;  ///< canonical
  Period period;
  std::string sort;
  Digest statement;
};

struct Outline {
  Shape shape;
  Period period;
  Digest statement;
};

struct Storey {
  RecordInfo info;
  std::size_t building = 0;
  int number = 0;
  std::vector<RoomName> names;
};

struct Room {
  RecordInfo info;
  std::optional<std::size_t> storey;
  std::vector<RoomName> names;
  std::vector<Outline> outlines;
  Period stood;
  RoomKind kind = RoomKind::room;
};

struct Building {
  RecordInfo info;
  double north = 0;   ///< degrees from the y axis to true north, clockwise
  std::string front;  ///< compass word; empty when not said
  Digest front_statement;
  std::string convention;  ///< "us", "uk" or empty
  Digest convention_statement;
};

/// Something that stands in a room and bears a word of fittings.
struct Fitting {
  RecordInfo element;
  std::string face;
  bool itself = false;  ///< it is one (a sash window), not only by or of one (the slip of the niche)
};

class House {
public:
  /// Reads the rooms of these places and within (nil = the whole archive).
  House(const Snapshot& archive, const Uuid& scope);

  const std::vector<Building>& buildings() const { return buildings_; }
  const std::vector<Storey>& storeys() const { return storeys_; }
  const std::vector<Room>& rooms() const { return rooms_; }

  /// How often a canonical word is met in rooms' names, as a weight: rare words count more.
  double rarity(const std::string& word) const;
  /// Every canonical word of a room's or storey's name.
  const std::set<std::string>& words() const { return words_; }

  /// The storey nearest above (or below) that has rooms; nothing when there is none.
  std::optional<std::size_t> beyond(std::size_t storey, bool above) const;
  /// The outline that held at the time, best fit first; null when there is none.
  const Outline* outline(const Room& room, const Period& when) const;
  Compass compass(std::size_t storey, const Period& when) const;

  /// What stands in the room and has this word in its type, class or name; read when asked, then kept.
  const std::vector<Fitting>& fittings(const Room& room, const std::string& word) const;

private:
  void add_place(const PlaceView& place, const std::map<Uuid, PlaceView>& places);
  void count_words();

  const Snapshot& archive_;
  std::vector<Building> buildings_;
  std::vector<Storey> storeys_;
  std::vector<Room> rooms_;
  std::set<std::string> words_;
  std::map<std::string, std::size_t> counts_;
  mutable std::map<std::pair<Uuid, std::string>, std::vector<Fitting>> fittings_;
};

/// True when a thing's type says that it is one: "sash window, two over two" is a window, "slip of the niche"
/// no niche.
bool is_fitting(const std::string& type, const std::string& fitting);
/// True when a fitting's word is said by these words of a thing ("sash window" says "window").
bool says_fitting(const std::string& words, const std::string& fitting);

}  // namespace lathbook::labels
