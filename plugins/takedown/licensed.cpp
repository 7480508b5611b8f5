#include "plugins/takedown/licensed.hpp"

#include <algorithm>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/text.hpp"

namespace lathbook::takedown {

namespace {

/// How one danger shows itself in a record, and what stands at the step.
struct Danger {
  const char* hazard;  ///< of choice list 'hazard'
  const char* called;
  const char* words;  ///< that name such a thing; a trailing * stands for any ending
  const char* classes;
  bool even_when_clear;
  const char* rule;
};

constexpr const char* kLive = "licensed people only; live until they prove it dead";
constexpr Danger kDangers[] = {
    {"gas", "gas", "gas gasolier gas-pipe", "", true, kLive},
    {"live electricity", "electricity", "wire wires wired wiring flex raceway conductor* switch fuse*",
     "wiring", true, kLive},
    {"structure and chimney", "structure or chimney",
     "chimney flue lintel trimmer bressummer joist* beam arch-bar", "wall partition roof stair hearth", false,
     "only when somebody qualified has said what it carries"},
    {"lead", "lead", "lead leadwork", "", false, "trained people only, as local code says"},
    {"asbestos", "asbestos", "asbestos* millboard lagging", "", false, "licensed people only"}};

bool fits(std::string_view word, std::string_view pattern) {
  if (!pattern.empty() && pattern.back() == '*') {
    pattern.remove_suffix(1);
    return word.substr(0, pattern.size()) == pattern;
  }
  return word == pattern;
}

// Words parted by anything but letters and hyphens.
std::vector<std::string> words_in(const std::string& text) {
  std::vector<std::string> words(1);
  for (const char c : fold(text)) {
    if ((c >= 'a' && c <= 'z') || c == '-')
      words.back() += c;
    else if (!words.back().empty())
      words.emplace_back();
  }
  return words;
}

bool any_fits(const std::vector<std::string>& words, const char* patterns) {
  for (const auto& pattern : split(patterns, ' '))
    if (!pattern.empty() &&
        std::any_of(words.begin(), words.end(), [&](const auto& word) { return fits(word, pattern); }))
      return true;
  return false;
}

// What names it: its own names and type, what it is made of, and the services that it belongs to. A
// description also tells of its neighbours, so it is no witness.
std::vector<std::string> naming(const Snapshot& archive, const RecordView& element) {
  std::string text = element.info.name + " " + element.text("element-type");
  for (const Statement* material : element.all("material")) text += " " + material->content.value;
  for (const Statement* stands : element.all("stands-in")) {
    if (stands->content.qualifier("role") != "serves") continue;
    const auto id = Uuid::parse(stands->content.value);
    if (const auto place = id ? archive.statements().record(*id) : std::nullopt) text += " " + place->name;
  }
  return words_in(text);
}

// "found", "tested clear" ...; empty when nothing was said of this element itself.
std::string status_of(const RecordView& element, std::string_view hazard) {
  for (const Statement* said : element.all("hazard"))
    if (said->content.value == hazard) return std::string(said->content.qualifier("status"));
  return {};
}

}  // namespace

std::string licensed_note(const Snapshot& archive, const RecordView& element) {
  const auto words = naming(archive, element);
  const std::string of_class = element.text("element-class");
  std::vector<std::pair<std::string, std::string>> notes;  // what it is, the rule
  for (const Danger& danger : kDangers) {
    const std::string status = status_of(element, danger.hazard);
    if (status == "tested clear" && !danger.even_when_clear) continue;
    if (status.empty() && !any_fits(words, danger.words) && !any_fits({of_class}, danger.classes)) continue;
    if (!notes.empty() && notes.back().second == danger.rule)
      notes.back().first += std::string(" and ") + danger.called;
    else
      notes.emplace_back(danger.called, danger.rule);
  }
  std::vector<std::string> told;
  for (const auto& [what, rule] : notes) told.push_back(what + ": " + rule);
  return join(told, "; ");
}

}  // namespace lathbook::takedown
