// The typed result of planning: in which order things come down, and go back.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/analysis/timeline.hpp"
#include "core/evidence/reader.hpp"

namespace lathbook {

/// A reason why one thing must come away before another.
struct WorkReason {
  RecordInfo first;    ///< comes away first
  RecordInfo second;   ///< comes away after it
  ReasonStep why;      ///< nil statement for a rule of practice, such as loose tile from the top down
  bool holds = false;  ///< without the second the first would fall
};

/// One piece, element, or several that are locked together and move as one.
struct WorkStep {
  std::vector<RecordInfo> things;
  std::size_t level = 0;                ///< steps of one level do not wait for one another
  std::size_t choices = 1;              ///< how many steps could be taken at this moment, this one among them
  std::vector<RecordInfo> instead;      ///< some of the others, at most five
  std::vector<RecordInfo> unsupported;  ///< what is left standing without what held it
  std::string note;                     ///< "loose: hollow bed", "locked together", or empty
};

/// A performed or proposed order that endangers what remains.
struct WorkWarning {
  RecordInfo taken;
  RecordInfo endangered;
  std::string words;
  Digest statement;  ///< the relation; nil for a rule of practice
};

/// One thing that was really taken, as its event tells it.
struct FollowedStep {
  std::string day;   ///< EDTF as entered; empty when only the state of the piece says that it is out
  RecordInfo event;  ///< nil when there is none
  RecordInfo thing;
  std::string how;  ///< tools and method
  std::string outcome;
  std::string lesson;
};

/// Things that hold one another in a circle.
struct WorkCircle {
  std::vector<RecordInfo> things;
  std::vector<WorkReason> reasons;
};

/// What cannot come away as long as something kept as evidence stays.
struct WorkBlock {
  RecordInfo thing;
  RecordInfo kept;    ///< kept as evidence, and in its way
  std::string words;  ///< "N-203.34 ... cannot come away while N-204.61 ... stays as evidence, for ..."
  Digest statement;   ///< the relation between them; nil for a rule of practice
};

struct WorkOrder {
  RecordInfo scope;
  Reading reading;
  bool upright = false;        ///< a field that stands is among them: from the top down
  bool flat = false;           ///< a field that lies flat is among them: from its edges inward
  std::vector<WorkStep> down;  ///< in order; what stays as evidence is not among them
  std::vector<WorkStep> back;  ///< the way back: every step the other way round
  std::vector<WorkReason> reasons;
  std::vector<WorkCircle> circles;
  std::vector<WorkWarning> warnings;   ///< of the order that was really followed, or of the one proposed
  std::vector<FollowedStep> followed;  ///< the order that was really followed, earliest first
  std::vector<RecordInfo> proposed;    ///< the order that was asked about; empty when none was
  std::vector<RecordInfo> retained;    ///< kept as evidence
  std::vector<WorkBlock> blocked;      ///< what lies under or behind that, in this scope or another
};

}  // namespace lathbook
