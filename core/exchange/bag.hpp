// Judges packages of other programs and our own: BagIt, versions 0.93 to 1.0.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "core/base/api.hpp"
#include "core/base/error.hpp"

namespace lathbook {

struct BagVerdict {
  std::string version;      ///< as declared; empty when no declaration could be read
  std::uint64_t files = 0;  ///< of the payload
  std::uint64_t bytes = 0;
  Findings findings;  ///< every fault and warning, in order of tag files, then paths
  bool valid() const { return !has_fault(findings); }
};

/// Reads every file of the bag once, fetches nothing, follows no link, looks at nothing outside the folder.
/// What a warning is and what a fault is follows the version that the bag declares. Source: J. Kunze, J.
/// Littman, E. Madden, J. Scancella, C. Adams, 'The BagIt File Packaging Format (V1.0)', RFC 8493, 2018, and
/// for older versions its drafts as the published conformance suite reads them; docs/bag.md has the list.
/// Throws Error(not_found) when there is no such folder, Error(denied, io) when it cannot be read.
LATHBOOK_API BagVerdict verify_bag(const std::filesystem::path& folder);

/// Whether the folder says that it is a bag: it has a file bagit.txt.
LATHBOOK_API bool is_bag(const std::filesystem::path& folder);

}  // namespace lathbook
