// The digested bytes of headers and contents: versioned, length-prefixed, never migrated.
// The layout with a worked example is docs/format.md; a change here needs a new format number.
#pragma once

#include <string>
#include <string_view>

#include "core/base/api.hpp"
#include "core/evidence/statement.hpp"

namespace lathbook {

/// Bytes of a header ("LBH1" ...). `seen` must be sorted and without repeats; throws Error(invalid) else.
LATHBOOK_API std::string encode_header(const Header& header);
/// Reads exactly what encode_header writes; throws Error(corrupt) on anything else.
LATHBOOK_API Header decode_header(std::string_view bytes);

/// Bytes of a content ("LBC1" ...). Fields that are empty are left out.
LATHBOOK_API std::string encode_content(const Content& content);
/// Reads what encode_content writes, for contents of up to 64 MiB; throws Error(corrupt) with the offset
/// on unknown fields, wrong lengths, repeated single fields or wrong order, so that one content has one
/// encoding only.
LATHBOOK_API Content decode_content(std::string_view bytes);
/// The same into a content that was read before, whose room is used again. After a failure it holds no
/// content of any statement.
LATHBOOK_API void decode_content(std::string_view bytes, Content& into);

/// SHA-256(salt || content bytes).
LATHBOOK_API Digest content_digest(const Salt& salt, std::string_view content);

/// Seals a content under a fresh header (salt drawn at random).
LATHBOOK_API Sealed seal(const Content& content, Header header);
/// The same with a given salt, for tests and reproducible samples.
LATHBOOK_API Sealed seal(const Content& content, Header header, const Salt& salt);

/// Throws Error(corrupt) naming the statement when a present content does not fit its digest.
LATHBOOK_API void require_sound(const Sealed& sealed);

}  // namespace lathbook
