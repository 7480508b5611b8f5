// What the writers of files and folders share. Internal to core/base.
#pragma once

#include <filesystem>
#include <string>
#include <system_error>

namespace lathbook {

/// Throws with the path, what was tried and the system's reason: Error(not_found) when something on the way
/// is missing, Error(denied) when it is forbidden, Error(io) else.
[[noreturn]] void refuse_path(const std::filesystem::path& path, const std::string& what,
                              const std::error_code& reason);

/// A new name beside the target, for what is not finished. Not made from the target's own name, which may
/// already be as long as a name can be.
std::filesystem::path unfinished_beside(const std::filesystem::path& target);

}  // namespace lathbook
