// What is known of the hazards of a place or element: tested, found, presumed, or never tested.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook {

struct HazardStatus {
  std::string hazard;  ///< of choice list 'hazard'
  std::string status;  ///< of choice list 'hazard-status'; "not tested" when nothing was ever said
  Uuid of;             ///< the record that it was said of; nil when nothing was said
  Digest statement;    ///< nil when nothing was said
  /// True unless it was tested and found clear: what was not tested counts as present.
  bool counts_as_present() const { return status != "tested clear"; }
  bool operator==(const HazardStatus&) const = default;
};

/// How much a word of choice list 'hazard-status' weighs: found 3, presumed 2, not tested 1, tested clear 0.
LATHBOOK_API int hazard_gravity(std::string_view status);

/// Every hazard of the list once, in its order: what is said of these records and of the places they stand
/// in and lie within; of several answers the worst (found, presumed, not tested, tested clear), so that a
/// clear room does not clear a wall in which something was found. What work was stopped for counts as
/// presumed, at least as long as the stop stands (core/view/stops.hpp).
LATHBOOK_API std::vector<HazardStatus> hazards_of(const Snapshot& archive, const std::vector<Uuid>& records);

/// One row of schemas/cautions-en.tsv.
struct Caution {
  std::string hazard;        ///< of choice list 'hazard', or 'alarm' for what to do when work must stop
  std::string jurisdiction;  ///< "any" or a country
  std::string since;         ///< day or year it is in force, empty when not said
  std::string advice;
  std::string source;
};

/// The built-in table; parsed once, throws Error(corrupt) naming a broken row.
LATHBOOK_API const std::vector<Caution>& cautions();

/// The setting 'jurisdiction' of the archive; empty when nobody set it.
LATHBOOK_API std::string jurisdiction_of(const Snapshot& archive);

/// What to take care of where these hazards count as present: for everywhere, and for the jurisdiction; each
/// with its source and the day of its rule.
LATHBOOK_API std::vector<std::string> caution_lines(const std::vector<HazardStatus>& hazards,
                                                    const std::string& jurisdiction);

/// For a work sheet: "lead: found", "gas: presumed", then one line "presume present, never tested: ...";
/// hazards tested clear are named last.
LATHBOOK_API std::vector<std::string> hazard_lines(const std::vector<HazardStatus>& hazards);

}  // namespace lathbook
