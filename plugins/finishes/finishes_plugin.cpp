// The plugin 'finishes': an analysis of layers of paint, and the schedule that shows it.

#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/plugin/descriptor.hpp"
#include "plugins/finishes/analysis.hpp"
#include "plugins/finishes/write.hpp"

namespace lathbook::finishes {

namespace {

class FinishAnalysis : public Analysis {
public:
  AnalysisResult run(const Snapshot& archive, const AnalysisRequest& request, Services& services) override {
    return layers_of(archive, request, services);
  }
};

struct Form {
  bool narrow = false;
  std::size_t columns = 80;
};

Form form_from(const Settings& settings) {
  Form form;
  for (const auto& [name, value] : settings) {
    if (name != "width") continue;
    if (value == "narrow" || value == "wide") {
      form.narrow = value == "narrow";
      continue;
    }
    const auto columns = number_in<std::size_t>(value);
    if (!columns || *columns < 40 || *columns > 400)
      fail(ErrorKind::invalid,
           "setting 'width' is wide or narrow, or for text a number of columns from 40 to 400");
    form.columns = *columns;
  }
  return form;
}

class FinishSchedule : public Report {
public:
  std::vector<std::string> formats() const override { return {"text", "svg", "json"}; }

  void write(const Snapshot& archive, const ReportRequest& request, std::ostream& out,
             Services& services) override {
    const Form form = form_from(request.settings);
    const FinishLayers layers =
        layers_of(archive, {request.scope, request.level, {}, request.settings}, services);
    if (services.stop_requested()) return;
    if (request.format == "svg")
      write_svg(layers, out, form.narrow);
    else if (request.format == "json")
      write_json(layers, out);
    else
      write_text(layers, out, form.columns);
  }
};

}  // namespace

class FinishesPlugin : public Plugin {
public:
  Analysis* analysis() override { return &analysis_; }
  Report* report() override { return &schedule_; }

private:
  FinishAnalysis analysis_;
  FinishSchedule schedule_;
};

}  // namespace lathbook::finishes

LATHBOOK_PLUGIN(lathbook::finishes::FinishesPlugin, .name = "finishes", .version = "1.0",
                .kind = "analysis report",
                .summary = "lines up layers of paint and tells what was put in after which coat",
                .provides = "finishes@1", .settings = "reference width");
