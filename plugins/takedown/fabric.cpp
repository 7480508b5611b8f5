#include "plugins/takedown/fabric.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <unordered_map>
#include <utility>

#include "core/base/edtf.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/view/piece_states.hpp"
#include "core/view/scope.hpp"
#include "plugins/takedown/flat.hpp"
#include "plugins/takedown/licensed.hpp"

namespace lathbook::takedown {

namespace {

/// Relations in which the subject comes away before the object, and whether it would fall without it.
struct Relation {
  const char* property;
  const char* words;
  bool holds;
};
constexpr Relation kRelations[] = {{"covers", "lies over", true},
                                   {"fills", "fills", true},
                                   {"butts", "was brought up against", false},
                                   {"fixed-to", "is fixed to", true},
                                   {"rests-on", "rests on", true}};

int looseness(const std::string& sounds) {
  static const std::map<std::string, int, std::less<>> ranks{{"moves", 0}, {"rattling", 1}, {"hollow", 2},
                                                             {"dull", 3},  {"", 4},         {"sound", 5}};
  const auto found = ranks.find(sounds);
  return found == ranks.end() ? 4 : found->second;
}

std::int64_t day_of(std::string_view edtf) {
  return earliest_day(edtf).value_or(-1);
}

double shift_of(const std::string& bond) {
  if (bond.find("half") != std::string::npos) return 0.5;
  return bond.find("third") != std::string::npos ? 1.0 / 3 : 0;
}

// Where a thing was taken away: its day, and its turn on that day.
struct Removal {
  std::int64_t day = -1;
  std::int64_t turn = 0;
};

// A relation as it was said of a thing.
struct Said {
  const Relation* relation = nullptr;
  Uuid other;
  Digest statement;
};

std::vector<std::string_view> relation_names() {
  std::vector<std::string_view> names;
  for (const auto& relation : kRelations) names.emplace_back(relation.property);
  return names;
}

std::vector<Said> said_of(const RecordView& record) {
  std::vector<Said> said;
  for (const auto& relation : kRelations)
    for (const Statement* statement : record.all(relation.property)) {
      if (statement->content.confidence == Confidence::conjecture) continue;
      if (const auto other = Uuid::parse(statement->content.value))
        said.push_back({&relation, *other, statement->id});
    }
  return said;
}

// What an order needs of a piece; a house may have very many.
struct Piece {
  RecordInfo info;
  Uuid element;
  std::optional<int> row, column;
  PieceState state = PieceState::unknown;
  std::string sounds;
  std::optional<std::int64_t> out_since;  // day from which it was in place no longer
  bool retained = false;
  std::vector<Said> said;
};

// States say it for each piece, events often for the field.
std::optional<std::int64_t> out_since(const RecordView& piece) {
  for (const Statement* state : piece.history("piece-state"))
    if (state->content.value != word(PieceState::in_place) &&
        state->content.value != word(PieceState::missing_at_survey))
      return day_of(state->content.qualifier("on"));
  return std::nullopt;
}

std::string sounds_of(const RecordView& record) {
  const Statement* sound = record.latest("bed-sound");
  return sound == nullptr ? std::string() : sound->content.value;
}

bool is_retained(const RecordView& record) {
  return record.best("retained-as-evidence") != nullptr;
}

// A bag of unnumbered fragments or of bed stands in nothing's way.
bool is_bag(const RecordView& record) {
  return number_in<std::size_t>(record.text("count")).value_or(1) > 1;
}

Piece piece_of(const PieceView& view) {
  const RecordView& record = view.record;
  return {record.info,
          *view.element,
          view.laid_at ? view.laid_at->first : view.row,
          view.laid_at ? view.laid_at->second : view.column,
          piece_state_from_word(view.state),
          sounds_of(record),
          out_since(record),
          is_retained(record),
          said_of(record)};
}

}  // namespace

// What the archive says, before anybody asks for one fabric or the other.
struct Survey::Read {
  const Snapshot& archive;
  Uuid scope;
  std::set<Uuid> inside;                                   // what belongs to the scope
  std::set<Uuid> members;                                  // that, and elements lying over anything of it
  std::vector<RecordView> elements;                        // of the members, by code
  std::vector<Piece> pieces;                               // of these and without fragments, by code
  std::unordered_map<Uuid, std::vector<const Piece*>> of;  // by element, by code
  std::map<Uuid, Removal> out;
  std::map<Uuid, std::int64_t> propped;
  std::set<Uuid> away;  // taken away for the works and not put back since
  std::vector<FollowedStep> followed;

