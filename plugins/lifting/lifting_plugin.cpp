// The plugin 'lifting': how much may be lifted so, by the revised NIOSH equation.
#include <charconv>
#include <map>

#include "core/base/json_writer.hpp"
#include "core/base/text.hpp"
#include "core/plugin/descriptor.hpp"
#include "plugins/lifting/equation.hpp"

namespace lathbook::lifting {

namespace {

double number_from(const std::string& name, const std::string& value) {
  double number = 0;
  const auto [end, error] = std::from_chars(value.data(), value.data() + value.size(), number);
  if (error != std::errc() || end != value.data() + value.size())
    fail(ErrorKind::invalid, "setting '" + name + "' is a number, not " + quote(value));
  return number;
}

LiftingLimit limit_for(const Settings& settings) {
  Lift lift;
  bool rounded = false;
  const std::map<std::string, double*, std::less<>> numbers{{"load", &lift.load},
                                                            {"away", &lift.horizontal},
                                                            {"away-to", &lift.horizontal_to},
                                                            {"height", &lift.vertical},
                                                            {"height-to", &lift.vertical_to},
                                                            {"turn", &lift.asymmetry},
                                                            {"turn-to", &lift.asymmetry_to},
                                                            {"per-minute", &lift.per_minute}};
  for (const auto& [name, value] : settings) {
    if (const auto number = numbers.find(name); number != numbers.end())
      *number->second = number_from(name, value);
    else if (name == "rounded")
      rounded = value == "yes";
    else if (name == "units" && (value == "metric" || value == "customary"))
      lift.units = value == "metric" ? Units::metric : Units::customary;
    else if (name == "grip" && (value == "good" || value == "fair" || value == "poor"))
      lift.coupling = value == "good" ? Coupling::good : value == "fair" ? Coupling::fair : Coupling::poor;
    else
      fail(ErrorKind::invalid,
           quote(name + "=" + value) +
               " says nothing about a lift; the settings are load (kg), away, away-to, height, height-to "
               "(cm), turn, turn-to (degrees), per-minute, units (metric, customary), grip (good, fair, "
               "poor) and rounded (yes, no)");
  }
  return limit_of(lift, rounded);
}

class Limit : public Analysis {
public:
  AnalysisResult run(const Snapshot&, const AnalysisRequest& request, Services&) override {
    return limit_for(request.settings);
  }
};

class Answer : public Report {
public:
  std::vector<std::string> formats() const override { return {"text", "json"}; }
  void write(const Snapshot&, const ReportRequest& request, std::ostream& out, Services&) override {
    const LiftingLimit limit = limit_for(request.settings);
    if (request.format == "json") {
      JsonWriter json(out);
      json.begin_object().key("load-kg").number(limit.load_kg);
      json.key("limit-at-origin-kg")
          .number(limit.origin.limit_kg)
          .key("index-at-origin")
          .number(limit.origin.index);
      json.key("limit-at-destination-kg").number(limit.destination.limit_kg);
      json.key("index-at-destination").number(limit.destination.index).end_object().finish();
      return;
    }
    for (const auto& sentence : limit.words) out << sentence << '\n';
  }
};

}  // namespace

class LiftingPlugin : public Plugin {
public:
  Analysis* analysis() override { return &limit_; }
  Report* report() override { return &answer_; }

private:
  Limit limit_;
  Answer answer_;
};

}  // namespace lathbook::lifting

LATHBOOK_PLUGIN(
    lathbook::lifting::LiftingPlugin, .name = "lifting", .version = "1.0", .kind = "analysis report",
    .summary = "tells the recommended weight limit of a lift, as information and never as permission",
    .provides = "lifting@1",
    .settings = "load away away-to height height-to turn turn-to per-minute units grip rounded");
