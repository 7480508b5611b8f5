// The report of an export.
#include "plugins/crm/tally.hpp"

#include <algorithm>
#include <utility>

namespace lathbook::crm {

namespace {

/// "1 statement is", "12 statements are".
std::string statements(std::uint64_t count) {
  return std::to_string(count) + (count == 1 ? " statement is" : " statements are");
}

std::string commonest(const std::map<std::string, std::uint64_t, std::less<>>& counts) {
  constexpr std::size_t kShown = 6;
  std::vector<std::pair<std::uint64_t, std::string>> order;
  for (const auto& [label, count] : counts) order.emplace_back(count, label);
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::string text;
  for (std::size_t at = 0; at < std::min(order.size(), kShown); ++at)
    text += (at == 0 ? "'" : ", '") + order[at].second + "' " + std::to_string(order[at].first);
  if (order.size() > kShown) text += ", and " + std::to_string(order.size() - kShown) + " more";
  return text;
}

}  // namespace

std::vector<std::string> Tally::sentences() const {
  std::vector<std::string> told;
  if (dropped != 0)
    told.push_back(statements(dropped) + " left out, for naming what this export may not show");
  std::uint64_t formless = 0;
  for (const auto& [label, count] : without_form) formless += count;
  if (formless != 0)
    told.push_back(
        statements(formless) +
        " written as claims only, because CIDOC CRM has no plain form for them: " + commonest(without_form));
  if (doubtful != 0)
    told.push_back(statements(doubtful) +
                   " written as claims only, because the evidence is doubtful, contested or set aside");
  if (superseded != 0)
    told.push_back(statements(superseded) + " kept as claims that were replaced or withdrawn");
  if (leaning != 0)
    told.push_back(
        std::to_string(leaning) +
        " bounds of dates are left out, because they hold only if a conflicting statement is set aside");
  if (files != 0)
    told.push_back(std::to_string(files) + (files == 1 ? " file is" : " files are") +
                   " named by SHA-256 and not enclosed");
  return told;
}

}  // namespace lathbook::crm
