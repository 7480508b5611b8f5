#include "plugins/finishes/coats.hpp"

#include <cmath>

#include "core/base/renotation.hpp"
#include "core/base/text.hpp"
#include "plugins/finishes/measured.hpp"
#include "plugins/finishes/substrate.hpp"

namespace lathbook::finishes {

namespace {

constexpr double kMarker = 6, kMarkerMeasured = 12;
// From here on, with so little chroma, a colour is white for our purpose; the same for a measured one.
constexpr double kWhiteValue = 8.5, kWhiteChroma = 2;
constexpr double kWhiteLightness = 85, kWhiteDistance = 10;
constexpr double kPaleValue = 8, kPaleChroma = 4;
constexpr double kPaleLightness = 80, kPaleDistance = 25;

bool is_white(const ComparedCoat& coat) {
  if (coat.colour) return coat.colour->value >= kWhiteValue && coat.colour->chroma < kWhiteChroma;
  return coat.lab.l >= kWhiteLightness && std::hypot(coat.lab.a, coat.lab.b) < kWhiteDistance;
}

// Pale oil paint yellows, and a grained or glazed coat has no one colour (docs/finishes.md).
double spread_of(const ComparedCoat& coat, const std::string& role) {
  if (role == "glaze" || role == "paper") return 1.5;
  const bool pale = coat.colour
                        ? coat.colour->value >= kPaleValue && coat.colour->chroma <= kPaleChroma
                        : coat.lab.l >= kPaleLightness && std::hypot(coat.lab.a, coat.lab.b) <= kPaleDistance;
  return pale ? 1.5 : 1;
}

class Reader {
public:
  explicit Reader(RecordView record) : record_(std::move(record)), view_(record_) {}

  ReadCoat run() {
    FinishCoat& told = out_.told;
    told.record = record_.info;
    out_.number = view_.layer;
    told.layer = view_.layer.value_or(0);
    told.role = view_.role;
    told.colour = view_.colour;
    told.material = record_.text("material");
    for (const Statement* one : record_.all("pigment")) told.pigments.push_back(one->content.value);
    for (const Statement* one : record_.all("seen-in-sample"))
      if (const auto sample = Uuid::parse(one->content.value)) out_.samples.push_back(*sample);
    use(record_.best("layer"));
    use(record_.best("layer-role"));
    colours();
    return std::move(out_);
  }

private:
  void use(const Statement* one) {
    if (!one) return;
    out_.told.said.push_back(one->id);
    out_.sure = std::max(out_.sure, one->content.confidence);
  }

  void colours() {
    FinishCoat& told = out_.told;
    ComparedCoat seen;
    bool known = false;
    if (!view_.munsell.empty()) {
      told.munsell = view_.munsell;
      use(record_.best("munsell"));
      const MunsellReading reading = read_munsell(told.munsell);
      if (reading.good()) {
        const ScreenColour shown = on_screen(reading.colour);
        told.chip = {shown.hex(), word(shown.trust)};
        seen.colour = reading.colour;
        seen.lab = shown.lab;
        known = true;
      } else {
        told.colour_fault =
            "the notation: at character " + std::to_string(reading.at) + " it " + reading.fault;
      }
    }
    if (const Statement* one = record_.best("measured-colour")) {
      told.measured = one->content.value;
      if (const auto lab = measured(*one)) {
        use(one);
        if (!known) told.chip = {on_screen(*lab).hex(), "measured"};
        seen.lab = *lab;
        seen.measured = known = true;
      }
    }
    if (!known || !has_colour_of_its_own(told.role)) return;
    seen.spread = spread_of(seen, told.role);
    for (const std::string& pigment : told.pigments)
      for (const std::string& one : split(pigment, ',')) seen.pigments.push_back(fold(one));
    told.compared = true;
    told.white = is_white(seen);
    out_.seen = std::move(seen);
  }

  std::optional<Lab> measured(const Statement& one) {
    const std::string illuminant = fold(one.content.qualifier("illuminant"));
    if (!illuminant.empty() && illuminant != "d65") {
      out_.told.colour_fault = "the measurement: only colours under D65 are compared";
      return std::nullopt;
    }
    const auto lab = read_lab(one.content.value);
    if (!lab) out_.told.colour_fault = "the measurement: L* a* b* are three numbers like 52.1 3.2 10.4";
    return lab;
  }

  RecordView record_;
  FinishView view_;
  ReadCoat out_;
};

}  // namespace

bool has_colour_of_its_own(const std::string& role) {
  return role == "finish coat" || role == "glaze" || role == "paper";
}

bool far_apart(const ComparedCoat& a, const ComparedCoat& b) {
  const Apart found = apart(a, b, {});
  return found.difference >= (found.by_eye ? kMarker : kMarkerMeasured);
}

std::optional<ReadCoat> read_coat(const Snapshot& archive, const Uuid& finish,
                                  const AnalysisRequest& request) {
  auto record = archive.find(finish);
  if (!record) return std::nullopt;
  leave_out(*record, request);
  return Reader(std::move(*record)).run();
}

}  // namespace lathbook::finishes
