// The plugin 'takedown': in which order things come down and go back, and the sheets for it.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/plugin/descriptor.hpp"
#include "core/view/hazards.hpp"
#include "core/view/stops.hpp"
#include "plugins/takedown/plan.hpp"
#include "plugins/takedown/write.hpp"

namespace lathbook::takedown {

namespace {

// Codes as people write them one after the other. 'propose' is somebody's own order; 'judge' asks what would
// be endangered, and what is not here does not matter.
Asked asked_in(const Settings& settings) {
  Asked asked;
  for (const auto& [name, value] : settings) {
    if (name != "propose" && name != "judge") continue;
    asked.strict = name == "propose";
    std::string spaced = value;
    std::replace_if(
        spaced.begin(), spaced.end(), [](char c) { return c == ',' || c == ';'; }, ' ');
    for (const auto& code : split(spaced, ' '))
      if (!trim(code).empty()) asked.codes.emplace_back(trim(code));
  }
  return asked;
}

SheetFor sheet_for(const Settings& settings) {
  SheetFor what;
  for (const auto& [name, value] : settings) {
    if (name == "way") {
      if (value != "down" && value != "back") fail(ErrorKind::invalid, "setting 'way' is down or back");
      what.back = value == "back";
    }
    if (name == "for") {
      if (value != "all" && value != "volunteers")
        fail(ErrorKind::invalid, "setting 'for' is all or volunteers");
      what.volunteers = value == "volunteers";
    }
  }
  return what;
}

/// What is out goes back apart from what is in place; where nothing is, the way back is the way down.
WorkOrder order_for(const Snapshot& archive, const Uuid& scope, const Settings& settings, bool with_reasons) {
  if (scope == Uuid{}) fail(ErrorKind::invalid, "an order of work is for a place or an element; name one");
  WorkOrder order;
  order.reading = archive.reading();
  order.scope = *archive.statements().record(scope);
  const Survey survey(archive, scope);
  Fabric here = survey.fabric(Survey::Part::in_place);
  if (survey.anything_kept()) keep_beneath(survey.with_what_lies_over(), here, order);
  plan(here, order);
  if (with_reasons) tell_reasons(here, order);
  const bool anything_out = survey.anything_out();
  const Asked asked = asked_in(settings);
  const bool sets = !asked.codes.empty() && sheet_for(settings).back;
  const Fabric out = anything_out || sets ? survey.fabric(Survey::Part::out) : Fabric{};
  if (anything_out) plan_back(out, order);
  if (sets) {
    judge_setting(survey.fabric(Survey::Part::all), out, asked, order);
  } else if (!asked.codes.empty()) {
    judge_proposed(here, asked, order);
  } else {
    tell_beneath(here, std::vector<bool>(here.nodes.size(), true), order);
    if (anything_out) judge(survey.fabric(Survey::Part::all), order);
  }
  return order;
}

class Planning : public Analysis {
public:
  AnalysisResult run(const Snapshot& archive, const AnalysisRequest& request, Services&) override {
    return order_for(archive, request.scope, request.settings, true);
  }
};

std::vector<std::string> care_for(const Snapshot& archive, const Uuid& scope) {
  const auto hazards = hazards_of(archive, {scope});
  auto lines = hazard_lines(hazards);
  for (auto& line : caution_lines(hazards, jurisdiction_of(archive))) lines.push_back(std::move(line));
  return lines;
}

class Sheets : public Report {
public:
  std::vector<std::string> formats() const override {
    return {"text", "json", "work-sheet", "order-followed"};
  }
  void write(const Snapshot& archive, const ReportRequest& request, std::ostream& out, Services&) override {
    const SheetFor what = sheet_for(request.settings);
    const WorkOrder order = order_for(archive, request.scope, request.settings, request.format == "json");
    const auto stops = stop_lines(stops_around(archive, {request.scope}));
    if (request.format == "json") return write_json(order, stops, out);
    if (request.format == "text") return write_text(order, what, stops, out);
    if (request.format == "order-followed") return write_followed(order, stops, out);
    SheetParts parts;
    parts.stops = stops;
    parts.plan = undertaking_of(archive, request.scope);
    parts.care = care_for(archive, request.scope);
    if (what.back) parts.repairs = repair_steps(archive, order, parts.plan);
    parts.maps = step_maps(archive, order, what);
    write_sheet(order, parts, what, out);
  }
};

}  // namespace

class TakedownPlugin : public Plugin {
public:
  Analysis* analysis() override { return &planning_; }
  Report* report() override { return &sheets_; }

private:
  Planning planning_;
  Sheets sheets_;
};

}  // namespace lathbook::takedown

LATHBOOK_PLUGIN(lathbook::takedown::TakedownPlugin, .name = "takedown", .version = "1.0",
                .kind = "analysis report",
                .summary = "plans in which order things come down and go back, and prints the work sheets",
                .provides = "takedown@2", .settings = "way for propose judge");
