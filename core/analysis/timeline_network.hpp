// The network behind a timeline as plain values: instants, what each statement asks of them, what was kept.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/base/digest.hpp"
#include "core/base/identifier.hpp"

namespace lathbook {

enum class Level : std::uint8_t;

/// What an instant is of its record.
enum class InstantKind : std::uint8_t {
  origin,         ///< tick 0, the first of 1970-01-01; always instant 0, and no other is
  begins,         ///< a placement of an element or finish stands
  ends,           ///< a placement is gone
  made,           ///< the thing itself was made
  source,         ///< the moment of a dated source
  source_closed,  ///< the last of what the source takes in
  works_begin,
  works_end,
  phase_opens,
  other  ///< belongs to no record: an observer's moment, unnamed works
};

struct NetworkInstant {
  Uuid record;  ///< nil for the origin and for 'other'
  InstantKind kind = InstantKind::origin;
  int placement = 0;          ///< of begins and ends, from 1
  std::int64_t earliest = 0;  ///< ticks; the horizon's when not known
  std::int64_t latest = 0;
  bool earliest_known = false;  ///< false: the horizon is all there is
  bool latest_known = false;
};

/// One statement, or several that speak only together, which ask something of instants.
struct NetworkClaim {
  std::vector<Digest> statements;  ///< the leading one first
  std::string relation;            ///< permanent name of the registry: "covers", "fills", "same-as" ...
  Uuid subject;                    ///< of the leading statement
  Uuid object;                     ///< nil when its value is no record
  Level level{};
  bool kept = true;  ///< false: set aside at the timeline's level, because it clashes
};

/// Links that no statement made.
inline constexpr std::int32_t kByNature = -1;  ///< an end is after its beginning, and the like
inline constexpr std::int32_t kByHorizon = -2;

/// value(after) - value(before) >= gap, in ticks.
struct NetworkLink {
  std::uint32_t before = 0;  ///< into TimelineNetwork::instants
  std::uint32_t after = 0;
  std::int64_t gap = 0;
  std::int32_t claim = kByNature;  ///< into TimelineNetwork::claims
  bool operator==(const NetworkLink&) const = default;
};

/// An either-or that is not settled: all links of at least one alternative hold.
struct NetworkChoice {
  std::int32_t claim = kByNature;
  std::vector<std::vector<NetworkLink>> alternatives;
};

/// Everything joined, by links of any kind, to what the timeline shows; claims of its level and below.
/// The alternative that is left of a settled either-or is among the links.
struct TimelineNetwork {
  std::int64_t ticks_per_day = 1;
  std::vector<NetworkInstant> instants;
  std::vector<NetworkClaim> claims;
  std::vector<NetworkLink> links;  ///< of claims that were set aside, too
  std::vector<NetworkChoice> choices;
};

}  // namespace lathbook
