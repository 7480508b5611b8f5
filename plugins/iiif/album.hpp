// The pictures of an export: looked at once, copied once, whichever manifests show them.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/picture/picture.hpp"
#include "core/plugin/plugin.hpp"
#include "core/view/uncarried.hpp"
#include "core/view/views.hpp"

namespace lathbook::iiif {

struct Shown {
  Digest digest;
  Picture picture;
  std::string path;  ///< media/ab12....jpg
};

class Album {
public:
  Album(FolderSink& out, Services& services, Uncarried& uncarried)
      : out_(out), services_(services), uncarried_(uncarried) {}

  /// The files of a source that are pictures, in order; copies what was not copied yet.
  std::vector<Shown> pictures_of(const SourceView& source);

private:
  std::optional<Shown> take(const Digest& digest);

  FolderSink& out_;
  Services& services_;
  Uncarried& uncarried_;
  std::map<Digest, std::optional<Shown>> seen_;
};

}  // namespace lathbook::iiif
