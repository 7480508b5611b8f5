// The typed result of the phase timeline of a room or building. Values only; outlives the plugin.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/analysis/draft.hpp"
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

/// What a bound would be if one statement of its reason had not been made.
struct Lacking {
  Digest statement;
  bool known = false;
  Day day = 0;  ///< meaningful only when known
  bool operator==(const Lacking&) const = default;
};

/// What gives a bound when every statement of its reason is left out at once.
struct Otherwise {
  bool known = false;  ///< false: nothing else bounds it
  Day day = 0;         ///< the same day: the bound is confirmed independently
  Level level = Level::certain;
  std::vector<ReasonStep> reason;  ///< shares no statement with the bound's own reason
};

/// One bound of a date.
struct Bound {
  Day day = 0;                     ///< meaningful only when known
  bool known = false;              ///< false: the horizon is all there is ("no evidence", "still in place")
  bool perhaps_wide = false;       ///< an either-or could not be settled; the bound may be wider than needed
  bool leaned = false;             ///< it moved because a conflicting statement was set aside
  Level level = Level::certain;    ///< the weakest evidence on the chain
  std::vector<ReasonStep> reason;  ///< from the dated end to this bound
  // The rest is filled on request only (setting 'links' = yes), for known bounds.
  std::string words;                   ///< the bound with its whole reason in one sentence, notes as [1]
  std::vector<Lacking> lacking;        ///< one for each statement of the reason, in its order
  std::optional<Otherwise> otherwise;  ///< present where the reason has statements
};

/// Days within a span, both included.
struct DayRange {
  Day first = 0;
  Day last = 0;
  bool operator==(const DayRange&) const = default;
};

/// When something happened: not before `earliest`, not after `latest`.
struct Span {
  Bound earliest;
  Bound latest;
  /// Where the cases of an either-or leave gaps: the two or more stretches it lies in, in order. Else empty.
  std::vector<DayRange> parts = {};
};

enum class Membership : std::uint8_t { no, possible, certain };

/// What a phase holds of one item.
struct PhasePart {
  std::size_t phase = 0;  ///< index into Timeline::phases
  Membership installed = Membership::no;
  Membership removed = Membership::no;
  Membership present = Membership::no;  ///< certain: throughout; possible: at some time
  Membership visible = Membership::no;  ///< certain: surely to be seen for a day or longer; possible: perhaps
  Membership covered = Membership::no;  ///< became hidden in this phase
  std::string how;                      ///< "by the opening works", "piecemeal", or empty
};

/// One way an either-or may have been.
struct TimelineCase {
  std::string words;  ///< "it was gone by then", without a full stop
  Uuid record;        ///< the thing or place that the case is about; nil when it is about none
  /// certain: it is so whatever the other cases say; possible: in some of the ways all can have been; no: in
  /// none.
  Membership holds = Membership::possible;
  std::vector<ReasonStep> against;  ///< what rules it out
};

/// An either-or about one item: a view that does not show it, two things one after the other in an unknown
/// order, one of several places.
struct TimelineEither {
  std::vector<ReasonStep> statements;
  std::vector<TimelineCase> cases;
  bool all_tried = true;  ///< false: too many ways; a case that is left may be impossible all the same
  std::string words;      ///< which cases are left and what rules the others out, as a sentence or two
};

/// One placement of something that lies over another thing and hides it while both stand.
struct TimelineCover {
  Uuid record;
  int placement = 1;
};

/// One placement of an element or finish (or the making of a piece that bears on one).
struct TimelineItem {
  RecordInfo record;
  std::vector<RecordInfo> also;  ///< other records of the same thing; they have no rows of their own
  std::string type;              ///< in the recorder's words
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
  std::vector<TimelineCover> under;  ///< it is out of sight from the beginning of each to its end
  std::vector<TimelineEither> either;
  std::vector<ReasonStep> remarks;  ///< marked for the room, fit not tested; one like it seen; and so on
};

struct TimelinePhase {
  RecordInfo record;
  int number = 0;
  RecordInfo campaign;  ///< that opens it; nil id when none is said
  Span opens;           ///< beginning of the phase
  Span works_end;       ///< end of the opening works
};

/// A course of works.
struct TimelineWorks {
  RecordInfo record;
  Span begins;
  Span ends;
};

/// A date that an outcome would narrow, and what would be left of it.
struct TimelineGain {
  Uuid record;
  int placement = 1;
  bool of_end = false;  ///< of its end; else of its beginning
  std::optional<Day> not_before;
  std::optional<Day> not_after;
};

/// One way in which a task could come out.
struct TimelineOutcome {
  Uuid earlier;  ///< the one that proves the earlier of two; nil where a day is found
  Uuid later;
  std::optional<Day> day;  ///< the day that was tried
  std::vector<TimelineGain> gains;
};

/// One thing to find out, with what it would do to the dates of the scope: every outcome was tried in the
/// network, none is guessed. A bound counts as narrowed when it moves by a year or more.
struct TimelineTask {
  std::string sort;                       ///< "contact", "layers", "source", "works" or "thing"
  std::string words;                      ///< the task as a sentence
  std::vector<Uuid> records;              ///< what it is about, the chief one first
  double narrows = 0;                     ///< bounds narrowed, the mean of the outcomes tried
  std::size_t at_least = 0;               ///< and in the worst of them
  double years = 0;                       ///< by how much in all, the mean
  std::vector<TimelineOutcome> outcomes;  ///< those tried
  std::vector<ReasonStep> on;  ///< what has been looked for already, and other statements it starts from
};

/// Statements that cannot all hold.
struct TimelineConflict {
  Level level = Level::certain;
  std::vector<ReasonStep> statements;  ///< minimal: without any one of them there is no clash
  std::vector<Digest> set_aside;       ///< those left out of the dates shown
  /// The least that can be left out so that this and all contradictions bound up with it are settled: every
  /// equally good way, in order.
  std::vector<std::vector<ReasonStep>> ways_out;
  /// Statements left out with them because they rest on the same source, which is said to stand or fall as a
  /// whole; none of them is in `statements`.
  std::vector<ReasonStep> fallen_with;
  std::size_t way_taken = 0;    ///< counted from 1; 0: undecided, the dates do without all of them
  std::int64_t clash_days = 0;  ///< by how much they miss each other
  std::string words;            ///< the clash in a sentence or two
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
  std::vector<TimelineWorks> works;              ///< of the scope or named by its items, by code
  std::vector<TimelineEvent> sources;            ///< dated sources that the items' statements name, by code
  std::vector<std::string> set_aside_by_ruling;  ///< short names of statements ruled out by a person
  std::vector<ReasonStep> settings;  ///< widening and horizon used, with the statements that set them
  std::size_t statements_used = 0;
  /// Courses of works that shared dates suggest, where none is named: a draft that makes the campaign's
  /// record (property 'kind'), and drafts about it or that put things into it, to be accepted with it.
  std::vector<Draft> proposals;
  TimelineNetwork network;  ///< what the items lean on, for those who reckon further
  std::vector<TimelineTask>
      tasks;  ///< what would help most, first; of a room, or when asked for ('tasks' = yes)
};

}  // namespace lathbook
