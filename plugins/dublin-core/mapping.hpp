// The table that says which of the fifteen elements each property of the registry becomes.
#pragma once

#include <cstdint>
#include <string_view>

#include "core/evidence/registry.hpp"

namespace lathbook::dublin_core {

/// How a value is written.
enum class As : std::uint8_t {
  words,    ///< the value with its details
  bare,     ///< the value alone
  date,     ///< its EDTF
  record,   ///< the address of the record named, and what it is called
  measure,  ///< what was measured, and the value
  agent,    ///< the name of the person or firm
  nothing   ///< carried by something else (kind, code, name, title)
};

struct Rule {
  std::string_view property;
  std::string_view element;  ///< "description"; empty for nothing
  As as = As::words;
  std::string_view prefix = {};  ///< words before the value: "Condition: "
};

/// The rule of a property; null for one that Dublin Core has no place for.
const Rule* rule_of(std::string_view property);

/// Kinds that become records of their own; all others are told in the note.
bool has_record(Kind kind);
/// A term of the DCMI Type Vocabulary (DCMI, 2012) for a kind of record or type of source.
std::string_view dcmi_type(Kind kind, std::string_view source_type);

}  // namespace lathbook::dublin_core
