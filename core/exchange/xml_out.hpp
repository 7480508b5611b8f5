// Writes a state of an archive as one exchange document (docs/exchange.md), and its media beside it.
#pragma once

#include <filesystem>
#include <ostream>

#include "core/base/api.hpp"
#include "core/evidence/ledger.hpp"

namespace lathbook {

/// Streams the document: memory does not grow with the archive. The same state gives the same bytes.
/// Throws Error(invalid) naming a statement with a text of more than 1 MiB, Error(io) when the stream fails,
/// Error(corrupt) when the source gives another number of statements than it counted.
LATHBOOK_API void write_exchange(const LedgerSource& source, std::ostream& out);

/// The folder of the media that belong to a document: its name with ".media" after it.
LATHBOOK_API std::filesystem::path media_folder_of(const std::filesystem::path& xml_file);

/// Copies the media of a state into that folder, each to ab/cdef... by its SHA-256; files that are there
/// already with the right digest are left. Returns how many were copied. Throws Error(corrupt) naming a file
/// whose bytes do not fit its name.
LATHBOOK_API std::uint64_t write_media_beside(const LedgerSource& source,
                                              const std::filesystem::path& xml_file);

/// Path of a medium inside its folder: "ab/cdef...".
LATHBOOK_API std::string media_path(const Digest& digest);

}  // namespace lathbook
