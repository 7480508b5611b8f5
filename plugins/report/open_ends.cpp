// What cannot be dated, and what would settle it.
#include <algorithm>

#include "core/base/text.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

/// Tasks told for a site; the first of them help most.
constexpr std::size_t kMostTasks = 5;
/// Widest dates told for a site.
constexpr std::size_t kMostWide = 3;
constexpr Day kWide = 20 * 366;

std::string level_key(const Span& span) {
  const Level level = weaker(span);
  return level == Level::certain ? "certain" : level == Level::probable ? "probable" : "possible";
}

}  // namespace

/// What the date told of a record rests on: the source itself, or the statements behind its beginning.
std::vector<int> Builder::notes_on(const Uuid& id) {
  if (teller_.notes().source(id) != nullptr) return {teller_.notes().cite_source(id)};
  std::vector<int> notes;
  for (const TimelineItem& one : material_.timeline.items)
    if (one.record.id == id) add_notes(notes, teller_.cite(one.begins));
  for (const TimelineWorks& works : material_.timeline.works)
    if (works.record.id == id) add_notes(notes, teller_.cite(works.begins));
  return notes;
}

void Builder::add_open_ends(const Site& site) {
  std::vector<std::string> undated;
  std::vector<std::size_t> wide;
  for (const std::size_t at : site.items) {
    const Span& begins = item(at).begins;
    if (!is_thing(at)) continue;
    if (!is_dated(begins))
      undated.push_back(teller_.name(item(at).record.id));
    else if (begins.earliest.known && begins.latest.known && begins.latest.day - begins.earliest.day > kWide)
      wide.push_back(at);
  }
  if (!undated.empty())
    add(remark("open.undated",
               {{"n", static_cast<std::int64_t>(undated.size())}, {"names", listing(undated)}}));
  for (const std::size_t at : site.items)
    if (is_thing(at) && !is_dated(item(at).begins)) {
      std::vector<Sentence> told;
      std::vector<int> scratch;
      if (const std::string behind = relations(at, scratch); !behind.empty()) told.push_back(put_in(at, {}));
      for (Sentence& more : evidence(at)) told.push_back(std::move(more));
      if (!told.empty() && !told_[at]) {
        told.insert(told.begin(), as_sentence(teller_.name(item(at).record.id) + ":"));
        add(List{false, {paragraph(std::move(told))}});
      }
      told_[at] = true;
    }
  std::stable_sort(wide.begin(), wide.end(), [&](std::size_t a, std::size_t b) {
    const auto width = [&](std::size_t at) {
      return item(at).begins.latest.day - item(at).begins.earliest.day;
    };
    return width(a) > width(b);
  });
  std::vector<Sentence> told;
  for (std::size_t at = 0; at < wide.size() && at < kMostWide; ++at) {
    const Span& begins = item(wide[at]).begins;
    told.push_back(sentence("open.wide",
                            {{"thing", teller_.name(item(wide[at]).record.id)},
                             {"when", when(begins)},
                             {"level", level_key(begins)}},
                            teller_.cite(begins)));
  }
  add(paragraph(std::move(told)));
  List tasks{true, {}};
  for (const TimelineTask& task : material_.timeline.tasks) {
    if (tasks.entries.size() == kMostTasks) break;
    const bool given = std::all_of(task.records.begin(), task.records.end(),
                                   [&](const Uuid& id) { return teller_.record(id).has_value(); });
    const bool here = !task.records.empty() && (is_of_site(site, task.records.front()) ||
                                                (site.at_large && !is_of_some_site(task.records.front())));
    if (!given || !here) continue;
    Sentence one = as_sentence(foreign(task.words));
    for (const Uuid& id : task.records) add_notes(one.notes, notes_on(id));
    std::vector<Sentence> entry{one};
    entry.push_back(remark("open.gain", {{"dates", static_cast<std::int64_t>(task.narrows + 0.5)},
                                         {"years", static_cast<std::int64_t>(task.years + 0.5)}}));
    for (const ReasonStep& step : task.on) {
      const auto said = teller_.statement(step.statement);
      if (!step.words.empty())
        entry.push_back(as_sentence(foreign(step.words), said ? teller_.cite(*said) : std::vector<int>{}));
    }
    tasks.entries.push_back(paragraph(std::move(entry)));
  }
  if (tasks.entries.empty()) {
    if (!undated.empty() || !wide.empty()) add(remark("open.no-tasks"));
    return;
  }
  add(remark("open.tasks"));
  add(std::move(tasks));
  chapter_.blocks.emplace_back(Warning{paragraph({remark("open.caution")})});
}

}  // namespace lathbook::report
