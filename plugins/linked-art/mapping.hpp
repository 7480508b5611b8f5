// The table that says where each property of the registry stands in Linked Art; docs/linked-art.md has the
// reasons.
#pragma once

#include <cstdint>
#include <string_view>

#include "core/evidence/registry.hpp"

namespace lathbook::linked_art {

/// What is written plainly when a statement is held.
enum class How : std::uint8_t {
  prose,       ///< a statement in words: "label: value (details)"
  bare_prose,  ///< a statement with the value alone
  clerical,    ///< nothing: told by the form of the record
  type,        ///< classified_as, an own type
  address,     ///< classified_as, a type at that address
  name,        ///< identified_by, a Name
  code,        ///< identified_by, an Identifier
  material,    ///< made_of
  measure,     ///< dimension
  whole,       ///< part_of: what it is a part of
  place,       ///< part_of of objects, and of places
  support,     ///< held_or_supported_by
  carrier,     ///< words; the carrier's own record refers to the sign
  content,     ///< what was read: the content of a label, words of a mark
  about,       ///< about, from a sign to an agent
  made,        ///< produced_by, its time
  installed,   ///< used_for, an activity of installing
  removed,     ///< removed_by
  began,       ///< the same, during the works or phase
  gone,        ///< removed_by, during the works or phase
  found,       ///< encountered_by
  time,        ///< timespan of an activity
  actor,       ///< carried_out_by of an activity
  technique,   ///< technique of an activity
  venue,       ///< took_place_at
  occasion,    ///< part_of of an activity
  opening,     ///< caused_by of a phase
  sampled,     ///< removed_by of a sample
  outline,     ///< defined_by of a place
  created,     ///< created_by of a source, its time
  teller,      ///< created_by of a source, its actor
  right,       ///< subject_to
  file,        ///< representation of a picture, subject_of of a text
  page,        ///< subject_of
  birth,
  death
};

struct Rule {
  std::string_view property;
  How how = How::prose;
  /// Term of the context for an attribute assignment's assigned_property; empty when there is none.
  std::string_view assigned = {};
};

/// Prose for a property that the table does not name.
Rule rule_of(const Property& property);

}  // namespace lathbook::linked_art
