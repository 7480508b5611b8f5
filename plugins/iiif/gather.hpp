// Which photographs a manifest shows, and what is said of each.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/view/snapshot.hpp"

namespace lathbook::iiif {

/// One thing that a photograph shows, by one statement.
struct Sighting {
  Uuid record;
  std::string words;   ///< "N-203 Sea-green tile field is seen uncovered in: left of the niche (certain)"
  std::string places;  ///< where a region may stand: the detail `spot` and the locators in the photograph
};

/// Sightings by photograph (a source).
using Photographs = std::map<Uuid, std::vector<Sighting>>;

/// Photographs of a place: its own, and for rooms and their like also those of what belongs to them; of an
/// element, piece or find: those that picture it; of a mark or label: those its statements cite, too.
Photographs photographs_of(const Snapshot& archive, const RecordInfo& info);
/// Whether records of this kind get manifests.
bool has_manifest(Kind kind);

}  // namespace lathbook::iiif
