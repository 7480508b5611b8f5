#include "plugins/pieces/photo_map.hpp"

#include <algorithm>
#include <map>

#include "core/base/base64.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/base/xml_writer.hpp"
#include "core/picture/picture.hpp"
#include "core/picture/region.hpp"
#include "core/view/record_view.hpp"
#include "plugins/pieces/map_svg.hpp"
#include "plugins/pieces/stop_band.hpp"

namespace lathbook::pieces {

namespace {

constexpr double kPaper = 180;  // mm
constexpr double kHead = 17;
constexpr double kFoot = 8;

struct Seen {
  FieldPicture picture;
  std::map<std::string, std::size_t> faces;
};

// The first file of the source that is a picture.
FieldPicture picture_of(const ArchiveFiles& files, const RecordView& source) {
  FieldPicture picture;
  picture.source = source.info;
  for (const Digest& digest : SourceView(source).media) {
    const auto stream = files.media(digest);
    const auto bytes = stream ? read_all(*stream) : std::nullopt;
    const auto seen = bytes ? look_at(*bytes) : std::nullopt;
    if (!seen) continue;
    picture.media = digest;
    picture.width = seen->width;
    picture.height = seen->height;
    break;
  }
  return picture;
}

std::string face_words(const std::string& face) {
  if (face.empty()) return "which face it shows was not said";
  return face == "back" ? "shows the back: columns run from the right" : "shows the " + face;
}

class PhotoMap {
public:
  PhotoMap(const FieldAccount& field, const FieldPicture& picture, const std::vector<std::string>& stops,
           std::ostream& out)
      : field_(field), picture_(picture), band_(stops, kPaper), xml_(out, XmlWriter::Layout::compact) {}

  void write(const std::string& media_type, const std::string& bytes) {
    const double high = kPaper * picture_.height / picture_.width;
    const double whole = band_.height() + kHead + high + kFoot;
    xml_.start("svg").attribute("xmlns", "http://www.w3.org/2000/svg");
    xml_.attribute("width", in_hundredths(kPaper) + "mm").attribute("height", in_hundredths(whole) + "mm");
    xml_.attribute("viewBox", "0 0 " + in_hundredths(kPaper) + " " + in_hundredths(whole))
        .attribute("role", "img");
    xml_.element("title", display(field_.element) + ": pieces on " + display(picture_.source));
    xml_.start("rect").attribute("width", in_hundredths(kPaper)).attribute("height", in_hundredths(whole));
    xml_.attribute("fill", "#fff").end();
    band_.open(xml_);
    words(1, 5, 4.2, display(field_.element), true);
    words(1, 10, 3, display(picture_.source));
    words(1, 14, 3, face_words(picture_.face));
    xml_.start("image")
        .attribute("x", "0")
        .attribute("y", in_hundredths(kHead))
        .attribute("width", in_hundredths(kPaper));
    xml_.attribute("height", in_hundredths(high))
        .attribute("href", "data:" + media_type + ";base64," + to_base64(bytes));
    xml_.end();
    std::size_t marked = 0;
    for (const auto& line : field_.pieces)
      for (const auto& spot : line.spots)
        if (spot.source.id == picture_.source.id) {
          frame(line, spot, high);
          ++marked;
        }
    words(1, kHead + high + 5, 3,
          std::to_string(marked) + (marked == 1 ? " piece is" : " pieces are") + " marked on it, of " +
              std::to_string(field_.pieces.size()) + " on record");
    xml_.end().end().finish();
  }

private:
  void words(double x, double y, double size, const std::string& text, bool bold = false,
             const char* anchor = "start") {
    xml_.start("text")
        .attribute("x", in_hundredths(x))
        .attribute("y", in_hundredths(y))
        .attribute("font-size", in_hundredths(size));
    xml_.attribute("font-family", "DejaVu Sans Condensed, Noto Sans, sans-serif")
        .attribute("fill", "#16181a");
    xml_.attribute("text-anchor", anchor);
    if (bold) xml_.attribute("font-weight", "600");
    xml_.text(text).end();
  }

  void box(double x, double y, double w, double h, const char* stroke, double width, const char* fill) {
    xml_.start("rect")
        .attribute("x", in_hundredths(x))
        .attribute("y", in_hundredths(y))
        .attribute("width", in_hundredths(w));
    xml_.attribute("height", in_hundredths(h)).attribute("fill", fill).attribute("stroke", stroke);
    xml_.attribute("stroke-width", in_hundredths(width)).end();
  }