  Read(const Snapshot& snapshot, const Uuid& wanted);

private:
  // One element, or a piece of it, lies over another thing.
  struct Over {
    Uuid element;
    Uuid lower;
  };

  std::vector<Over> read_elements();
  std::vector<Over> read_pieces();
  bool widen(const std::vector<Over>& over);
  void read_events();
  static std::vector<const Statement*> things_in_order(const RecordView& event);
};

namespace {

bool by_code(const RecordInfo& a, const RecordInfo& b) {
  return compare_for_people(a.code, b.code) < 0;
}

// More than the places of one field can differ.
constexpr std::int64_t kCellsAField = std::int64_t{1} << 32;

class Weaver {
public:
  /// `members`: which of the elements that were read are woven in.
  Weaver(const Survey::Read& read, Survey::Part part, const std::set<Uuid>& members)
      : read_(read), part_(part), members_(members) {}

  Fabric weave() {
    fabric_.grounds = {{{}, nullptr, ""}, {{}, "stands on", " in the course below"}};
    for (const auto& element : read_.elements)
      if (members_.count(element.info.id) != 0) add_element(element);
    for (const auto& element : read_.elements) add_relations(element.info.id, said_of(element));
    for (const Piece& piece : read_.pieces) add_relations(piece.info.id, piece.said);
    keep_followed();
    return std::move(fabric_);
  }

private:
  struct Ends {
    std::uint32_t begin = 0;  ///< nothing of it moves before this
    std::uint32_t done = 0;   ///< all of it is away after this
  };

  // Of all that was taken in the house what belongs to this scope.
  void keep_followed() {
    for (FollowedStep step : read_.followed) {
      const auto ends = ends_for(step.thing.id);
      if (!ends) continue;
      step.thing = fabric_.nodes[ends->begin].record;
      fabric_.followed.push_back(std::move(step));
    }
  }

  std::uint32_t add_node(Node node, int rank, std::int64_t place, bool stays) {
    fabric_.nodes.push_back(std::move(node));
    fabric_.things.push_back({rank, place, stays});
    return static_cast<std::uint32_t>(fabric_.nodes.size() - 1);
  }

  Node node_for(const RecordInfo& record) const {
    Node node;
    node.record = record;
    if (const auto out = read_.out.find(record.id); out != read_.out.end()) {
      node.out = out->second.day;
      node.turn = out->second.turn;
    }
    node.propped = read_.propped.count(record.id) != 0;
    return node;
  }

  bool keep(bool retained, const RecordInfo& info) {
    if (retained) fabric_.retained.push_back(info);
    return retained;
  }

  bool takes_part(PieceState state) const {
    // What was missing when the survey was made has never stood for us.
    if (part_ == Survey::Part::all) return state != PieceState::missing_at_survey;
    const bool here = state == PieceState::in_place || state == PieceState::unknown;
    if (part_ == Survey::Part::in_place) return here;
    return !here && is_held(state);
  }

  // Cuts (screw holes too) and ghosts cannot be carried; the structure of a room is not taken down with its
  // fittings, unless it is what was asked for.
  bool is_thing(const RecordView& element) const {
    static const std::set<std::string, std::less<>> no_things{"cut", "ghost", "opening"};
    static const std::set<std::string, std::less<>> structure{"wall", "partition", "roof", "stair", "window"};
    const std::string kind = element.text("element-class");
    if (no_things.count(kind) != 0) return false;
    return structure.count(kind) == 0 || element.info.id == read_.scope;
  }

