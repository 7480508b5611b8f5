// Houses made of a few rooms, and labels typed to be read against them.
#pragma once

#include <string>
#include <vector>

#include "core/analysis/label_reading.hpp"
#include "plugins/labels/reading.hpp"
#include "tests/view/fake_reader.hpp"

namespace lathbook::test {

/// Never wants to stop, forgets what it is told.
class QuietServices : public Services {
public:
  void note(Severity, const std::string&) override {}
  void progress(std::uint64_t, std::uint64_t) override {}
  bool stop_requested() const override { return false; }
  const AnalysisResult* result(std::string_view) const override { return nullptr; }
};

/// A building with a ground storey and an upper one, front to the south; rooms are added by code.
class SmallHouse {
public:
  SmallHouse() {
    building = reader.add(Kind::place, "B", "The house");
    reader.say(building, "place-type", "building");
    ground = storey("G", "0");
    upper = storey("U", "1");
    reader.say(building, "front-faces", "south");
  }

  Uuid storey(const std::string& code, const std::string& number) {
    const Uuid id = reader.add(Kind::place, code, code);
    reader.say(id, "place-type", "storey");
    reader.say(id, "within", building);
    reader.say(id, "storey-number", number);
    return id;
  }

  struct Name {
    std::string text;
    std::string from = {};
    std::string to = {};
  };

  Uuid room(const std::string& code, const Uuid& within, const std::vector<Name>& names,
            const std::string& outline) {
    const Uuid id = reader.add(Kind::place, code, names.front().text);
    reader.say(id, "place-type", "room");
    reader.say(id, "within", within);
    for (const Name& name : names) {
      std::vector<Qualifier> period;
      if (!name.from.empty()) period.push_back({"from", name.from});
      if (!name.to.empty()) period.push_back({"to", name.to});
      reader.say(id, "name", name.text, Confidence::certain, period);
    }
    if (!outline.empty()) reader.say(id, "footprint", outline);
    return id;
  }

  LabelReading read(const std::string& text, const std::string& date = {}, const std::string& storeys = {},
                    const std::string& left = "outside") {
    AnalysisRequest request;
    request.settings = {{"text", text}, {"date", date}, {"storeys", storeys}, {"left", left}};
    return labels::read_labels(Snapshot(reader), request, services).labels.at(0);
  }

  LabelReadings read_all(const Uuid& scope = {}) {
    AnalysisRequest request;
    request.scope = scope;
    return labels::read_labels(Snapshot(reader), request, services);
  }

  /// A label on a thing, with a transcription that cites a source.
  Uuid label(const std::string& code, const Uuid& carrier, const std::string& text) {
    const Uuid source = reader.add(Kind::source, "S-" + code);
    const Uuid id = reader.add(Kind::label, code);
    reader.say(id, "label-on", carrier);
    reader.say(id, "transcription", text).content.citations.push_back({source, "back", {}});
    return id;
  }

  FakeReader reader;
  QuietServices services;
  Uuid building, ground, upper;
};

/// "12,0 20,0 20,7 12,7" of two corners.
inline std::string box(double left, double bottom, double right, double top) {
  const std::string l = std::to_string(left), b = std::to_string(bottom);
  const std::string r = std::to_string(right), t = std::to_string(top);
  return l + "," + b + " " + r + "," + b + " " + r + "," + t + " " + l + "," + t;
}

}  // namespace lathbook::test
