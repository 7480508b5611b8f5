// The XML Schema of the exchange document: made from the table of parts and the registry, and applied.
#pragma once

#include <filesystem>
#include <string>

#include "core/base/api.hpp"
#include "core/base/error.hpp"
#include "core/evidence/registry.hpp"

namespace lathbook {

/// The text of schemas/exchange.xsd (XML Schema 1.0) for this registry.
LATHBOOK_API std::string exchange_schema(const Registry& registry);

/// Validates a document against the schema as a stream, without network, document types or entities. At most
/// 100 findings, each with file:line; empty = valid. A document that is valid here may still be refused by
/// read_exchange, which alone knows digests and order. Throws Error(not_found) for a missing file.
LATHBOOK_API Findings validate_against_schema(const std::filesystem::path& file);

}  // namespace lathbook
