// Lays out the variables: a source has two, a campaign two, a phase one, a piece one (its making), an element
// or finish one for its making and two for every placement.
#include "plugins/timeline/instants.hpp"

#include <algorithm>

namespace lathbook::timeline {

namespace {

bool is_fabric(Kind kind) {
  return kind == Kind::element || kind == Kind::finish;
}

void order(Network& network, Var before, Var after, Tick gap) {
  Constraint constraint = precede(Instant::of(before), Instant::of(after), gap);
  network.add_constraint(constraint);
}

void not_after(Network& network, Var var, Day day) {
  network.add_latest(var, last_tick(day), kHorizon, 0);
}

}  // namespace

Tick first_tick(Day day) {
  return day * kTicksPerDay;
}

Tick last_tick(Day day) {
  return (day + 1) * kTicksPerDay - 1;
}

Day day_of(Tick tick) {
  const Tick day = tick / kTicksPerDay;
  return tick % kTicksPerDay < 0 ? day - 1 : day;
}

Constraint precede(const Instant& x, const Instant& y, Tick gap) {
  // x.low + x.low_gap <= x and y + y.high_gap <= y.high.
  Constraint constraint;
  constraint.from = y.high;
  constraint.to = x.low;
  constraint.weight = -(gap + x.low_gap + y.high_gap);
  return constraint;
}

Instants::Instants(const Facts& facts, Network& network) {
  count_placements(facts);
  for (const RecordInfo& record : facts.records()) add(record, facts.settings(), network);
}

void Instants::count_placements(const Facts& facts) {
  const auto raise = [&](const Uuid& record, int number) {
    int& count = counts_[record];
    count = std::max(count, std::min(number, kMostPlacements));
  };
  for (const Fact& fact : facts.all()) {
    if (fact.name() == "placements") {
      int number = 0;
      for (const char digit : fact.content().value) {
        if (digit < '0' || digit > '9' || number > kMostPlacements) break;
        number = number * 10 + (digit - '0');
      }
      raise(fact.subject(), number);
    }
    // 'original to' names the placement of the other, all others that of the subject.
    const bool of_object = fact.rule() == "original" || fact.rule() == "ghost-stops" ||
                           fact.rule() == "ghost-across" || fact.rule() == "ghost-behind" ||
                           fact.rule() == "finish-on";
    if (!of_object) raise(fact.subject(), fact.placement("placement"));
    if (!fact.object) continue;
    raise(*fact.object, fact.placement("other-placement"));
    if (of_object) raise(*fact.object, fact.placement("placement"));
  }
}

void Instants::add(const RecordInfo& record, const Settings& settings, Network& network) {
  Place place;
  place.kind = record.kind;
  switch (record.kind) {
    case Kind::element:
    case Kind::finish: {
      const auto count = counts_.find(record.id);
      place.placements = std::max(1, count == counts_.end() ? 1 : count->second);
      add_fabric(place, settings, network);
      break;
    }
    case Kind::piece:
    case Kind::find:
      place.first = network.add_variable();
      not_after(network, place.first, settings.known);
      break;
    case Kind::source:
      place.first = network.add_variables(2);
      order(network, place.first, place.first + 1, 0);
      not_after(network, place.first + 1, settings.known);
      break;
    case Kind::campaign:
      place.first = network.add_variables(2);
      order(network, place.first, place.first + 1, 1);
      not_after(network, place.first + 1, settings.horizon());
      break;
    case Kind::phase:
      place.first = network.add_variable();
      not_after(network, place.first, settings.horizon());
      break;
    default:
      return;
  }
  places_.emplace(record.id, place);
}

void Instants::add_fabric(Place& place, const Settings& settings, Network& network) const {
  const auto placements = static_cast<std::uint32_t>(place.placements);
  place.first = network.add_variables(1 + 2 * placements);
  order(network, place.first, place.first + 1, 0);
  for (std::uint32_t at = 0; at < placements; ++at) {
    const Var begin = place.first + 1 + 2 * at;
    const Var end = begin + 1;
    order(network, begin, end, 1);
    if (at > 0) order(network, begin - 1, begin, 0);
    network.add_earliest(begin, first_tick(settings.earliest), kHorizon, 0);
    network.add_earliest(end, first_tick(settings.earliest), kHorizon, 0);
    not_after(network, begin, settings.known);
    not_after(network, end, settings.horizon());
  }
}

const Instants::Place* Instants::find(const Uuid& record, Kind kind) const {
  const auto found = places_.find(record);
  return found == places_.end() || found->second.kind != kind ? nullptr : &found->second;
}

const Instants::Place* Instants::fabric(const Uuid& record) const {
  const auto found = places_.find(record);
  return found == places_.end() || !is_fabric(found->second.kind) ? nullptr : &found->second;
}

std::optional<Instant> Instants::of(const Place* place, std::uint32_t offset) const {
  if (!place) return std::nullopt;
  return Instant::of(place->first + offset);
}

int Instants::placements(const Uuid& record) const {
  const Place* place = fabric(record);
  return place ? place->placements : 0;
}

std::optional<Instant> Instants::begin(const Uuid& record, int placement) const {
  const Place* place = fabric(record);
  if (!place || placement > place->placements) return std::nullopt;
  const auto last = 2 * static_cast<std::uint32_t>(place->placements);
  if (placement == 0 && place->placements == 1) placement = 1;
  if (placement != 0) return of(place, 2 * static_cast<std::uint32_t>(placement) - 1);
  return Instant{place->first + 1, 0, place->first + last, 1};
}

std::optional<Instant> Instants::end(const Uuid& record, int placement) const {
  const Place* place = fabric(record);
  if (!place || placement > place->placements) return std::nullopt;
  const auto last = 2 * static_cast<std::uint32_t>(place->placements);
  if (placement == 0 && place->placements == 1) placement = 1;
  if (placement != 0) return of(place, 2 * static_cast<std::uint32_t>(placement));
  return Instant{place->first + 1, 1, place->first + last, 0};
}

std::optional<Instant> Instants::made(const Uuid& record) const {
  const auto found = places_.find(record);
  if (found == places_.end()) return std::nullopt;
  const Kind kind = found->second.kind;
  if (!is_fabric(kind) && kind != Kind::piece && kind != Kind::find) return std::nullopt;
  return of(&found->second, 0);
}

std::optional<Instant> Instants::source(const Uuid& record) const {
  return of(find(record, Kind::source), 0);
}

std::optional<Instant> Instants::source_closed(const Uuid& record) const {
  return of(find(record, Kind::source), 1);
}

std::optional<Instant> Instants::works_begin(const Uuid& campaign) const {
  return of(find(campaign, Kind::campaign), 0);
}

std::optional<Instant> Instants::works_end(const Uuid& campaign) const {
  return of(find(campaign, Kind::campaign), 1);
}

std::optional<Instant> Instants::phase(const Uuid& phase) const {
  return of(find(phase, Kind::phase), 0);
}

}  // namespace lathbook::timeline
