// Looks at pictures and copies them.
#include "plugins/iiif/album.hpp"

namespace lathbook::iiif {

std::optional<Shown> Album::take(const Digest& digest) {
  const auto stream = services_.files().media(digest);
  if (!stream) {
    uncarried_.add("files that this copy of the archive lacks");
    return std::nullopt;
  }
  const auto bytes = read_all(*stream);
  const auto picture = bytes ? look_at(*bytes) : std::nullopt;
  if (!picture) {
    uncarried_.add("files that are no picture a browser shows");
    return std::nullopt;
  }
  Shown shown{digest, *picture, "media/" + digest.hex() + "." + picture->ending};
  out_.file(shown.path).write(bytes->data(), static_cast<std::streamsize>(bytes->size()));
  return shown;
}

std::vector<Shown> Album::pictures_of(const SourceView& source) {
  std::vector<Shown> pictures;
  for (const Digest& digest : source.media) {
    auto found = seen_.find(digest);
    if (found == seen_.end()) found = seen_.emplace(digest, take(digest)).first;
    if (found->second) pictures.push_back(*found->second);
  }
  return pictures;
}

}  // namespace lathbook::iiif
