// The variables of the network: which instants there are of every record, and what is true of them by nature.
#pragma once

#include <optional>
#include <unordered_map>
#include <vector>

#include "plugins/timeline/facts.hpp"
#include "plugins/timeline/network.hpp"

namespace lathbook::timeline {

/// Ticks to the day: room for four million strict relations within one day.
inline constexpr Tick kTicksPerDay = Tick{1} << 22;

/// First and last tick of a day, and the day of a tick.
Tick first_tick(Day day);
Tick last_tick(Day day);
Day day_of(Tick tick);

/// An instant as constraints see it: variable `low` lies at least `low_gap` before it, `high` at least
/// `high_gap` after it. Both are the instant itself, without gaps, when it is a variable of its own. Of an
/// instant of one of several placements, not said which, they are the first beginning and the last end.
struct Instant {
  Var low = kOrigin;
  Tick low_gap = 0;
  Var high = kOrigin;
  Tick high_gap = 0;

  static Instant of(Var var) { return {var, 0, var, 0}; }
  /// A fixed moment.
  static Instant at(Tick tick) { return {kOrigin, tick, kOrigin, -tick}; }
};

/// x + gap <= y, as a constraint without a cause.
Constraint precede(const Instant& x, const Instant& y, Tick gap);

/// The greatest number of placements kept apart; a greater number that somebody typed counts as this.
inline constexpr int kMostPlacements = 64;

/// Makes the variables in the order of records and then of facts, with structure and horizon.
class Instants {
public:
  Instants(const Facts& facts, Network& network);

  /// 1 or more for elements and finishes, 0 for others.
  int placements(const Uuid& record) const;
  /// Nothing when the record is none of the kind, or not to be seen in this reading. Placement 0 = not said.
  std::optional<Instant> begin(const Uuid& record, int placement) const;
  std::optional<Instant> end(const Uuid& record, int placement) const;
  /// Of elements, finishes, pieces and finds.
  std::optional<Instant> made(const Uuid& record) const;
  /// A source's own moment, and the last of what it takes in (a bill may cover months).
  std::optional<Instant> source(const Uuid& record) const;
  std::optional<Instant> source_closed(const Uuid& record) const;
  std::optional<Instant> works_begin(const Uuid& campaign) const;
  std::optional<Instant> works_end(const Uuid& campaign) const;
  std::optional<Instant> phase(const Uuid& phase) const;

private:
  struct Place {
    Kind kind = Kind::unknown;
    Var first = kOrigin;
    int placements = 0;
  };
  void count_placements(const Facts& facts);
  void add(const RecordInfo& record, const Settings& settings, Network& network);
  void add_fabric(Place& place, const Settings& settings, Network& network) const;
  const Place* find(const Uuid& record, Kind kind) const;
  const Place* fabric(const Uuid& record) const;
  std::optional<Instant> of(const Place* place, std::uint32_t offset) const;

  std::unordered_map<Uuid, Place> places_;
  std::unordered_map<Uuid, int> counts_;
};

}  // namespace lathbook::timeline
