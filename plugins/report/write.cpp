// Words that both forms put to the tree.
#include "plugins/report/write.hpp"

#include <optional>

#include "plugins/report/phrases.hpp"

namespace lathbook::report {

std::string figure_words(const CitedPlace& place) {
  return phrase("figure.place", {{"n", std::to_string(place.figure)}, {"ring", std::int64_t{place.ring}}});
}

namespace {

std::string sort_words(Sort sort) {
  switch (sort) {
    case Sort::primary:
      return phrase("bibliography.primary");
    case Sort::oral:
      return phrase("bibliography.oral");
    case Sort::survey:
      return phrase("bibliography.survey");
    default:
      return phrase("bibliography.secondary");
  }
}

}  // namespace

std::vector<KindOfSources> by_kind(const std::vector<Entry>& entries) {
  std::vector<KindOfSources> kinds;
  std::optional<Sort> sort;
  for (const Entry& entry : entries) {
    if (sort != entry.sort) kinds.push_back({sort_words(entry.sort), {}});
    sort = entry.sort;
    kinds.back().entries.push_back(entry);
  }
  return kinds;
}

std::string figure_line(const Figure& figure) {
  return phrase("figure.number", {{"n", std::to_string(figure.number)}}) + ". " + figure.title;
}

std::string table_line(const Table& table) {
  return phrase("table.number", {{"n", std::to_string(table.number)}}) + ". " + table.caption;
}

}  // namespace lathbook::report
