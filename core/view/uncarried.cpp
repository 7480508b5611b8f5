// Counts and tells what a format could not carry.
#include "core/view/uncarried.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include "core/evidence/registry.hpp"

namespace lathbook {

void Uncarried::add(const Content& content) {
  const Property* property = Registry::standard().find(content.property);
  add(property == nullptr ? "of a newer registry" : property->label);
}

void Uncarried::add(const std::string& what, std::uint64_t count) {
  if (count == 0) return;
  counts_[what] += count;
  total_ += count;
}

std::string Uncarried::sentence(std::string_view format) const {
  if (total_ == 0) return {};
  constexpr std::size_t kNamed = 8;
  std::vector<std::pair<std::string, std::uint64_t>> ordered(counts_.begin(), counts_.end());
  std::stable_sort(ordered.begin(), ordered.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  std::string words = std::string(format) + " has no place for " + std::to_string(total_) +
                      (total_ == 1 ? " statement: " : " statements: ");
  for (std::size_t i = 0; i < std::min(kNamed, ordered.size()); ++i) {
    words += (i == 0 ? "" : ", ") + ordered[i].first + " (" + std::to_string(ordered[i].second) + ")";
  }
  if (ordered.size() > kNamed) words += " and " + std::to_string(ordered.size() - kNamed) + " more kinds";
  return words + "; the exchange document (write-out) and the crm export carry them";
}

}  // namespace lathbook
