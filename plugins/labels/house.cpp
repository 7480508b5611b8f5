#include "plugins/labels/house.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"

namespace lathbook::labels {

namespace {

constexpr double kDaysInYear = 365.2425;

std::vector<RoomName> names_of(const PlaceView& place) {
  std::vector<RoomName> names;
  for (const NameView& name : place.names) {
    names.push_back({name.text, Vocabulary::standard().canonical(name.text), period_of(name.from, name.to),
                     name.sort, name.statement});
  }
  return names;
}

std::vector<Outline> outlines_of(const PlaceView& place) {
  std::vector<Outline> outlines;
  for (const OutlineView& outline : place.outlines) {
    if (auto shape = Shape::from(outline.points))
      outlines.push_back({*std::move(shape), period_of(outline.from, outline.to), outline.statement});
  }
  return outlines;
}

// The last telling word of each name counts; a chamber goes before a room so called, and both before what
// the remaining names make it (the Maid's Room that is a linen store now is a room).
RoomKind kind_of(const std::vector<RoomName>& names) {
  std::optional<RoomKind> kind;
  for (const RoomName& name : names) {
    for (auto word = name.words.rbegin(); word != name.words.rend(); ++word) {
      const auto told =
          *word == "room" ? std::optional(RoomKind::room) : Vocabulary::standard().kind_of_word(*word);
      if (!told) continue;
      const bool better = told == RoomKind::chamber || (told == RoomKind::room && kind != RoomKind::chamber);
      if (!kind || better) kind = told;
      break;
    }
  }
  return kind.value_or(RoomKind::room);
}

double number_in(const std::string& text) {
  double value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return std::isfinite(value) ? value : 0;
}

Building building_of(const PlaceView& place) {
  Building building;
  building.info = place.record.info;
  building.north = number_in(place.record.text("project-north"));
  if (const Statement* front = place.record.best("front-faces")) {
    building.front = front->content.value;
    building.front_statement = front->id;
  }
  if (const Statement* convention = place.record.best("storey-convention")) {
    building.convention = convention->content.value;
    building.convention_statement = convention->id;
  }
  return building;
}

}  // namespace

double Period::years_from(const Period& other) const {
  Day gap = 0;
  if (last && other.first) gap = std::max(gap, *other.first - *last);
  if (first && other.last) gap = std::max(gap, *first - *other.last);
  return static_cast<double>(gap) / kDaysInYear;
}

Period period_of(const std::string& from, const std::string& to) {
  Period period;
  period.first = earliest_day(from);
  period.last = latest_day(to);
  if (!from.empty() && !to.empty())
    period.words = from + " to " + to;
  else if (!from.empty())
    period.words = "from " + from;
  else if (!to.empty())
    period.words = "to " + to;
  return period;
}

House::House(const Snapshot& archive, const Uuid& scope) : archive_(archive) {
  std::map<Uuid, PlaceView> places;
  std::vector<Uuid> order;
  const auto take = [&](const RecordView& record) {
    order.push_back(record.info.id);
    places.emplace(record.info.id, PlaceView(record));
  };
  if (scope == Uuid{}) {
    archive.each(Kind::place, take);
  } else {
    for (const Uuid& id : archive.places_within(scope))
      if (const auto record = archive.find(id)) take(*record);
  }
  for (const Uuid& id : order)
    if (const PlaceView& place = places.at(id); place.type == "building")
      buildings_.push_back(building_of(place));
  // A room that stands in no building of the scope still needs somewhere to stand.
  if (buildings_.empty()) buildings_.emplace_back();
  const auto building_index = [&](const PlaceView& place) {
    std::optional<Uuid> up = place.within;
    for (int depth = 0; up && depth < 16; ++depth) {
      for (std::size_t i = 0; i < buildings_.size(); ++i)
        if (buildings_[i].info.id == *up) return i;
      const auto next = places.find(*up);
      up = next == places.end() ? std::nullopt : next->second.within;
    }
    return std::size_t{0};
  };
  for (const Uuid& id : order) {
    const PlaceView& place = places.at(id);
    if (place.type == "storey" && place.storey_number)
      storeys_.push_back({place.record.info, building_index(place), *place.storey_number, names_of(place)});
  }
  for (const Uuid& id : order)
    if (const PlaceView& place = places.at(id); place.type == "room") add_place(place, places);
  count_words();
}

void House::add_place(const PlaceView& place, const std::map<Uuid, PlaceView>& places) {
  Room room;
  room.info = place.record.info;
  std::optional<Uuid> up = place.within;
  for (int depth = 0; up && depth < 16 && !room.storey; ++depth) {
    for (std::size_t i = 0; i < storeys_.size(); ++i)
      if (storeys_[i].info.id == *up) room.storey = i;
    const auto next = places.find(*up);
    up = next == places.end() ? std::nullopt : next->second.within;
  }
  room.names = names_of(place);
  room.outlines = outlines_of(place);
  room.stood = period_of(place.record.edtf("place-began"), place.record.edtf("place-ended"));
  room.kind = kind_of(room.names);
  rooms_.push_back(std::move(room));
}

void House::count_words() {
  for (const Room& room : rooms_) {
    std::set<std::string> own;
    for (const RoomName& name : room.names) own.insert(name.words.begin(), name.words.end());
    for (const std::string& word : own) ++counts_[word];
    words_.insert(own.begin(), own.end());
  }
  for (const Storey& storey : storeys_)
    for (const RoomName& name : storey.names) words_.insert(name.words.begin(), name.words.end());
}

double House::rarity(const std::string& word) const {
  if (word == "room") return 0.02;
  const double usual = is_generic(word) ? 0.3 : 1;
  const auto found = counts_.find(word);
  const double count = found == counts_.end() ? 0.5 : static_cast<double>(found->second);
  return usual * std::log(1 + (static_cast<double>(rooms_.size()) + 1) / count);
}

std::optional<std::size_t> House::beyond(std::size_t storey, bool above) const {
  const Storey& here = storeys_[storey];
  std::optional<std::size_t> nearest;
  for (const Room& room : rooms_) {
    if (!room.storey) continue;
    const Storey& there = storeys_[*room.storey];
    if (there.building != here.building) continue;
    if (above ? there.number <= here.number : there.number >= here.number) continue;
    if (!nearest || std::abs(there.number - here.number) < std::abs(storeys_[*nearest].number - here.number))
      nearest = room.storey;
  }
  return nearest;
}

const Outline* House::outline(const Room& room, const Period& when) const {
  const Outline* best = nullptr;
  for (const Outline& outline : room.outlines) {
    if (best == nullptr || outline.period.years_from(when) < best->period.years_from(when)) best = &outline;
  }
  return best;
}

Compass House::compass(std::size_t storey, const Period& when) const {
  std::vector<Shape> shapes;
  for (const Room& room : rooms_) {
    if (room.storey != storey) continue;
    if (const Outline* found = outline(room, when)) shapes.push_back(found->shape);
  }
  return {buildings_[storeys_[storey].building].north, shapes};
}

const std::vector<Fitting>& House::fittings(const Room& room, const std::string& word) const {
  const auto [place, fresh] = fittings_.try_emplace({room.info.id, word});
  if (!fresh) return place->second;
  Query query;
  query.object = room.info.id;
  query.properties = {Registry::standard().named("stands-in").id};
  std::vector<Uuid> elements;
  archive_.statements().each_statement(query, [&](const Statement& statement) {
    const auto role = statement.content.qualifier("role");
    if (role.empty() || role == "stands in" || role == "shows in")
      elements.push_back(statement.content.subject);
    return true;
  });
  for (const Uuid& id : elements) {
    const auto record = archive_.find(id);
    if (!record) continue;
    const ElementView element(*record);
    if (element.of_class == "cut" || element.of_class == "ghost") continue;
    std::string face;
    for (const StandingView& standing : element.places)
      if (standing.place == room.info.id) face = standing.face;
    if (!says_fitting(element.type + " " + element.of_class + " " + record->info.name + " " + face, word))
      continue;
    place->second.push_back({record->info, face, element.of_class == word || is_fitting(element.type, word)});
  }
  return place->second;
}

bool is_fitting(const std::string& type, const std::string& fitting) {
  static const std::set<std::string> kAfterTheNoun = {"of", "with", "on", "in", "to", "for", "at"};
  std::string noun;
  for (const std::string& word : plain_words(type.substr(0, type.find(',')))) {
    if (kAfterTheNoun.count(word) != 0) break;
    noun = word;
  }
  return says_fitting(noun, fitting);
}

bool says_fitting(const std::string& words, const std::string& fitting) {
  for (const std::string& word : plain_words(words)) {
    if (word == fitting || word == fitting + "s") return true;
    for (const Meaning& meaning : Vocabulary::standard().meanings(word))
      if (meaning.sense == Sense::fitting && meaning.means == fitting && word.size() > 2) return true;
  }
  return false;
}

}  // namespace lathbook::labels
