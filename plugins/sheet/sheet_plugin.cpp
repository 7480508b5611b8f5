// The report 'sheet': the phase history of a room or building as a page, as text or as JSON.

#include "core/base/number.hpp"
#include "core/plugin/descriptor.hpp"
#include "plugins/sheet/content.hpp"
#include "plugins/sheet/write.hpp"

namespace lathbook::sheet {

namespace {

std::size_t columns_from(const std::string& value) {
  const auto columns = number_in<std::size_t>(value);
  if (!columns || *columns < 40 || *columns > 400)
    fail(ErrorKind::invalid, "setting 'width' is a number of columns from 40 to 400");
  return *columns;
}

bool yes_no_from(const std::string& value) {
  if (value != "yes" && value != "no") fail(ErrorKind::invalid, "setting 'why' is yes or no");
  return value == "yes";
}

class PhaseSheet : public Report {
public:
  std::vector<std::string> formats() const override { return {"html", "text", "json"}; }

  void write(const Snapshot& archive, const ReportRequest& request, std::ostream& out,
             Services& services) override {
    if (request.scope == Uuid{})
      fail(ErrorKind::invalid, "name the room or building whose history is wanted");
    std::size_t columns = 80;
    bool reasons = false;
    for (const auto& [name, value] : request.settings) {
      if (name == "width") columns = columns_from(value);
      if (name == "why") reasons = yes_no_from(value);
    }
    const auto& timeline = std::get<Timeline>(*services.result("timeline"));
    services.progress(0, 2);
    const Sheet sheet = build_sheet(archive, timeline, request.leave_out);
    services.progress(1, 2);
    if (services.stop_requested()) return;
    if (request.format == "json")
      write_json(sheet, out);
    else if (request.format == "text")
      write_text(sheet, out, columns, reasons);
    else
      write_html(sheet, out);
    services.progress(2, 2);
  }
};

}  // namespace

class SheetPlugin : public Plugin {
public:
  Report* report() override { return &sheet_; }

private:
  PhaseSheet sheet_;
};

}  // namespace lathbook::sheet

LATHBOOK_PLUGIN(lathbook::sheet::SheetPlugin, .name = "sheet", .version = "1.0", .kind = "report",
                .summary = "writes the phase history of a room or building with a chart, notes and reasons",
                .needs = "timeline@4", .settings = "width why");
