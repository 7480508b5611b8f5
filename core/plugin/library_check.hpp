// Looks at a file that wants to be a plugin without loading it: nothing of the file's code runs.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>

#include "core/base/api.hpp"

namespace lathbook {

// The functions called 'why not' answer in words that go on after the file's name and a colon ("it is
// empty"), or with nothing when there is no objection. None throws for anything the file may hold; all read
// only.

/// Why the file is not a whole shared library of this kind of machine. A library cut short can kill the
/// process from within the system's loader (SIGBUS), so every part that the loader maps and the section
/// table, which stands last, must lie inside the file.
LATHBOOK_API std::string why_not_a_library(const std::filesystem::path& file);

/// The bytes that the file holds for exported data of this name, at most `most` of them; nothing when it
/// exports none. Addresses within the data are not filled in: that is the loader's work. Reads the dynamic
/// symbol table, which stays when a library is stripped; expects a file to which why_not_a_library has no
/// objection.
LATHBOOK_API std::optional<std::string> exported_data(const std::filesystem::path& file,
                                                      const std::string& symbol, std::size_t most);

/// Why the file, or the folder it lies in, is not safe to load from: all the world may write to it, so
/// anybody could have put the code there (the sticky bit, as of /tmp, is no help against a new file). Links
/// are followed first. Folders further up are the user's own affair.
LATHBOOK_API std::string why_not_safe(const std::filesystem::path& file_or_folder);

}  // namespace lathbook
