#include "plugins/pieces/gather.hpp"
#include "core/view/measure.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <set>
#include <unordered_map>

#include "core/base/edtf.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/view/piece_states.hpp"
#include "core/view/scope.hpp"

namespace lathbook::pieces {

namespace {

const std::vector<std::string_view> kOfPieces{"piece-of",       "position",
                                              "piece-state",    "in-container",
                                              "fragment-of",    "piece-condition",
                                              "bed-sound",      "prominence",
                                              "count",          "goes-to",
                                              "laid-at",        "dimension",
                                              "keeps-its-cell", "retained-as-evidence"};
// Room is made beforehand for no more than this, whatever a map says of itself.
constexpr std::int64_t kMostReserved = 200000;
const std::vector<std::string_view> kOfElements{"piece-map", "joint",        "element-type", "colour",
                                                "munsell",   "back-pattern", "dimension"};

// "3,1; 3,2": row and column. What cannot be read is a mismatch, told later.
std::vector<std::pair<int, int>> cells_in(const std::string& text, Findings& mismatches,
                                          const RecordInfo& element) {
  std::vector<std::pair<int, int>> cells;
  for (const auto& part : split(text, ';')) {
    const auto numbers = split(part, ',');
    const auto row = numbers.size() == 2 ? number_in<int>(trim(numbers[0])) : std::nullopt;
    const auto column = numbers.size() == 2 ? number_in<int>(trim(numbers[1])) : std::nullopt;
    if (row && column)
      cells.emplace_back(*row, *column);
    else if (!trim(part).empty())
      mismatches.push_back({Severity::warning, "pieces.gaps",
                            "a gap of the map is written row,column; " + quote(part) + " is not",
                            display(element)});
  }
  return cells;
}

void read_map(const RecordView& element, FieldAccount& field) {
  if (const Statement* map = element.best("piece-map")) {
    field.rows = number_in<int>(map->content.qualifier("rows")).value_or(0);
    field.columns = number_in<int>(map->content.qualifier("columns")).value_or(0);
    field.gaps = cells_in(std::string(map->content.qualifier("gaps")), field.mismatches, field.element);
    field.bond = map->content.qualifier("bond");
  }
  if (const Statement* joint = element.best("joint")) field.joint = millimetres_in(joint->content.value);
}

// "side", "length", "width" or "thickness", each with its tolerance; joints are no size of a piece.
PieceSize size_of(const RecordView& record) {
  PieceSize read;
  for (const Statement* statement : record.all("dimension")) {
    const std::string of = fold(statement->content.qualifier("of"));
    const auto size = millimetres_in(statement->content.value);
    if (!size || of.find("joint") != std::string::npos) continue;
    const std::string tolerance(statement->content.qualifier("tolerance"));
    if (!tolerance.empty()) read.tolerance = tolerance;
    if (of.find("side") != std::string::npos)
      read.length = read.width = size;
    else if (of.find("length") != std::string::npos)
      read.length = size;
    else if (of.find("width") != std::string::npos)
      read.width = size;
    else if (of.find("thick") != std::string::npos)
      read.thickness = size;
  }
  return read;
}

// Sizes said of an element are those of its pieces only where it is laid in a map of them.
void read_order(const RecordView& element, FieldAccount& field) {
  OrderLine& order = field.order;
  order.type = element.text("element-type");
  order.colour = element.text("colour");
  order.munsell = element.text("munsell");
  order.back_pattern = element.text("back-pattern");
  for (const Statement* statement : element.all("dimension")) {
    const auto size = millimetres_in(statement->content.value);
    if (size && fold(statement->content.qualifier("of")).find("joint") != std::string::npos && !field.joint)
      field.joint = size;
  }
  if (field.rows != 0) order.size = size_of(element);
}

FieldAccount field_of(const RecordView& element) {
  FieldAccount field;
  field.element = element.info;
  read_map(element, field);
  read_order(element, field);
  const std::int64_t cells = std::int64_t{field.rows} * field.columns;
  if (cells > 0 && cells <= kMostReserved) field.pieces.reserve(static_cast<std::size_t>(cells));
  return field;
}

double cells_taken(std::string_view text) {
  const double cells = number_in<double>(text).value_or(1);
  return cells > 0 && cells <= 100 ? cells : 1;
}

/// Containers by id, each asked for once.
class Boxes {
public:
  explicit Boxes(const Snapshot& archive) : archive_(archive) {}
  const std::optional<RecordInfo>& find(const Uuid& id) {
    const auto [known, fresh] = known_.try_emplace(id);
    if (fresh) known->second = archive_.statements().record(id);
    return known->second;
  }

private:
  const Snapshot& archive_;
  std::unordered_map<Uuid, std::optional<RecordInfo>> known_;
};

PieceLine line_of(const PieceView& view, Boxes& boxes) {
  PieceLine line;
  line.record = view.record.info;
  line.row = view.row;
  line.column = view.column;
  line.rotation = view.rotation;
  if (const Statement* position = view.record.best("position")) {
    line.x = number_in<double>(position->content.qualifier("x"));
    line.y = number_in<double>(position->content.qualifier("y"));
    line.wide = cells_taken(position->content.qualifier("wide"));
    line.high = cells_taken(position->content.qualifier("high"));
  }
  line.retained = view.record.best("retained-as-evidence") != nullptr;
  line.keeps_cell = view.record.text("keeps-its-cell");
  line.size = size_of(view.record);
  if (const Statement* goes = view.record.best("goes-to")) {
    const auto row = number_in<int>(goes->content.qualifier("row"));
    const auto column = number_in<int>(goes->content.qualifier("column"));
    if (row && column) line.goes_to.emplace(*row, *column);
  }
  line.laid_at = view.laid_at;
  line.state = view.state;
  if (const Statement* state = view.record.latest("piece-state")) {
    line.since = state->content.qualifier("on");
    line.state_statement = state->id;
  }
  if (view.container) line.container = boxes.find(*view.container);
  if (const Statement* in = view.record.latest("in-container"))
    line.order = number_in<int>(in->content.qualifier("order")).value_or(0);
  line.condition = view.condition;
  line.parts = view.parts;
  if (const Statement* sound = view.record.latest("bed-sound")) line.sounds = sound->content.value;
  line.prominence = number_in<int>(view.record.text("prominence"));
  if (const auto count = number_in<std::size_t>(view.record.text("count"))) {
    line.count = *count;
    line.is_bag = *count > 1;
  }
  return line;
}

// The elements meant: of the place, or the one.
std::set<Uuid> elements_of(const Snapshot& archive, const Uuid& scope) {
  const auto record = archive.statements().record(scope);
  if (!record) fail(ErrorKind::not_found, "there is no such record in this reading");
  if (record->kind == Kind::element) return {scope};
  if (record->kind == Kind::place) return belongings_of(archive, scope);
  fail(ErrorKind::invalid,
       display(*record) + " has no pieces to count; name a place, an element, or nothing for all");
}

void add_fragments(const std::vector<PieceView>& fragments, std::map<Uuid, FieldAccount>& fields) {
  std::unordered_map<Uuid, PieceLine*> lines;
  for (auto& [id, field] : fields)
    for (auto& line : field.pieces) lines[line.record.id] = &line;
  for (const PieceView& fragment : fragments) {
    const auto whole = lines.find(*fragment.fragment_of);
    if (whole == lines.end()) continue;
    PieceLine& line = *whole->second;
    line.fragments.push_back(fragment.record.info);
    const auto state = piece_state_from_word(fragment.state);
    if (state != PieceState::unknown && !is_held(state)) line.incomplete = true;
  }
}

// By container: who packed or moved it last, and when.
std::map<Uuid, std::string> packings(const Snapshot& archive) {
  std::map<Uuid, std::pair<Day, std::string>> last;
  archive.each(Kind::event, [&](const RecordView& event) {
    const auto container = event.record("moved-to");
    const std::string type = event.text("event-type");
    if (!container || (type != "packed" && type != "moved")) return;
    const std::string day = event.edtf("event-date");
    std::vector<std::string> people;
    for (const Statement* by : event.all("done-by")) {
      const auto id = Uuid::parse(by->content.value);
      if (const auto agent = id ? archive.statements().record(*id) : std::nullopt)
        people.push_back(agent->name.empty() ? agent->code : agent->name);
    }
    const Day when = earliest_day(day).value_or(0);
    auto& known = last[*container];
    if (!known.second.empty() && known.first > when) return;
    known = {when, (people.empty() ? std::string("name not said") : join(people, ", ")) + ", " + day};
  });
  std::map<Uuid, std::string> words;
  for (auto& [id, one] : last) words[id] = std::move(one.second);
  return words;
}

// Where it stood: in other containers and at places that may be told, earliest first.
std::vector<std::string> stands_of(const Snapshot& archive, const RecordView& view) {
  std::vector<std::string> stood;
  for (const char* property : {"in-container", "whereabouts"})
    for (const Statement* said : view.history(property)) {
      const auto outer = Uuid::parse(said->content.value);
      const auto record = outer ? archive.statements().record(*outer) : std::nullopt;
      const auto since = said->content.qualifier("on");
      stood.push_back((record ? display(*record) : said->content.value) +
                      (since.empty() ? std::string() : ", since " + std::string(since)));
    }
  return stood;
}

void add_containers(const Snapshot& archive, PieceAccounts& accounts) {
  std::map<Uuid, ContainerAccount> held;
  for (const auto& field : accounts.fields)
    for (const auto& line : field.pieces)
      if (line.container && piece_state_from_word(line.state) == PieceState::in_container)
        held[line.container->id].contents.emplace_back(line.order, line.record);
  if (held.empty()) return;
  const auto packed = packings(archive);
  for (auto& [id, account] : held) {
    const auto found = archive.find(id);
    if (!found || found->info.kind != Kind::container) continue;
    const RecordView& view = *found;
    account.record = view.info;
    account.type = view.text("container-type");
    account.way_up = view.text("way-up");
    account.weight = view.text("weight");
    account.stood = stands_of(archive, view);
    if (const Statement* seal = view.latest("seal")) account.seal = seal->content.value;
    if (const auto who = packed.find(id); who != packed.end()) account.packed = who->second;
    std::stable_sort(account.contents.begin(), account.contents.end(), [](const auto& a, const auto& b) {
      if (a.first != b.first) return a.first < b.first;
      return compare_for_people(a.second.code, b.second.code) < 0;
    });
    for (const Statement* hazard : view.all("hazard"))
      account.hazards.push_back(hazard->content.value + ": " +
                                std::string(hazard->content.qualifier("status")));
    accounts.containers.push_back(std::move(account));
  }
  std::sort(accounts.containers.begin(), accounts.containers.end(), [](const auto& a, const auto& b) {
    return compare_for_people(a.record.code, b.record.code) < 0;
  });
}

}  // namespace

PieceAccounts gather(const Snapshot& archive, const Uuid& scope, Services& services) {
  PieceAccounts accounts;
  accounts.reading = archive.reading();
  if (scope != Uuid{}) accounts.scope = *archive.statements().record(scope);
  const auto wanted = scope == Uuid{} ? std::set<Uuid>{} : elements_of(archive, scope);
  const auto is_wanted = [&](const Uuid& id) { return scope == Uuid{} || wanted.count(id) != 0; };

  std::map<Uuid, FieldAccount> fields;
  archive.each(Kind::element, kOfElements, [&](const RecordView& view) {
    if (is_wanted(view.info.id)) fields.emplace(view.info.id, field_of(view));
  });
  std::vector<PieceView> fragments;
  Boxes boxes(archive);
  std::uint64_t read = 0;
  archive.each(Kind::piece, kOfPieces, [&](RecordView& view) {
    if (++read % 1024 == 0) services.progress(read, 0);
    if (services.stop_requested()) return;
    PieceView piece(std::move(view));
    if (piece.fragment_of) {
      fragments.push_back(std::move(piece));
      return;
    }
    const auto field = piece.element ? fields.find(*piece.element) : fields.end();
    if (field != fields.end()) field->second.pieces.push_back(line_of(piece, boxes));
    view = std::move(piece.record);
  });
  std::erase_if(fields, [](const auto& one) { return one.second.rows == 0 && one.second.pieces.empty(); });
  if (!fragments.empty()) add_fragments(fragments, fields);
  for (auto& [id, field] : fields) accounts.fields.push_back(std::move(field));
  std::sort(accounts.fields.begin(), accounts.fields.end(), [](const auto& a, const auto& b) {
    return compare_for_people(a.element.code, b.element.code) < 0;
  });
  add_containers(archive, accounts);
  return accounts;
}

}  // namespace lathbook::pieces
