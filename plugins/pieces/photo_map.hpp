// Pieces marked on a photograph, where a field has no rows and columns or a picture says more.
#pragma once

#include <ostream>
#include <string>

#include "core/analysis/piece_accounts.hpp"
#include "core/plugin/plugin.hpp"

namespace lathbook::pieces {

/// Fills `pictures` and the `spots` of the pieces from what is said of them (pictured-in with a region,
/// xywh=160,120,320,240, and the face that is seen).
void find_pictures(const Snapshot& archive, const ArchiveFiles& files, FieldAccount& field);

/// Draws the photograph with each marked piece framed and named, and says which face it shows. `source` is
/// the code of one of the pictures; empty takes the one with most pieces on it. Call after find_pictures().
/// Throws Error(invalid) when no piece is marked on it, Error(not_found) when its file is not here.
/// `stops`: lines that say where work is stopped.
void write_photo_map(const FieldAccount& field, const std::string& source,
                     const std::vector<std::string>& stops, const ArchiveFiles& files, std::ostream& out);

}  // namespace lathbook::pieces
