// Walking the archive by kind, by place and by element.
#include "core/view/snapshot.hpp"

#include <algorithm>
#include <limits>
#include <set>

#include "core/base/text.hpp"

namespace lathbook {

namespace {

/// Subjects of a kind of which one of the properties names `object`; each once, in natural order of codes.
std::vector<Uuid> subjects_naming(const StatementReader& reader, Kind kind,
                                  std::vector<std::uint32_t> properties, const Uuid& object) {
  Query query;
  query.object = object;
  query.kind = kind;
  query.properties = std::move(properties);
  std::set<Uuid> found;
  reader.each_statement(query, [&](const Statement& statement) {
    if (statement.presence == Presence::present) found.insert(statement.content.subject);
    return true;
  });
  std::vector<std::pair<std::string, Uuid>> keyed;
  for (const Uuid& id : found) {
    const auto info = reader.record(id);
    keyed.emplace_back(info ? sort_key(info->code) : std::string(), id);
  }
  std::sort(keyed.begin(), keyed.end());
  std::vector<Uuid> ordered;
  for (const auto& [key, id] : keyed) ordered.push_back(id);
  return ordered;
}

std::uint32_t id_of(std::string_view property) {
  return Registry::standard().named(property).id;
}

/// Whether any current statement of the record has one of these properties.
bool says_any(const StatementReader& reader, const Uuid& subject, std::vector<std::uint32_t> properties) {
  Query query;
  query.subject = subject;
  query.properties = std::move(properties);
  bool any = false;
  reader.each_statement(query, [&](const Statement& statement) {
    any = statement.presence == Presence::present;
    return !any;
  });
  return any;
}

}  // namespace

void Snapshot::each(Kind kind, const std::vector<std::string_view>& properties,
                    const std::function<void(RecordView&)>& on_record) const {
  std::vector<std::uint32_t> ids;
  for (const auto property : properties) ids.push_back(id_of(property));
  reader_.each_record_with(kind, ids, [&](const RecordInfo& info, std::vector<Statement>& facts) {
    RecordView view{info, std::move(facts)};
    on_record(view);
    facts = std::move(view.facts);  // its room serves for the next
    return true;
  });
}

std::optional<RecordView> Snapshot::find(const Uuid& id) const {
  const auto info = reader_.record(id);
  if (!info) return std::nullopt;
  return RecordView::read(reader_, *info);
}

std::optional<RecordView> Snapshot::find_code(std::string_view code) const {
  const auto info = reader_.record_by_code(code);
  if (!info) return std::nullopt;
  return RecordView::read(reader_, *info);
}

std::vector<Uuid> Snapshot::places_within(const Uuid& place) const {
  // A loop of 'within', which a merge can make, ends where it meets itself.
  std::vector<Uuid> ordered;
  std::set<Uuid> seen{place};
  std::vector<Uuid> waiting{place};
  while (!waiting.empty()) {
    const Uuid next = waiting.back();
    waiting.pop_back();
    ordered.push_back(next);
    const auto inner = subjects_naming(reader_, Kind::place, {id_of("within")}, next);
    for (auto child = inner.rbegin(); child != inner.rend(); ++child)
      if (seen.insert(*child).second) waiting.push_back(*child);
  }
  return ordered;
}

std::vector<Uuid> Snapshot::elements_in(const std::vector<Uuid>& places) const {
  const std::vector<std::uint32_t> standing{id_of("stands-in"), id_of("fitted-in")};
  std::vector<Uuid> ordered;
  std::set<Uuid> seen;
  const auto add = [&](const Uuid& element) {
    if (seen.insert(element).second) ordered.push_back(element);
  };
  for (const Uuid& place : places)
    for (const Uuid& element : subjects_naming(reader_, Kind::element, standing, place)) add(element);
  // `ordered` grows while it is walked, so that parts of parts are found too.
  for (std::size_t at = 0; at < ordered.size(); ++at) {
    const Uuid whole = ordered[at];
    for (const Uuid& part : subjects_naming(reader_, Kind::element, {id_of("part-of")}, whole))
      if (!says_any(reader_, part, standing)) add(part);
  }
  return ordered;
}

std::vector<Uuid> Snapshot::finishes_on(const std::vector<Uuid>& elements) const {
  std::vector<Uuid> ordered;
  std::set<Uuid> seen;
  for (const Uuid& element : elements) {
    std::vector<std::pair<int, Uuid>> layers;
    for (const Uuid& id : subjects_naming(reader_, Kind::finish, {id_of("finish-on")}, element)) {
      const auto record = find(id);
      if (!record || !seen.insert(id).second) continue;
      layers.emplace_back(FinishView(*record).layer.value_or(std::numeric_limits<int>::max()), id);
    }
    std::stable_sort(layers.begin(), layers.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    for (const auto& [layer, id] : layers) ordered.push_back(id);
  }
  return ordered;
}

}  // namespace lathbook
