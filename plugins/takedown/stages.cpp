// Steps drawn together into the lines of a sheet.
#include <algorithm>
#include <optional>
#include <utility>

#include "core/base/text.hpp"
#include "core/view/record_view.hpp"
#include "plugins/takedown/write.hpp"

namespace lathbook::takedown {

namespace {

// The number at the end of a code and what stands before it.
std::pair<std::string, std::optional<long>> parted(const std::string& code) {
  std::size_t at = code.size();
  while (at > 0 && code[at - 1] >= '0' && code[at - 1] <= '9') --at;
  if (at == code.size() || code.size() - at > 9) return {code, std::nullopt};
  return {code.substr(0, at), std::stol(code.substr(at))};
}

// What could go already now and stands in none of these lines.
std::vector<RecordInfo> elsewhere(const WorkStep& step, const std::vector<RecordInfo>& here) {
  std::vector<RecordInfo> later;
  for (const auto& one : step.instead)
    if (std::none_of(here.begin(), here.end(), [&](const RecordInfo& same) { return same.id == one.id; }))
      later.push_back(one);
  return later;
}

std::string names(const std::vector<RecordInfo>& records) {
  std::vector<std::string> words;
  for (const auto& record : records) words.push_back(display(record));
  return join(words, "; ");
}

}  // namespace

std::string codes(const std::vector<RecordInfo>& records) {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < records.size();) {
    const auto [stem, first] = parted(records[i].code);
    std::size_t last = i;
    while (first && last + 1 < records.size()) {
      const auto next = parted(records[last + 1].code);
      if (next.first != stem || next.second != *first + static_cast<long>(last + 1 - i)) break;
      ++last;
    }
    if (last >= i + 2) {
      words.push_back(records[i].code + " to " + records[last].code);
    } else {
      for (std::size_t k = i; k <= last; ++k) words.push_back(records[k].code);
    }
    i = last + 1;
  }
  return join(words, ", ");
}

std::vector<Stage> stages_of(const std::vector<WorkStep>& steps) {
  std::vector<Stage> stages;
  std::vector<std::size_t> begins;
  std::size_t level = 0;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const WorkStep& step = steps[i];
    const bool goes_on = !stages.empty() && level == step.level && stages.back().note == step.note &&
                         !stages.back().together && step.things.size() == 1 &&
                         stages.back().unsupported.empty() && step.unsupported.empty();
    if (goes_on) {
      stages.back().last = i + 1;
      stages.back().things.push_back(step.things.front());
      continue;
    }
    begins.push_back(i);
    stages.push_back({i + 1, i + 1, step.things, step.unsupported, {}, step.note, step.things.size() > 1});
    level = step.level;
  }
  for (std::size_t k = 0; k < stages.size(); ++k) {
    auto soon = stages[k].things;
    if (k + 1 < stages.size())
      soon.insert(soon.end(), stages[k + 1].things.begin(), stages[k + 1].things.end());
    stages[k].instead = elsewhere(steps[begins[k]], soon);
  }
  return stages;
}

std::string numbers(const Stage& stage) {
  if (stage.first == stage.last) return std::to_string(stage.first);
  return std::to_string(stage.first) + " to " + std::to_string(stage.last);
}

std::string things_of(const Stage& stage) {
  if (stage.things.size() < 2 || stage.together) return names(stage.things);
  auto things = stage.things;
  std::sort(things.begin(), things.end(),
            [](const RecordInfo& a, const RecordInfo& b) { return compare_for_people(a.code, b.code) < 0; });
  return (things.size() <= 3 ? names(things) : codes(things)) + " (in any order)";
}

std::vector<std::string> blocked_lines(const WorkOrder& order) {
  std::vector<std::pair<RecordInfo, std::vector<RecordInfo>>> by_kept;
  for (const auto& block : order.blocked) {
    auto at = std::find_if(by_kept.begin(), by_kept.end(),
                           [&](const auto& one) { return one.first.id == block.kept.id; });
    if (at == by_kept.end()) at = by_kept.insert(at, {block.kept, {}});
    at->second.push_back(block.thing);
  }
  std::vector<std::string> lines;
  for (const auto& [kept, things] : by_kept)
    lines.push_back(codes(things) + " cannot come away while " + display(kept) + " stays as evidence");
  return lines;
}

bool is_of_the_past(const WorkWarning& warning) {
  return warning.taken.id != Uuid{};
}

std::string circle_words(const WorkCircle& circle) {
  std::vector<std::string> why;
  for (const auto& reason : circle.reasons) why.push_back(reason.why.words);
  return names(circle.things) + " hold one another: " + join(why, "; ") +
         ". They come away as one, or one of these relations is wrong: look again";
}

std::string practice(const WorkOrder& order) {
  std::string words;
  if (order.flat)
    words =
        "What lies flat is lifted from an edge that is free already inward, and relaid the other way; its "
        "pieces do not bear one another (common practice, no source).";
  if (order.flat && !order.upright) return words;
  return (words.empty() ? words : words + " ") +
         "Loose tile comes off from the top down, so that nothing falls on what remains and each upper edge "
         "is "
         "free; relaying runs from the bottom up (common practice, no source).";
}

}  // namespace lathbook::takedown
