// The analysis plugin 'timeline': what the host loads.
#include "core/plugin/descriptor.hpp"
#include "plugins/timeline/result.hpp"

namespace lathbook::timeline {

namespace {

class TimelineAnalysis : public Analysis {
public:
  AnalysisResult run(const Snapshot& archive, const AnalysisRequest& request, Services& services) override {
    // What is withheld stands in the result; whoever prints it says so, once.
    return make_timeline(archive, request, services);
  }
};

}  // namespace

/// Holds the one analysis.
class TimelinePlugin : public Plugin {
public:
  Analysis* analysis() override { return &analysis_; }

private:
  TimelineAnalysis analysis_;
};

}  // namespace lathbook::timeline

LATHBOOK_PLUGIN(lathbook::timeline::TimelinePlugin, .name = "timeline", .version = "1.0", .kind = "analysis",
                .summary = "dates every element and finish and sorts them into phases, with reasons",
                .provides = "timeline@4", .settings = "answer tasks all-tasks links");
