// Reads the plan behind the work from the statements about its campaign.
#include <algorithm>
#include <set>

#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/view/plain_words.hpp"
#include "core/view/scope.hpp"
#include "plugins/takedown/write.hpp"

namespace lathbook::takedown {

namespace {

std::vector<std::string> words_of(const Snapshot& archive, const RecordView& campaign, const char* property,
                                  std::initializer_list<const char*> details, bool with_author) {
  std::vector<std::string> words;
  for (const Statement* statement : campaign.all(property)) {
    const Content& said = statement->content;
    std::string text = said.value;
    if (const auto id = Uuid::parse(said.value))
      if (const auto record = archive.statements().record(*id)) text = record->name;
    std::vector<std::string> extra;
    for (const char* detail : details)
      if (const auto value = said.qualifier(detail); !value.empty())
        extra.push_back(std::string(detail) + ": " + std::string(value));
    if (!extra.empty()) text += " (" + join(extra, "; ") + ")";
    if (const auto done = said.qualifier("done"); done == "yes")
      text += ": done";
    else if (std::string_view(property) == "record-before")
      text += ": NOT YET DONE";
    if (with_author && said.author)
      if (const auto author = archive.statements().record(*said.author))
        text = without_full_stop(std::move(text)) + ", says " + author->name;
    words.push_back(std::move(text));
  }
  return words;
}

}  // namespace

Undertaking undertaking_of(const Snapshot& archive, const Uuid& scope) {
  Undertaking plan;
  const auto places = bearing_on(archive, {scope});
  archive.each(Kind::campaign, [&](const RecordView& campaign) {
    if (campaign.best("plan-reason") == nullptr) return;
    bool here = false;
    for (const Statement* of : campaign.all("campaign-of")) {
      const auto place = Uuid::parse(of->content.value);
      here = here || (place && places.count(*place) != 0);
    }
    if (!here) return;
    plan = {};
    plan.campaign = campaign.info;
    plan.reasons = words_of(archive, campaign, "plan-reason", {}, false);
    plan.alternatives = words_of(archive, campaign, "alternative", {}, false);
    plan.responsible = words_of(archive, campaign, "responsible", {"for"}, false);
    plan.permissions = words_of(archive, campaign, "permission", {"number", "conditions", "on"}, false);
    plan.record_first = words_of(archive, campaign, "record-before", {}, false);
    plan.volunteer_tasks = words_of(archive, campaign, "volunteer-task", {}, true);
  });
  return plan;
}

namespace {

void add_steps(const RecordView& record, std::vector<RepairStep>& steps) {
  for (const Statement* statement : record.all("repair-step")) {
    const Content& said = statement->content;
    RepairStep step;
    step.order = number_in<int>(said.qualifier("order")).value_or(0);
    step.words = said.value;
    step.product = said.qualifier("product");
    step.each = said.qualifier("each");
    step.waits = std::max(0.0, number_in<double>(said.qualifier("waits")).value_or(0));
    steps.push_back(std::move(step));
  }
}

}  // namespace

std::vector<RepairStep> repair_steps(const Snapshot& archive, const WorkOrder& order,
                                     const Undertaking& plan) {
  std::vector<RepairStep> steps;
  if (const auto scope = archive.find(order.scope.id)) add_steps(*scope, steps);
  if (steps.empty() && plan.campaign.id != Uuid{})
    if (const auto works = archive.find(plan.campaign.id)) add_steps(*works, steps);
  std::stable_sort(steps.begin(), steps.end(),
                   [](const RepairStep& a, const RepairStep& b) { return a.order < b.order; });
  return steps;
}

}  // namespace lathbook::takedown
