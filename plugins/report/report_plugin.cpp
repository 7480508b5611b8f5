// The report 'report': the preservation report of a room, several, or a building, printed or to be edited.

#include "core/base/text.hpp"
#include "core/plugin/descriptor.hpp"
#include "plugins/report/build.hpp"
#include "plugins/report/write.hpp"

namespace lathbook::report {

namespace {

std::vector<std::string> codes_in(const std::string& value) {
  std::vector<std::string> codes;
  for (const std::string& code : split(value, ','))
    if (!trim(code).empty()) codes.emplace_back(trim(code));
  return codes;
}

Options options_from(const Settings& settings) {
  Options options;
  for (const auto& [name, value] : settings) {
    if (name == "order") {
      if (value != "history-first" && value != "description-first")
        fail(ErrorKind::invalid, "setting 'order' is history-first or description-first");
      options.description_first = value == "description-first";
    } else if (name == "pictures") {
      if (value != "yes" && value != "no") fail(ErrorKind::invalid, "setting 'pictures' is yes or no");
      options.pictures = value == "yes";
    } else if (name == "rooms") {
      options.rooms = codes_in(value);
    } else if (name == "narrower") {
      options.narrower = codes_in(value);
    }
  }
  return options;
}

class PreservationReport : public Report {
public:
  std::vector<std::string> formats() const override { return {"html", "odt"}; }

  void write(const Snapshot& archive, const ReportRequest& request, std::ostream& out,
             Services& services) override {
    if (request.scope == Uuid{})
      fail(ErrorKind::invalid, "name the building or room that the report is about");
    const Options options = options_from(request.settings);
    const auto& timeline = std::get<Timeline>(*services.result("timeline"));
    const AnalysisResult* layers = services.result("finishes");
    services.progress(0, 2);
    const Material material{archive, timeline,
                            layers == nullptr ? nullptr : std::get_if<FinishLayers>(layers),
                            options.pictures ? &services.files() : nullptr, request.leave_out};
    const Document document = Builder(material, options).build();
    services.progress(1, 2);
    if (services.stop_requested()) return;
    if (request.format == "odt")
      write_odt(document, out);
    else
      write_html(document, out);
    services.progress(2, 2);
  }
};

}  // namespace

class ReportPlugin : public Plugin {
public:
  Report* report() override { return &report_; }

private:
  PreservationReport report_;
};

}  // namespace lathbook::report

LATHBOOK_PLUGIN(lathbook::report::ReportPlugin, .name = "report", .version = "1.0", .kind = "report",
                .summary = "writes the preservation report of a room or building, to print or to edit",
                .needs = "timeline@4 finishes@1", .works_without = "finishes",
                .settings = "order pictures rooms narrower");
