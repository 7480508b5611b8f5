// Every name on disk, made and read in this one file: what an archive folder holds.
#pragma once

#include <filesystem>
#include <string>

#include "core/base/digest.hpp"

namespace lathbook::layout {

/// Marks SQLite files of this program ("LthB").
inline constexpr std::int64_t application_id = 0x4c746842;
/// The schema this program writes; older ones are brought forward, newer ones refused.
inline constexpr std::int64_t schema_version = 2;

inline std::filesystem::path database(const std::filesystem::path& archive) {
  return archive / "archive.sqlite";
}
inline std::filesystem::path media(const std::filesystem::path& archive) {
  return archive / "media";
}
inline std::filesystem::path medium(const std::filesystem::path& archive, const Digest& digest) {
  const std::string name = digest.hex();
  return media(archive) / name.substr(0, 2) / name.substr(2);
}

}  // namespace lathbook::layout