  // White under black is seen on any picture.
  void frame(const PieceLine& line, const PieceSpot& spot, double high) {
    const double x = spot.x * kPaper / 100, y = kHead + spot.y * high / 100;
    const double w = spot.width * kPaper / 100, h = spot.height * high / 100;
    xml_.start("g").element("title", display(line.record) + (line.state.empty() ? "" : ", " + line.state));
    box(x, y, w, h, "#fff", 1, "none");
    box(x, y, w, h, "#16181a", 0.4, "none");
    const std::string shown = short_code(line.record.code, field_.element.code);
    const double size = 3, wide = size * 0.62 * static_cast<double>(display_width(shown)) + 1;
    box(x + w / 2 - wide / 2, y + h / 2 - size * 0.6, wide, size * 1.2, "none", 0, "#fff");
    words(x + w / 2, y + h / 2 + size * 0.36, size, shown, true, "middle");
    xml_.end();
  }

  const FieldAccount& field_;
  const FieldPicture& picture_;
  StopBand band_;
  XmlWriter xml_;
};

std::size_t pieces_on(const FieldAccount& field, const FieldPicture& picture) {
  return static_cast<std::size_t>(
      std::count_if(field.pieces.begin(), field.pieces.end(), [&](const PieceLine& line) {
        return std::any_of(line.spots.begin(), line.spots.end(),
                           [&](const PieceSpot& spot) { return spot.source.id == picture.source.id; });
      }));
}

}  // namespace

void find_pictures(const Snapshot& archive, const ArchiveFiles& files, FieldAccount& field) {
  std::map<Uuid, Seen> seen;
  for (auto& line : field.pieces) {
    const auto piece = archive.find(line.record.id);
    if (!piece) continue;
    for (const Statement* said : piece->all("pictured-in")) {
      const auto id = Uuid::parse(said->content.value);
      const std::string spot(said->content.qualifier("spot"));
      const auto source = id && names_region(spot) ? archive.find(*id) : std::nullopt;
      if (!source) continue;
      const auto [known, fresh] = seen.try_emplace(*id);
      Seen& on = known->second;
      if (fresh) on.picture = picture_of(files, *source);
      const double w = on.picture.width, h = on.picture.height;
      if (!(w > 0) || !(h > 0)) continue;
      const auto region = read_region(spot, static_cast<int>(w), static_cast<int>(h));
      if (!region) continue;
      const std::string face(said->content.qualifier("face"));
      if (!face.empty()) ++on.faces[face];
      line.spots.push_back({source->info, face, region->x * 100 / w, region->y * 100 / h,
                            region->width * 100 / w, region->height * 100 / h});
    }
  }
  for (auto& [id, on] : seen) {
    const auto most = std::max_element(on.faces.begin(), on.faces.end(),
                                       [](const auto& a, const auto& b) { return a.second < b.second; });
    if (most != on.faces.end()) on.picture.face = most->first;
    field.pictures.push_back(std::move(on.picture));
  }
  std::sort(field.pictures.begin(), field.pictures.end(), [](const FieldPicture& a, const FieldPicture& b) {
    return compare_for_people(a.source.code, b.source.code) < 0;
  });
}

void write_photo_map(const FieldAccount& field, const std::string& source,
                     const std::vector<std::string>& stops, const ArchiveFiles& files, std::ostream& out) {
  const FieldPicture* chosen = nullptr;
  for (const auto& picture : field.pictures) {
    if (!source.empty() && fold(picture.source.code) != fold(source)) continue;
    if (chosen == nullptr || pieces_on(field, picture) > pieces_on(field, *chosen)) chosen = &picture;
  }
  if (chosen == nullptr)
    fail(ErrorKind::invalid, "no piece of " + display(field.element) + " is marked on " +
                                 (source.empty() ? std::string("a photograph") : quote(source)) +
                                 "; mark one: lathbook say PIECE pictured-in PHOTO --with "
                                 "\"spot=xywh=160,120,320,240\" --with face=front");
  const auto stream = chosen->media == Digest{} ? nullptr : files.media(chosen->media);
  const auto bytes = stream ? read_all(*stream) : std::nullopt;
  const auto seen = bytes ? look_at(*bytes) : std::nullopt;
  if (!seen)
    fail(ErrorKind::not_found,
         "the file of " + display(chosen->source) + " is not in this copy, or is no picture");
  PhotoMap(field, *chosen, stops, out).write(seen->media_type, *bytes);
}

}  // namespace lathbook::pieces