  // Went for good before these works.
  static bool is_gone(const RecordView& element) {
    static constexpr const char* kGone[] = {"removed-for-good", "gone-by", "gone-on", "gone-in-phase",
                                            "removed-in-campaign"};
    return std::any_of(std::begin(kGone), std::end(kGone),
                       [&](const char* property) { return element.best(property) != nullptr; });
  }

  void add_element(const RecordView& element) {
    if (!is_thing(element) || is_gone(element)) return;
    const bool stays = keep(is_retained(element), element.info);
    const auto pieces = read_.of.find(element.info.id);
    if (pieces != read_.of.end()) {
      add_field(element, pieces->second, stays);
      return;
    }
    const bool is_out = read_.away.count(element.info.id) != 0;
    if (part_ != Survey::Part::all && is_out != (part_ == Survey::Part::out)) return;
    Node node = node_for(element.info);
    node.sounds = sounds_of(element);
    node.licensed = licensed_note(read_.archive, element);
    const int rank = looseness(node.sounds);
    const auto at = add_node(std::move(node), rank, 0, stays);
    ends_[element.info.id] = {at, at};
  }

  void add_field(const RecordView& element, const std::vector<const Piece*>& pieces, bool stays) {
    Node mark;
    mark.record = element.info;
    mark.mark = true;
    const auto begin = add_node(mark, -1, 0, false);
    const Ends ends{begin, add_node(mark, -1, 0, false)};
    ends_[element.info.id] = ends;
    const std::string licensed = licensed_note(read_.archive, element);
    std::map<std::pair<int, int>, std::uint32_t> cells;
    for (const Piece* piece : pieces) {
      if (!takes_part(piece->state)) continue;
      const auto at = add_piece(*piece, licensed, stays);
      fabric_.hindrances.push_back({ends.begin, at, kMarks, false});
      if (piece->retained && !stays)
        fabric_.partly_kept.push_back({at, ends.done});
      else
        fabric_.hindrances.push_back({at, ends.done, kMarks, false});
      if (piece->row && piece->column) cells.emplace(std::pair(*piece->row, *piece->column), at);
    }
    if (lies_flat(element)) return from_edges_inward(cells);
    fabric_.upright = fabric_.upright || !cells.empty();
    const Statement* map = element.best("piece-map");
    top_down(cells, map == nullptr ? 0 : shift_of(std::string(map->content.qualifier("bond"))));
  }

  std::uint32_t add_piece(const Piece& piece, const std::string& licensed, bool stays) {
    Node node = node_for(piece.info);
    node.licensed = licensed;
    node.sounds = piece.sounds;
    if (piece.out_since && *piece.out_since != node.out) {
      node.out = *piece.out_since;
      node.turn = 0;
    }
    const int rank = part_ == Survey::Part::out ? 0 : looseness(node.sounds);
    const std::int64_t place = -1000 * std::int64_t{piece.row.value_or(0)} + piece.column.value_or(0);
    const bool kept = keep(piece.retained, piece.info);
    const auto at = add_node(std::move(node), rank, place, stays || kept);
    piece_nodes_.emplace(piece.info.id, at);
    return at;
  }

  void from_edges_inward(const std::map<std::pair<int, int>, std::uint32_t>& cells) {
    const auto rings = rings_from_edges(cells);
    for (const auto& [cell, ring] : rings) {
      const auto node = cells.at(cell);
      fabric_.nodes[node].ring = static_cast<std::size_t>(ring);
      fabric_.things[node].place = ring * kCellsAField + fabric_.things[node].place;
    }
    fabric_.flat = fabric_.flat || !cells.empty();
  }

