// The plugin: reads marks as an analysis and tells of them as a report.
#include "core/plugin/descriptor.hpp"
#include "plugins/marks/analysis.hpp"
#include "plugins/marks/write.hpp"

namespace lathbook::marks {

namespace {

class MarkAnalysis : public Analysis {
public:
  AnalysisResult run(const Snapshot& archive, const AnalysisRequest& request, Services& services) override {
    return reading_of(archive, request, services);
  }
};

class MarkReport : public Report {
public:
  std::vector<std::string> formats() const override { return {"text", "json"}; }

  void write(const Snapshot& archive, const ReportRequest& request, std::ostream& out,
             Services& services) override {
    const auto reading = reading_of(archive, {request.scope, request.level, {}, request.settings}, services);
    if (services.stop_requested()) return;
    if (request.format == "json") {
      write_json(reading, out);
    } else {
      write_text(reading, out);
    }
  }
};

}  // namespace

class MarksPlugin : public Plugin {
public:
  Analysis* analysis() override { return &analysis_; }
  Report* report() override { return &report_; }

private:
  MarkAnalysis analysis_;
  MarkReport report_;
};

}  // namespace lathbook::marks

LATHBOOK_PLUGIN(lathbook::marks::MarksPlugin, .name = "marks", .version = "1.0", .kind = "analysis report",
                .summary = "reads makers' marks: who in the lists they may be of, and what dated codes say",
                .provides = "marks@1", .settings = "text dots list");
