// The names (prefix and local part) under which things of the archive are written.
#pragma once

#include <string>
#include <string_view>

#include "core/base/digest.hpp"
#include "core/base/identifier.hpp"

namespace lathbook::crm {

/// rec:<uuid>, and parts of it: rec:<uuid>-space.
std::string record_name(const Uuid& id, std::string_view part = {});
/// st:<digest>, and what belongs to it: st:<digest>-belief.
std::string statement_name(const Digest& id, std::string_view part = {});
std::string property_name(std::string_view property);
/// A term of a list, by type_key(): type:place-type.room.
std::string type_name(std::string_view list, std::string_view text);
std::string passage_name(const Uuid& source, std::string_view locator, std::string_view quote);
std::string media_name(std::string_view sha256);

}  // namespace lathbook::crm
