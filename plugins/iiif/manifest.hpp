// Manifests and the collection, as IIIF Presentation API 3.0 (IIIF Consortium, 2020) wants them.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "core/view/views.hpp"
#include "plugins/iiif/album.hpp"
#include "plugins/iiif/gather.hpp"

namespace lathbook::iiif {

/// A photograph with its pictures and what it shows.
struct Plate {
  SourceView source;
  std::vector<Shown> pictures;  ///< at least one
  std::vector<Sighting> sightings;
};

/// Addresses of an export: everything stands under base + "iiif/".
struct Site {
  std::string base;    ///< of the archive
  std::string keeper;  ///< name of the archive
  std::string root() const { return base + "iiif/"; }
  std::string manifest(const Uuid& record) const { return root() + "manifests/" + record.text() + ".json"; }
};

/// Counts regions that could not be used.
struct ManifestCounts {
  std::uint64_t canvases = 0;
  std::uint64_t regions = 0;
  std::uint64_t bad_regions = 0;
};

void write_manifest(std::ostream& out, const Site& site, const RecordView& record,
                    const std::vector<Plate>& plates, ManifestCounts& counts);

struct Listed {
  Uuid record;
  std::string label;
};
void write_collection(std::ostream& out, const Site& site, const Reading& reading,
                      const std::vector<Listed>& manifests);

}  // namespace lathbook::iiif
