// The typed result of the phase timeline of a room or building. Values only; outlives the plugin.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/analysis/timeline_network.hpp"
#include "core/base/calendar.hpp"
#include "core/evidence/reader.hpp"

namespace lathbook {

/// How far evidence is trusted: each level includes those before it.
enum class Level : std::uint8_t { certain = 1, probable = 2, possible = 3 };

/// One step of a reason: a statement (nil digest for a rule that needs none, such as the horizon) and
/// what it contributes, in plain words without a full stop.
struct ReasonStep {
  Digest statement;
  std::string words;
  bool operator==(const ReasonStep&) const = default;
};

/// One bound of a date.
struct Bound {
  Day day = 0;                     ///< meaningful only when known
  bool known = false;              ///< false: the horizon is all there is ("no evidence", "still in place")
  bool perhaps_wide = false;       ///< an either-or could not be settled; the bound may be wider than needed
  bool leaned = false;             ///< it moved because a conflicting statement was set aside
  Level level = Level::certain;    ///< the weakest evidence on the chain
  std::vector<ReasonStep> reason;  ///< from the dated end to this bound
};

/// When something happened: not before `earliest`, not after `latest`.
struct Span {
  Bound earliest;
  Bound latest;
};

enum class Membership : std::uint8_t { no, possible, certain };

/// What a phase holds of one item.
struct PhasePart {
  std::size_t phase = 0;  ///< index into Timeline::phases
  Membership installed = Membership::no;
  Membership removed = Membership::no;
  Membership present = Membership::no;  ///< certain: throughout; possible: at some time
  Membership visible = Membership::no;
  Membership covered = Membership::no;  ///< became hidden in this phase
  std::string how;                      ///< "by the opening works", "piecemeal", or empty
};

/// One placement of an element or finish (or the making of a piece that bears on one).
struct TimelineItem {
  RecordInfo record;
  std::string type;  ///< in the recorder's words
  std::string material;
  int placement = 1;   ///< from 1; 0 for a piece or find, of which only `made` is told
  int placements = 1;  ///< 0 for a piece or find
  std::optional<Uuid> finish_on;
  Span made;
  Span begins;
  Span ends;
  std::string last_seen;  ///< "still in place when last seen on ..." where the end is not known
  bool dated = false;     ///< some bound of its beginning is known
  std::vector<PhasePart> phases;
  std::vector<ReasonStep> remarks;  ///< marked for the room, fit not tested; one like it seen; and so on
};

struct TimelinePhase {
  RecordInfo record;
  int number = 0;
  RecordInfo campaign;  ///< that opens it; nil id when none is said
  Span opens;           ///< beginning of the phase
  Span works_end;       ///< end of the opening works
};

/// Statements that cannot all hold.
struct TimelineConflict {
  Level level = Level::certain;
  std::vector<ReasonStep> statements;  ///< minimal: without any one of them there is no clash
  std::vector<Digest> set_aside;       ///< those left out of the dates shown
  std::int64_t clash_days = 0;         ///< by how much they miss each other
  std::string words;                   ///< the clash in a sentence or two
};

struct TimelineEvent {
  Uuid source;  ///< a dated source that items lean on
  Span when;
};

struct Timeline {
  RecordInfo scope;
  Reading reading;
  Level level = Level::possible;
  std::vector<TimelinePhase> phases;  ///< in order
  std::vector<TimelineItem> items;    ///< ordered by earliest beginning, then code
  std::vector<TimelineConflict> conflicts;
  std::vector<TimelineEvent> sources;            ///< dated sources that the items' statements name, by code
  std::vector<std::string> set_aside_by_ruling;  ///< short names of statements ruled out by a person
  std::vector<ReasonStep> settings;  ///< widening and horizon used, with the statements that set them
  std::size_t statements_used = 0;
  TimelineNetwork network;  ///< what the items lean on, for those who reckon further
};

}  // namespace lathbook
