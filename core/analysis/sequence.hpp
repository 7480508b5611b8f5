// The typed result of a sequence: what came after what in a place, by which statements. Values only.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/analysis/timeline.hpp"

namespace lathbook {

/// How a thing is drawn: what was put there, what was taken, what is only a trace.
enum class SequenceSort : std::uint8_t { fabric, finish, cut, removal, ghost };

struct SequenceMember {
  RecordInfo record;
  int placement = 1;  ///< from 1
  int placements = 1;
};

/// One placement of an element or finish, or several records that are said to be one.
struct SequenceThing {
  std::vector<SequenceMember> members;   ///< by code; at least one
  std::vector<std::uint32_t> joined_by;  ///< relations that make the members one
  SequenceSort sort = SequenceSort::fabric;
  std::string type;             ///< of the first member, in the recorder's words
  bool elsewhere = false;       ///< not of the scope; drawn because it ties things of the scope
  std::uint32_t from_base = 0;  ///< longest way down to what nothing is said to precede
  std::uint32_t from_top = 0;   ///< longest way up
  std::uint32_t chain = 0;      ///< 0 is the largest part joined by bonds of any kind; others float beside it
  std::optional<std::size_t> first_phase;  ///< into Sequence::phases: those in which it may have come
  std::optional<std::size_t> last_phase;
  std::optional<Day> not_before;  ///< of its beginning
  std::optional<Day> not_after;
};

/// What a relation does to the sequence.
enum class SequenceBond : std::uint8_t {
  order,     ///< `later` came after `earlier`, or with it when not strict
  same,      ///< both are one thing
  together,  ///< bonded: one course of works
  either,    ///< one after the other, which first is not known
  coat       ///< a finish on its element: after the thing's making, not after its setting
};

struct SequenceRelation {
  std::vector<Digest> statements;  ///< the leading one first
  std::string relation;            ///< permanent name of the registry
  std::string contact;             ///< as read, may be empty
  std::string words;               ///< a sentence without full stop
  SequenceBond bond = SequenceBond::order;
  std::uint32_t later = 0;  ///< into Sequence::things; of bonds without order the subject
  std::uint32_t earlier = 0;
  bool strict = true;
  Level level = Level::certain;
  bool kept = true;        ///< false: set aside by the timeline; orders nothing
  bool redundant = false;  ///< said by the others together; stays in the record
};

/// Things that come before themselves.
struct SequenceLoop {
  std::vector<std::uint32_t> things;     ///< all that lie on a circle
  std::vector<std::uint32_t> relations;  ///< all between them
  std::vector<std::uint32_t> shortest;   ///< relations of a shortest circle in order, sameness among them
};

struct Sequence {
  RecordInfo scope;
  Reading reading;
  Level level = Level::possible;
  std::vector<RecordInfo> phases;     ///< in order
  std::vector<SequenceThing> things;  ///< by code of the first member
  std::vector<SequenceRelation> relations;
  std::vector<SequenceLoop> loops;
  std::vector<std::vector<std::uint32_t>> of_one_time;  ///< things that 'not before' joins in a circle
  std::uint32_t levels = 0;
  std::uint32_t chains = 0;
  std::vector<ReasonStep> no_order;  ///< contacts that order nothing, and why
};

}  // namespace lathbook
