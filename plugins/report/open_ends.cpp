// What cannot be dated.
#include <algorithm>

#include "core/base/text.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

/// Widest dates told for a site.
constexpr std::size_t kMostWide = 3;
constexpr Day kWide = 20 * 366;

Day width_of(const Span& span) {
  return span.earliest.known && span.latest.known ? span.latest.day - span.earliest.day : 0;
}

std::string level_key(const Span& span) {
  const Level level = weaker(span);
  return level == Level::certain ? "certain" : level == Level::probable ? "probable" : "possible";
}

}  // namespace

void Builder::add_open_ends(const Site& site) {
  std::vector<std::string> undated;
  std::vector<Uuid> undated_ids;
  std::vector<std::size_t> wide;
  List more;
  for (const std::size_t at : site.items) {
    const Span& begins = item(at).begins;
    if (!is_thing(at)) continue;
    if (is_dated(begins)) {
      if (width_of(begins) > kWide) wide.push_back(at);
      continue;
    }
    undated.push_back(teller_.name(item(at).record.id));
    undated_ids.push_back(item(at).record.id);
    std::vector<int> scratch;
    Paragraph told = evidence(at);
    if (!relations(at, scratch).empty()) told.sentences.insert(told.sentences.begin(), put_in(at, {}));
    if (!told_[at] && !(told.sentences.empty() && told.points.empty())) {
      told.sentences.insert(told.sentences.begin(), as_sentence(teller_.name(item(at).record.id) + ":"));
      more.entries.push_back(std::move(told));
    }
    told_[at] = true;
  }
  if (!undated.empty())
    add(remark("open.undated",
               {{"n", static_cast<std::int64_t>(undated.size())}, {"names", listing(undated)}}));
  if (auto by_layers = told_by_layers(undated_ids)) add(std::move(*by_layers));
  add(std::move(more));
  std::stable_sort(wide.begin(), wide.end(), [&](std::size_t a, std::size_t b) {
    return width_of(item(a).begins) > width_of(item(b).begins);
  });
  std::vector<Sentence> told;
  for (std::size_t at = 0; at < wide.size() && at < kMostWide; ++at) {
    const Span& begins = item(wide[at]).begins;
    told.push_back(sentence(
        "open.wide", {{"thing", name_of(wide[at])}, {"when", when(begins)}, {"level", level_key(begins)}},
        cite_ends(begins)));
  }
  add(paragraph(std::move(told)));
  const bool asked = add_tasks(site);
  if (!asked && (!undated.empty() || !wide.empty())) add(remark("open.no-tasks"));
}

}  // namespace lathbook::report