  // Loose tile comes off from the top down, so that nothing falls on what remains and each upper edge is
  // free: common practice, no source. A sound bed holds a tile without what is below it.
  void top_down(const std::map<std::pair<int, int>, std::uint32_t>& cells, double shift) {
    for (const auto& [cell, upper] : cells) {
      const bool firm = part_ != Survey::Part::out && fabric_.nodes[upper].sounds == "sound";
      const auto under = [&, upper = upper, row = cell.first](int column) {
        const auto lower = cells.find({row - 1, column});
        if (lower == cells.end()) return;
        if (firm) {
          fabric_.leanings.push_back({upper, lower->second});
          return;
        }
        fabric_.hindrances.push_back({upper, lower->second, kBelow, true});
      };
      under(cell.second);
      if (shift > 0) under(cell.first % 2 == 0 ? cell.second + 1 : cell.second - 1);
    }
  }

  void add_relations(const Uuid& id, const std::vector<Said>& said) {
    if (said.empty()) return;
    const auto ours = ends_for(id);
    if (!ours) return;
    for (const Said& one : said) {
      const auto theirs = ends_for(one.other);
      if (!theirs) continue;
      const auto ground = static_cast<std::uint32_t>(fabric_.grounds.size());
      fabric_.grounds.push_back({one.statement, one.relation->words, ""});
      fabric_.hindrances.push_back({ours->done, theirs->begin, ground, one.relation->holds});
    }
  }

  std::optional<Ends> ends_for(const Uuid& id) const {
    if (const auto element = ends_.find(id); element != ends_.end()) return element->second;
    if (const auto piece = piece_nodes_.find(id); piece != piece_nodes_.end())
      return Ends{piece->second, piece->second};
    return std::nullopt;
  }

