// The analysis 'labels' and its report: which room a label sends its component to.
#include <algorithm>

#include "core/plugin/descriptor.hpp"
#include "plugins/labels/reading.hpp"
#include "plugins/labels/write.hpp"

namespace lathbook::labels {

namespace {

class LabelAnalysis : public Analysis {
public:
  AnalysisResult run(const Snapshot& archive, const AnalysisRequest& request, Services& services) override {
    return read_labels(archive, request, services);
  }
};

class LabelReport : public Report {
public:
  std::vector<std::string> formats() const override { return {"text", "json"}; }

  void write(const Snapshot& archive, const ReportRequest& request, std::ostream& out,
             Services& services) override {
    AnalysisRequest wanted;
    wanted.scope = request.scope;
    wanted.level = request.level;
    wanted.settings = request.settings;
    const LabelReadings readings = read_labels(archive, wanted, services);
    const bool brief = std::any_of(request.settings.begin(), request.settings.end(), [](const auto& one) {
      return one.first == "brief" && one.second == "yes";
    });
    if (request.format == "json")
      write_json(archive, readings, out);
    else
      write_text(archive, readings, brief, out);
  }
};

}  // namespace

class LabelsPlugin : public Plugin {
public:
  Analysis* analysis() override { return &analysis_; }
  Report* report() override { return &report_; }

private:
  LabelAnalysis analysis_;
  LabelReport report_;
};

}  // namespace lathbook::labels

LATHBOOK_PLUGIN(lathbook::labels::LabelsPlugin, .name = "labels", .version = "1.0", .kind = "analysis report",
                .summary = "reads destination labels: which room each was meant for, and why",
                .provides = "labels@1", .settings = "text carrier date storeys left brief");
