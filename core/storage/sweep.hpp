// Wiping what expunging leaves behind: files, freed pages, the write-ahead file.
#pragma once

#include <vector>

#include "core/base/digest.hpp"
#include "core/storage/database.hpp"
#include "core/storage/media_store.hpp"

namespace lathbook {

/// Notes, within the transaction that expunges, that its traces are to be wiped, these files among them:
/// a program killed before it has wiped them leaves the note for the next one.
void note_sweep(const Database& database, const std::vector<Digest>& files);
bool sweep_is_due(const Database& database);
/// Wipes what was noted, outside any transaction; does nothing when nothing was. Throws Error(io, denied)
/// when it could not be done now; the note then stays.
void sweep(const Database& database, MediaStore& media);

}  // namespace lathbook
