// The folders in which plugins are looked for.
#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "core/base/api.hpp"

namespace lathbook {

/// The folder the caller names (--plugins), if any, then those of LATHBOOK_PLUGINS, a list parted by
/// colons; when neither names one, '../lib/lathbook/plugins' beside the program's own folder, which is so
/// in a build folder and in an installation. Absolute paths. The current folder is never looked in by
/// itself: an empty or relative part of LATHBOOK_PLUGINS throws Error(invalid).
LATHBOOK_API std::vector<std::filesystem::path> plugin_folders(
    const std::optional<std::filesystem::path>& given);

}  // namespace lathbook
