// An analysis with the name and needs that the build gives it; its result counts the results it was lent.
#include "core/plugin/descriptor.hpp"
#include "tests/plugin/broken/trace.hpp"

namespace lathbook::needy {

class NeedyPlugin : public Plugin, private Analysis {
public:
  Analysis* analysis() override { return this; }

private:
  AnalysisResult run(const Snapshot& archive, const AnalysisRequest& request, Services& services) override {
    test::leave_trace(TEST_NAME " ran");
    for (const auto& [name, value] : request.settings)
      if (name == "answer" && value == "nothing") return {};
    Timeline answer;
    answer.reading = archive.reading();
    answer.level = request.level;
    answer.statements_used = 1;
    const std::string needs = TEST_NEEDS;
    if (!needs.empty()) {
      const AnalysisResult* lent = services.result(needs.substr(0, needs.find('@')));
      if (lent != nullptr) answer.statements_used += std::get<Timeline>(*lent).statements_used;
    }
    return answer;
  }
};

}  // namespace lathbook::needy

LATHBOOK_PLUGIN(lathbook::needy::NeedyPlugin, .name = TEST_NAME, .version = "1.0", .kind = "analysis",
                .summary = "counts what it was lent", .provides = TEST_PROVIDES, .needs = TEST_NEEDS,
                .works_without = TEST_WITHOUT, .settings = TEST_SETTINGS);
