// Work that was stopped for danger, and whether somebody has lifted the stop since.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/api.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook {

/// One event 'stopped', and the event that lifted it.
struct WorkStop {
  RecordInfo event;
  std::vector<RecordInfo> at;        ///< where: a place, element, piece or find
  std::string day;                   ///< EDTF; empty when not said
  std::string by;                    ///< name of who stopped; empty when not said or not shown
  std::string alarm;                 ///< of choice list 'alarm'; empty when not said
  std::vector<std::string> hazards;  ///< of choice list 'hazard'
  std::string words;                 ///< what was seen, smelt or heard
  Digest statement;                  ///< that it was a stop
  std::optional<RecordInfo> lifted;  ///< the event that ended it, where one did
  std::string lifted_on;             ///< EDTF
  std::string lifted_by;
  std::string ground;  ///< why it was lifted, in words
  Digest lifting;      ///< that the stop was lifted; nil while it stands
};

/// Every stop on record that this reading shows, lifted ones too, in order of codes.
LATHBOOK_API std::vector<WorkStop> every_stop(const Snapshot& archive);

/// Standing stops of places and things in which these records lie or of which they are part: nothing of
/// these may be touched.
LATHBOOK_API std::vector<WorkStop> stops_over(const Snapshot& archive, const std::vector<Uuid>& records);

/// The same, and those of what lies in or is part of these records: what must be told when one of them is
/// opened. All that stand when no record is named.
LATHBOOK_API std::vector<WorkStop> stops_around(const Snapshot& archive, const std::vector<Uuid>& records);

/// "WORK STOPPED at 202 Chart Room on 3 February 2025 by Ines Calloway: asbestos, "grey board" (V-41)".
LATHBOOK_API std::string stop_in_words(const WorkStop& stop);
/// A line for each stop as above, then one that says who may lift them and how that is entered; nothing when
/// there is none.
LATHBOOK_API std::vector<std::string> stop_lines(const std::vector<WorkStop>& stops);

}  // namespace lathbook
