// Gathers bars, bands and ticks of the chart.
#include "plugins/sheet/draw_model.hpp"

#include <algorithm>
#include <limits>
#include <map>

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "plugins/sheet/phrases.hpp"

namespace lathbook::sheet {

namespace {

std::optional<Day> day_of(const Bound& bound) {
  return bound.known ? std::optional<Day>(bound.day) : std::nullopt;
}

Level weaker(const Span& span) {
  Level level = Level::certain;
  for (const Bound* bound : {&span.earliest, &span.latest})
    if (bound->known) level = std::max(level, bound->level);
  return level;
}

std::string letters(std::size_t number) {
  std::string word;
  for (++number; number > 0; number = (number - 1) / 26)
    word.insert(word.begin(), static_cast<char>('a' + (number - 1) % 26));
  return word;
}

/// Properties whose value is a dated source that shows or records the thing.
constexpr std::string_view shown_by[] = {"seen-in",     "uncovered-in", "as-built-in", "billed-in",
                                         "absent-from", "not-yet-in",   "gone-by"};

/// Middle of the days that a source's own date allows.
std::optional<Day> middle_of(const Statement& dated) {
  const auto date = Edtf::try_parse(edtf_of(dated.content));
  if (!date || !date->earliest() || !date->latest()) return std::nullopt;
  return *date->earliest() + (*date->latest() - *date->earliest()) / 2;
}

std::vector<Tick> ticks_of(const std::vector<TimelineItem>& items, Teller& teller) {
  std::map<std::pair<Day, Uuid>, Statement> found;
  for (const TimelineItem& item : items)
    for (const std::string_view property : shown_by)
      for (const Statement& statement : teller.said(item.record.id, property)) {
        const auto source = Uuid::parse(statement.content.value);
        const auto info = source ? teller.record(*source) : std::nullopt;
        if (!info) continue;
        const RecordView view = RecordView::read(teller.reader(), *info);
        const Statement* dated = view.best("source-date");
        const auto day = dated ? middle_of(*dated) : std::nullopt;
        if (day) found.emplace(std::make_pair(*day, *source), *dated);
      }
  std::vector<Tick> ticks;
  for (const auto& [key, dated] : found) {
    Tick tick;
    tick.letter = letters(ticks.size());
    tick.day = key.first;
    tick.source = key.second;
    tick.sentence.parts = {{capital(teller.name(key.second)) + ".", std::nullopt, true}};
    tick.sentence.notes = teller.cite(dated);
    ticks.push_back(std::move(tick));
  }
  return ticks;
}

}  // namespace

Drawing drawing_of(const Timeline& timeline, const std::vector<TimelineItem>& items, Teller& teller) {
  Drawing drawing;
  Day first = std::numeric_limits<Day>::max();
  Day last = timeline.reading.known_day;
  const auto reach = [&](std::optional<Day> day) {
    if (!day) return;
    first = std::min(first, *day);
    last = std::max(last, *day);
  };
  for (std::size_t at = 0; at < items.size(); ++at) {
    const TimelineItem& item = items[at];
    if (!item.begins.earliest.known && !item.begins.latest.known) continue;
    drawing.bars.push_back({at, day_of(item.begins.earliest), day_of(item.begins.latest),
                            day_of(item.ends.earliest), day_of(item.ends.latest), weaker(item.begins),
                            weaker(item.ends)});
    for (const Span* span : {&item.begins, &item.ends})
      for (const Bound* bound : {&span->earliest, &span->latest}) reach(day_of(*bound));
  }
  for (const TimelinePhase& phase : timeline.phases) {
    const auto info = teller.record(phase.record.id);
    if (!info) continue;
    drawing.bands.push_back(
        {phase.number, foreign(info->name), day_of(phase.opens.earliest), day_of(phase.opens.latest)});
    reach(day_of(phase.opens.earliest));
    reach(day_of(phase.opens.latest));
  }
  drawing.ticks = ticks_of(items, teller);
  for (const Tick& tick : drawing.ticks) reach(tick.day);
  drawing.first = std::min(first, last);
  drawing.last = last;
  return drawing;
}

}  // namespace lathbook::sheet