  const Survey::Read& read_;
  Survey::Part part_;
  const std::set<Uuid>& members_;
  std::map<Uuid, Ends> ends_;
  std::unordered_map<Uuid, std::uint32_t> piece_nodes_;
  Fabric fabric_;
};

}  // namespace

Survey::Read::Read(const Snapshot& snapshot, const Uuid& wanted) : archive(snapshot), scope(wanted) {
  const auto record = archive.statements().record(scope);
  if (!record || (record->kind != Kind::place && record->kind != Kind::element))
    fail(ErrorKind::invalid, "an order of work is for a place or an element; name one");
  inside = record->kind == Kind::element ? std::set<Uuid>{scope} : belongings_of(archive, scope);
  members = inside;
  const auto of_elements = read_elements();
  widen(of_elements);
  // A piece of another field may bring that field in, and with it what lies over that.
  for (bool more = true; more;) {
    auto over = read_pieces();
    over.insert(over.end(), of_elements.begin(), of_elements.end());
    more = widen(over);
  }
  for (const Uuid& id : members) {
    auto one = archive.find(id);
    if (one && one->info.kind == Kind::element) elements.push_back(std::move(*one));
  }
  std::sort(elements.begin(), elements.end(),
            [](const RecordView& a, const RecordView& b) { return by_code(a.info, b.info); });
  read_events();
}

std::vector<Survey::Read::Over> Survey::Read::read_elements() {
  std::vector<Over> over;
  archive.each(Kind::element, relation_names(), [&](const RecordView& view) {
    for (const Said& one : said_of(view)) over.push_back({view.info.id, one.other});
  });
  return over;
}

// Pieces of the members; gives which pieces of other elements lie over what.
std::vector<Survey::Read::Over> Survey::Read::read_pieces() {
  pieces.clear();
  of.clear();
  std::vector<Over> over;
  auto wanted = relation_names();
  wanted.insert(wanted.end(), {"piece-of", "position", "laid-at", "piece-state", "fragment-of", "bed-sound",
                               "retained-as-evidence", "count"});
  archive.each(Kind::piece, wanted, [&](RecordView& view) {
    PieceView piece(std::move(view));
    if (piece.element && !piece.fragment_of && !is_bag(piece.record)) {
      if (members.count(*piece.element) != 0)
        pieces.push_back(piece_of(piece));
      else
        for (const Said& one : said_of(piece.record)) over.push_back({*piece.element, one.other});
    }
    view = std::move(piece.record);  // its room serves for the next
  });
  for (const Piece& piece : pieces) of[piece.element].push_back(&piece);
  return over;
}

// Whether anything was added to the members.
bool Survey::Read::widen(const std::vector<Over>& over) {
  std::set<Uuid> lower;
  for (const Over& one : over) lower.insert(one.lower);
  std::map<Uuid, Uuid> element_of;
  if (!lower.empty())
    for (const Piece& piece : pieces)
      if (lower.count(piece.info.id) != 0) element_of[piece.info.id] = piece.element;
  const std::size_t before = members.size();
  for (bool more = true; more;) {
    more = false;
    for (const Over& one : over) {
      const auto whole = element_of.find(one.lower);
      if (members.count(whole == element_of.end() ? one.lower : whole->second) != 0)
        more = members.insert(one.element).second || more;
    }
  }
  return members.size() != before;
}

// Days of removals and of props, by what they were done to; events of one day come in order of code.
void Survey::Read::read_events() {
  std::map<std::int64_t, std::int64_t> turns;  // how many were taken that day so far
  std::map<Uuid, std::int64_t> unpropped, back;
  archive.each(Kind::event, [&](const RecordView& event) {
    const std::string type = event.text("event-type");
    const std::int64_t day = day_of(event.edtf("event-date"));
    if (day < 0) return;
    for (const Statement* on : things_in_order(event)) {
      const auto id = Uuid::parse(on->content.value);
      if (!id) continue;
      if (type == "propped") propped[*id] = std::max(propped[*id], day);
      if (type == "prop taken away") unpropped[*id] = std::max(unpropped[*id], day);
      if (type == "put back" || type == "reset") back[*id] = std::max(back[*id], day);
      if (type != "removed") continue;
      const bool in_order = !on->content.qualifier("order").empty();
      out[*id] = {day, in_order ? ++turns[day] : 0};
      followed.push_back({event.edtf("event-date"), event.info, RecordInfo{*id, Kind::piece, {}, {}},
                          event.text("tools"), event.text("outcome"), event.text("lesson")});
    }
  });
  for (const auto& [id, removal] : out)
    if (const auto put = back.find(id); put == back.end() || put->second < removal.day) away.insert(id);
  for (const auto& [id, day] : unpropped)
    if (const auto prop = propped.find(id); prop != propped.end() && prop->second <= day) propped.erase(prop);
  std::stable_sort(followed.begin(), followed.end(), [](const FollowedStep& a, const FollowedStep& b) {
    return day_of(a.day) < day_of(b.day);
  });
}

std::vector<const Statement*> Survey::Read::things_in_order(const RecordView& event) {
  auto things = event.all("event-on");
  const auto place = [](const Statement* one) {
    return number_in<int>(one->content.qualifier("order")).value_or(1 << 30);
  };
  std::stable_sort(things.begin(), things.end(),
                   [&](const Statement* a, const Statement* b) { return place(a) < place(b); });
  return things;
}

Survey::Survey(const Snapshot& archive, const Uuid& scope) : read_(std::make_unique<Read>(archive, scope)) {}
Survey::~Survey() = default;

ReasonStep Fabric::why(const Hindrance& one) const {
  const Ground& ground = grounds[one.reason];
  return {ground.statement, display(nodes[one.first].record) + " " + ground.between + " " +
                                display(nodes[one.second].record) + ground.tail};
}

bool Survey::anything_out() const {
  return !read_->out.empty() || std::any_of(read_->pieces.begin(), read_->pieces.end(),
                                            [](const Piece& piece) { return piece.out_since.has_value(); });
}

bool Survey::anything_kept() const {
  return std::any_of(read_->pieces.begin(), read_->pieces.end(),
                     [](const Piece& piece) { return piece.retained; }) ||
         std::any_of(read_->elements.begin(), read_->elements.end(), is_retained);
}

Fabric Survey::fabric(Part part) const {
  return Weaver(*read_, part, read_->inside).weave();
}

Fabric Survey::with_what_lies_over() const {
  return Weaver(*read_, Part::in_place, read_->members).weave();
}

}  // namespace lathbook::takedown
