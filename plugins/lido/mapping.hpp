// The table that says which part of a LIDO record each property of the registry goes to.
#pragma once

#include <cstdint>
#include <string_view>

namespace lathbook::lido {

enum class Part : std::uint8_t {
  own,           ///< identifiers, work type, titles, repository: written by a function of its own
  description,   ///< objectDescriptionSet
  material,      ///< objectMaterialsTechSet
  measurement,   ///< objectMeasurementsSet
  state,         ///< displayState
  event_date,    ///< dates an event that is made of it
  event,         ///< told with an event
  related_work,  ///< relatedWorkSet, with the property's label as the relation
  inscription,   ///< of a mark or label on the object
  picture        ///< resourceSet, when the source has a file
};

struct Rule {
  std::string_view property;
  Part part = Part::description;
};

/// The rule of a property; null for one that LIDO has no place for.
const Rule* rule_of(std::string_view property);
const Rule* begin_rules();
const Rule* end_rules();

/// An event type of the LIDO terminology.
struct EventTerm {
  std::string_view id;     ///< "lido00007"
  std::string_view label;  ///< in English
};

inline constexpr EventTerm kProduction{"lido00007", "Production"};
inline constexpr EventTerm kPartAddition{"lido00008", "Part addition"};
inline constexpr EventTerm kPartRemoval{"lido00021", "Part removal"};
inline constexpr EventTerm kFinding{"lido00002", "Finding"};

/// The term for a word of the list event-type; 'Unknown event' for one that the table does not know.
EventTerm event_term(std::string_view event_type);

}  // namespace lathbook::lido
