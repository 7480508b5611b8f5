// Walks what may have photographs.
#include "plugins/iiif/exporter.hpp"

#include <algorithm>
#include <optional>
#include <set>

#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/view/addresses.hpp"
#include "core/view/scope.hpp"
#include "core/view/words.hpp"
#include "plugins/iiif/manifest.hpp"

namespace lathbook::iiif {

namespace {

/// The photographs with a picture, in natural order of their codes.
std::vector<Plate> plates_of(const StatementReader& reader, const Photographs& photographs, Album& album) {
  std::vector<Plate> plates;
  for (const auto& [id, sightings] : photographs) {
    const auto info = reader.record(id);
    if (!info) continue;
    SourceView source(RecordView::read(reader, *info));
    auto pictures = album.pictures_of(source);
    if (!pictures.empty()) plates.push_back({std::move(source), std::move(pictures), sightings});
  }
  std::sort(plates.begin(), plates.end(), [](const Plate& a, const Plate& b) {
    const RecordInfo& one = a.source.record.info;
    const RecordInfo& other = b.source.record.info;
    const int order = compare_for_people(one.code, other.code);
    return order != 0 ? order < 0 : one.id < other.id;
  });
  return plates;
}

void tell(Services& services, const Site& site, const ManifestCounts& counts, std::size_t manifests,
          const Uncarried& uncarried) {
  services.note(Severity::note, std::to_string(manifests) + " manifests with " +
                                    std::to_string(counts.canvases) + " pictures and " +
                                    std::to_string(counts.regions) + " marked regions; put the folder at " +
                                    site.root() + " and open collection.json there with a viewer");
  if (counts.bad_regions != 0)
    services.note(Severity::warning,
                  std::to_string(counts.bad_regions) +
                      " regions (xywh=) are not well formed or lie outside their picture; the "
                      "whole picture is annotated there");
  const std::string left = uncarried.sentence("IIIF");
  if (!left.empty()) services.note(Severity::note, left);
}

}  // namespace

std::vector<std::string> IiifExporter::formats() const {
  return {"manifests"};
}

bool IiifExporter::makes_folder(std::string_view) const {
  return true;
}

void IiifExporter::write_folder(const Snapshot& archive, const ExportRequest& request, FolderSink& out,
                                Services& services) {
  require_web_address(request.base_iri, "IIIF");
  if (request.base_iri.back() == '#')
    fail(ErrorKind::invalid, "IIIF needs files under the base address, so it must end in '/' and not in '#'");
  const StatementReader& reader = archive.statements();
  const Site site{request.base_iri, archive_name(reader)};
  std::optional<std::set<Uuid>> part;
  if (request.scope != Uuid{}) part = belongings_of(archive, request.scope);
  Uncarried uncarried;
  Album album(out, services, uncarried);
  ManifestCounts counts;
  std::vector<Listed> manifests;
  std::uint64_t done = 0;
  for (const Kind kind : all_kinds()) {
    if (!has_manifest(kind)) continue;
    reader.each_record(kind, [&](const RecordInfo& info) {
      if (services.stop_requested()) return false;
      services.progress(++done, 0);
      if (part && part->count(info.id) == 0) return true;
      const auto plates = plates_of(reader, photographs_of(archive, info), album);
      if (plates.empty()) return true;
      write_manifest(out.file("manifests/" + info.id.text() + ".json"), site, RecordView::read(reader, info),
                     plates, counts);
      manifests.push_back({info.id, display(info)});
      return true;
    });
  }
  if (manifests.empty())
    fail(ErrorKind::invalid,
         "there is no photograph with a picture file to show; add files to sources with "
         "'lathbook say SOURCE media FILE' and say what is pictured-in them");
  write_collection(out.file("collection.json"), site, archive.reading(), manifests);
  tell(services, site, counts, manifests.size(), uncarried);
}

}  // namespace lathbook::iiif
