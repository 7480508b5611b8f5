// The plugin 'sequence': what came after what, as a result for others and as a drawing, a page, text or JSON.

#include "core/base/xml_writer.hpp"
#include "core/plugin/descriptor.hpp"
#include "core/plugin/plugin.hpp"
#include "core/plugin/settings.hpp"
#include "plugins/sequence/gather.hpp"
#include "plugins/sequence/write.hpp"

namespace lathbook::sequence {

namespace {

struct Wishes {
  int steps = 1;
  std::size_t columns = 80;
  bool all = false;
  bool narrow = false;
  bool sources = false;
};

Wishes wishes_from(const Settings& settings) {
  Wishes wishes;
  for (const auto& [name, value] : settings) {
    if (name == "steps") wishes.steps = whole_number_setting(name, value, 0, 20);
    if (name == "width") wishes.columns = whole_number_setting<std::size_t>(name, value, 40, 400);
    if (name == "redundant" || name == "sources") {
      if (value != "yes" && value != "no") fail(ErrorKind::invalid, "setting '" + name + "' is yes or no");
      (name == "sources" ? wishes.sources : wishes.all) = value == "yes";
    }
    if (name == "shape") {
      if (value != "wide" && value != "narrow") fail(ErrorKind::invalid, "setting 'shape' is wide or narrow");
      wishes.narrow = value == "narrow";
    }
  }
  return wishes;
}

const Timeline& timeline_of(const Services& services) {
  return std::get<Timeline>(*services.result("timeline"));
}

class SequenceAnalysis : public Analysis {
public:
  AnalysisResult run(const Snapshot& archive, const AnalysisRequest& request, Services& services) override {
    return make_sequence(archive, timeline_of(services), wishes_from(request.settings).steps);
  }
};

class SequenceReport : public Report {
public:
  std::vector<std::string> formats() const override { return {"text", "svg", "html", "json"}; }

  void write(const Snapshot& archive, const ReportRequest& request, std::ostream& out,
             Services& services) override {
    const Wishes wishes = wishes_from(request.settings);
    const Sequence sequence = make_sequence(archive, timeline_of(services), wishes.steps);
    if (services.stop_requested()) return;
    if (request.format == "json")
      write_json(sequence, archive, out);
    else if (request.format == "text")
      write_text(sequence, archive, {wishes.all, wishes.sources, wishes.columns}, out);
    else if (request.format == "html")
      write_page(sequence, archive, wishes.all, out);
    else
      write_drawing(sequence, wishes, out);
  }

private:
  static void write_drawing(const Sequence& sequence, const Wishes& wishes, std::ostream& out) {
    if (sequence.things.size() > kMostDrawn)
      fail(ErrorKind::invalid, std::to_string(sequence.things.size()) +
                                   " things are too many for one drawing (" + std::to_string(kMostDrawn) +
                                   " at most); ask for a room");
    XmlWriter xml(out);
    const DrawingWishes drawing{wishes.all, {}, {}};
    if (wishes.narrow)
      draw_rows(sequence, drawing, xml);
    else
      draw_boxes(sequence, drawing, xml);
    xml.finish();
  }
};

}  // namespace

class SequencePlugin : public Plugin {
public:
  Analysis* analysis() override { return &analysis_; }
  Report* report() override { return &report_; }

private:
  SequenceAnalysis analysis_;
  SequenceReport report_;
};

}  // namespace lathbook::sequence

LATHBOOK_PLUGIN(lathbook::sequence::SequencePlugin, .name = "sequence", .version = "1.0",
                .kind = "analysis report",
                .summary = "draws what came after what in a place, names loops, leaves out what is redundant",
                .provides = "sequence@1", .needs = "timeline@4",
                .settings = "steps width redundant sources shape");
