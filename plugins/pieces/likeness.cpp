#include "plugins/pieces/likeness.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "core/base/base64.hpp"
#include "core/base/number.hpp"
#include "core/picture/picture.hpp"
#include "core/view/piece_states.hpp"
#include "core/view/record_view.hpp"

namespace lathbook::pieces {

namespace {

constexpr std::size_t kLargest = std::size_t{12} << 20;
constexpr double kWide = 52, kHigh = 44;  // millimetres at most

// How good a sample of its field a piece is: one that is held, whole and sound, where there is one.
int worth_of(const PieceLine& line) {
  const bool broken = line.condition == "broken" || line.condition == "fragments only" || line.incomplete;
  const bool marred = line.condition == "cracked" || line.condition == "glaze lost";
  return (is_held(piece_state_from_word(line.state)) ? 4 : 0) + (broken ? 0 : marred ? 1 : 2);
}

double pixels(const PieceSpot& spot, const FieldPicture& picture) {
  return spot.width * picture.width * spot.height * picture.height / 10000;
}

int place_of(const std::string& face) {
  if (face == "front") return 0;
  return face == "back" ? 1 : 2;
}

// Only the marked rectangle is seen of the whole picture.
void crop(XmlWriter& xml, const Likeness& shown, const std::string& media_type, const std::string& bytes) {
  const double w = shown.picture.width, h = shown.picture.height;
  const double wide = shown.spot.width * w / 100, high = shown.spot.height * h / 100;
  const double scale = std::min(kWide / wide, kHigh / high);
  xml.start("svg").attribute("xmlns", "http://www.w3.org/2000/svg");
  xml.attribute("width", in_hundredths(wide * scale) + "mm")
      .attribute("height", in_hundredths(high * scale) + "mm");
  xml.attribute("viewBox", in_hundredths(shown.spot.x * w / 100) + " " +
                               in_hundredths(shown.spot.y * h / 100) + " " + in_hundredths(wide) + " " +
                               in_hundredths(high));
  xml.attribute("role", "img").element("title", display(shown.piece));
  xml.start("image").attribute("width", in_hundredths(w)).attribute("height", in_hundredths(h));
  xml.attribute("href", "data:" + media_type + ";base64," + to_base64(bytes)).end().end();
}

void write_one(XmlWriter& xml, const Likeness& shown, const ArchiveFiles& files) {
  xml.start("figure");
  const auto stream = shown.picture.media == Digest{} ? nullptr : files.media(shown.picture.media);
  const auto bytes = stream ? read_all(*stream) : std::nullopt;
  const auto seen = bytes ? look_at(*bytes) : std::nullopt;
  std::string words = (shown.face.empty() ? std::string("face not said") : shown.face) + ": " +
                      display(shown.piece) + (shown.condition.empty() ? "" : ", " + shown.condition) +
                      ", on " + display(shown.source);
  if (!seen)
    words += " (its file is not in this copy)";
  else if (bytes->size() > kLargest)
    words += " (its file is too large to print here)";
  else
    crop(xml, shown, seen->media_type, *bytes);
  xml.element("figcaption", words).end();
}

}  // namespace

std::vector<Likeness> likenesses(const FieldAccount& field) {
  std::map<std::string, std::pair<std::pair<int, double>, Likeness>> best;
  for (const auto& line : field.pieces)
    for (const auto& spot : line.spots) {
      const auto picture =
          std::find_if(field.pictures.begin(), field.pictures.end(),
                       [&](const FieldPicture& one) { return one.source.id == spot.source.id; });
      if (picture == field.pictures.end()) continue;
      const std::pair worth(worth_of(line), pixels(spot, *picture));
      const auto [known, fresh] = best.try_emplace(spot.face);
      if (fresh || worth > known->second.first)
        known->second = {worth, {line.record, spot.source, spot.face, spot, *picture, line.condition}};
    }
  std::vector<Likeness> shown;
  for (auto& [face, one] : best) shown.push_back(std::move(one.second));
  std::stable_sort(shown.begin(), shown.end(),
                   [](const Likeness& a, const Likeness& b) { return place_of(a.face) < place_of(b.face); });
  return shown;
}

void write_likenesses(XmlWriter& xml, const std::vector<Likeness>& shown, const ArchiveFiles& files) {
  xml.start("div").attribute("class", "likeness");
  for (const auto& one : shown) write_one(xml, one, files);
  xml.end();
}

}  // namespace lathbook::pieces
