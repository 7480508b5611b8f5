// The web addresses under which exports name the things of an archive: the same in every format.
#pragma once

#include <string>
#include <string_view>

#include "core/base/api.hpp"
#include "core/base/digest.hpp"
#include "core/base/identifier.hpp"
#include "core/evidence/registry.hpp"

namespace lathbook {

/// Throws Error(invalid) unless the text can begin an IRI (RFC 3987): a scheme, no character that an IRI
/// bars, '/' or '#' at the end.
LATHBOOK_API void require_base_address(const std::string& base);
/// As above, and the scheme must be http or https; `format` names who wants it so.
LATHBOOK_API void require_web_address(const std::string& base, const std::string& format);

/// Bytes that no IRI may hold (RFC 3987 and the IRIREF rule of Turtle) come out percent-encoded.
LATHBOOK_API std::string encode_address(std::string_view iri);

/// base + "record/" + UUID, base + "statement/" + digest, base + "media/" + SHA-256.
LATHBOOK_API std::string record_address(const std::string& base, const Uuid& id);
LATHBOOK_API std::string statement_address(const std::string& base, const Digest& id);
LATHBOOK_API std::string media_address(const std::string& base, const Digest& id);

/// The property that tells the type of such a record ("place-type"); empty for kinds without one.
LATHBOOK_API std::string_view type_property(Kind kind);
/// A word of a list, or free words of a kind, as the end of an address: "place-type.room". Words that lose
/// something by being written so get the first digits of their SHA-256 behind them, so that different words
/// never share an address.
LATHBOOK_API std::string type_key(std::string_view list, std::string_view text);

}  // namespace lathbook
