// The table that says how each property of the registry becomes CIDOC CRM; docs/crm.md gives the reasons.
#pragma once

#include <cstdint>
#include <string_view>

#include "core/evidence/registry.hpp"

namespace lathbook::crm {

/// What is written besides the claim when a statement is held.
enum class How : std::uint8_t {
  claim,      ///< nothing: CIDOC CRM has no plain form that would be true
  note,       ///< P3 with the property's label, the value and the details in words
  bare_note,  ///< P3 with the value alone
  link,       ///< predicate from the part to the value's node
  role,       ///< the same, and the PC14 that says in which role the actor did it
  measured,   ///< the same, and the E16 Measurement
  text,       ///< predicate from the part to the value as a literal
  relation,   ///< own sub-property of AP11, and AP11
  mutual,     ///< the same, both ways
  special     ///< a function of its own in record_writer.cpp
};

/// The node that a value becomes, which is also what the claim's J31 points to.
enum class Form : std::uint8_t {
  words,       ///< E33 with the text
  record,      ///< the record named
  space,       ///< the E53 of the place named
  span,        ///< E52 with outer bounds
  lower,       ///< E52 that has only a beginning
  upper,       ///< E52 that has only an end
  type,        ///< E55, shared by all that say the same
  material,    ///< E57, shared
  dimension,   ///< E54 with value and unit
  identifier,  ///< E42
  name,        ///< E33_E41 appellation
  title,       ///< E35
  keeper,      ///< E39 known only by these words, shared
  town,        ///< E53 known only by these words, shared
  spot,        ///< E53 known only by these words
  condition,   ///< E3
  outline,     ///< E53 with its coordinates
  file,        ///< D1
  right,       ///< E30 at that address
  page,        ///< E73 at that address
  concept_,    ///< E55 at that address
  statement    ///< the I17 named
};

/// Which current statements of one property contest each other, so that none is written plainly.
enum class Rivals : std::uint8_t {
  none,       ///< values stand side by side
  all,        ///< two different values contest each other
  placement,  ///< two different values of one placement do
  measure,    ///< two different values of one measure (detail 'of') do
  latest      ///< only the last by the detail 'on' is written; two different ones of that day contest
};

struct Rule {
  std::string_view property;
  How how = How::claim;
  Form form = Form::words;
  Rivals rivals = Rivals::none;
  std::string_view predicate = {};
  /// The node the predicate starts from: empty = the record; ends in '#' = one for each placement.
  std::string_view part = {};
};

/// The rule of a property; for one that the table does not know, a claim whose form follows the value's type.
Rule rule_of(const Property& property);
/// All rules of the table, for the documentation and the tests.
const Rule* begin_rules();
const Rule* end_rules();

}  // namespace lathbook::crm
