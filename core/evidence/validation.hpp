// Whether a content keeps the registry's rules; knows one statement at a time.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "core/base/api.hpp"
#include "core/base/error.hpp"
#include "core/evidence/registry.hpp"
#include "core/evidence/statement.hpp"

namespace lathbook {

/// Tells the kind of a record; nothing when there is no such record.
using KindOf = std::function<std::optional<Kind>(const Uuid&)>;

/// Checks a content against its property: subject's kind, form of the value, qualifiers, citations,
/// confidence. Returns every fault found, each one sentence; empty = sound. Dates typed in words must
/// already carry their EDTF (see complete()).
LATHBOOK_API Findings validate(const Content& content, const Registry& registry, const KindOf& kind_of);

/// Fills what can be derived from what was typed: the EDTF of a date in words (value and said-on),
/// the citation of a source to itself. Throws Error(invalid) when a date cannot be read.
LATHBOOK_API void complete(Content& content, const Registry& registry, const KindOf& kind_of);

/// True when a value keeps the form of its type (record references are checked for form only).
/// `why` gets the sentence when not.
LATHBOOK_API bool well_formed(ValueType type, const std::string& choices, const std::string& value,
                              const Registry& registry, std::string& why);

}  // namespace lathbook
