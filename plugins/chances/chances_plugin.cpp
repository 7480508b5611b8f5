// The plugin 'chances': how likely dates and orders are, as a result for others and as text or JSON.

#include "core/plugin/descriptor.hpp"
#include "core/plugin/plugin.hpp"
#include "core/plugin/settings.hpp"
#include "plugins/chances/reckon.hpp"
#include "plugins/chances/write.hpp"

namespace lathbook::chances {

namespace {

Uuid record_from(const std::string& name, const std::string& value) {
  const auto record = Uuid::parse(value);
  if (!record) fail(ErrorKind::invalid, "setting '" + name + "' is the id of a record");
  return *record;
}

Question question_from(const Settings& settings) {
  Question question;
  for (const auto& [name, value] : settings) {
    if (name == "seed") question.seed = whole_number_setting<std::uint64_t>(name, value, 0, UINT64_MAX);
    if (name == "first") question.first = record_from(name, value);
    if (name == "second") question.second = record_from(name, value);
    if (name == "first-placement") question.first_placement = whole_number_setting(name, value, 1, 64);
    if (name == "second-placement") question.second_placement = whole_number_setting(name, value, 1, 64);
  }
  if (question.first.has_value() != question.second.has_value())
    fail(ErrorKind::invalid, "settings 'first' and 'second' go together");
  return question;
}

std::size_t columns_from(const Settings& settings) {
  for (const auto& [name, value] : settings)
    if (name == "width") return whole_number_setting<std::size_t>(name, value, 40, 400);
  return 80;
}

const Timeline& timeline_of(const Services& services) {
  return std::get<Timeline>(*services.result("timeline"));
}

class ChanceAnalysis : public Analysis {
public:
  AnalysisResult run(const Snapshot&, const AnalysisRequest& request, Services& services) override {
    return reckon(timeline_of(services), question_from(request.settings), services);
  }
};

class ChanceReport : public Report {
public:
  std::vector<std::string> formats() const override { return {"text", "json"}; }

  void write(const Snapshot&, const ReportRequest& request, std::ostream& out, Services& services) override {
    const Chances chances = reckon(timeline_of(services), question_from(request.settings), services);
    if (services.stop_requested()) return;
    if (request.format == "json")
      write_json(chances, out);
    else
      write_text(chances, columns_from(request.settings), out);
  }
};

}  // namespace

class ChancesPlugin : public Plugin {
public:
  Analysis* analysis() override { return &analysis_; }
  Report* report() override { return &report_; }

private:
  ChanceAnalysis analysis_;
  ChanceReport report_;
};

}  // namespace lathbook::chances

LATHBOOK_PLUGIN(lathbook::chances::ChancesPlugin, .name = "chances", .version = "1.0",
                .kind = "analysis report",
                .summary = "reckons how likely dates and orders are where the evidence leaves them open",
                .provides = "chances@1", .needs = "timeline@4",
                .settings = "seed first second first-placement second-placement width");
