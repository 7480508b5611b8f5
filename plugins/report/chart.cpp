// Drawings of a report: the phases of a site, the building as a whole, coats of paint side by side.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "core/base/calendar.hpp"
#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "plugins/report/build.hpp"
#include "plugins/report/ink.hpp"

namespace lathbook::report {

namespace {

constexpr double kWide = 1700;  ///< a column of text on A4 and Letter, in tenths of a millimetre
constexpr double kNames = 560;  ///< for the names at the left
constexpr double kRow = 48;
constexpr double kBar = 26;
constexpr double kLetter = 27;
constexpr double kLine = 29;  ///< from line to line of a name that is wrapped
constexpr std::size_t kRows = 18;
constexpr std::array kLevels{Level::certain, Level::probable, Level::possible};

/// Days against the width of the paper.
struct Scale {
  Day first = std::numeric_limits<Day>::max();
  Day last = std::numeric_limits<Day>::min();
  void reach(const Bound& bound) {
    if (!bound.known) return;
    first = std::min(first, bound.day);
    last = std::max(last, bound.day);
  }
  void reach(const Span& span) {
    reach(span.earliest);
    reach(span.latest);
  }
  bool empty() const { return first > last; }
  double x(Day day) const {
    const double days = std::max(1.0, static_cast<double>(last - first) * 1.08);
    const double from = static_cast<double>(first) - days * 0.04;
    return std::clamp(kNames + (static_cast<double>(day) - from) / days * (kWide - kNames - 10), kNames,
                      kWide - 10);
  }
};

void axis(Ink& ink, const Scale& scale, double top, double bottom) {
  ink.line(kNames, bottom, kWide - 10, bottom, 4);
  const std::int64_t from = civil_from_days(scale.first).year;
  const std::int64_t to = civil_from_days(scale.last).year;
  std::int64_t step = 1;
  for (const std::int64_t next : {2, 5, 10, 20, 25, 50, 100, 200, 500, 1000})
    if ((to - from) / step > 8) step = next;
  for (std::int64_t year = from - from % step; year <= to; year += step) {
    const Day day = days_from_civil(year, 1, 1);
    if (scale.x(day) <= kNames + 1) continue;
    ink.line(scale.x(day), top, scale.x(day), bottom + 12, 1, "4 10");
    ink.words(std::clamp(scale.x(day), kNames + 35, kWide - 45), bottom + 46, kLetter, edtf_year(year),
              "middle");
  }
}

void bands(Ink& ink, const Scale& scale, const Timeline& timeline, double bottom) {
  double last = 0;
  for (const TimelinePhase& phase : timeline.phases) {
    if (!is_dated(phase.opens)) continue;
    const double from =
        scale.x(phase.opens.earliest.known ? phase.opens.earliest.day : phase.opens.latest.day);
    const double sure = scale.x(phase.opens.latest.known ? phase.opens.latest.day : phase.opens.earliest.day);
    ink.line(from, 58, from, bottom, 3.4);
    if (sure - from > 6) ink.line(sure, 58, sure, bottom, 2, "14 8");
    const double middle = std::clamp(std::max(from, last + 62), kNames + 28, kWide - 40);
    last = middle;
    ink.circle(middle, 30, 26, "#ffffff");
    ink.words(middle, 41, 32, std::to_string(phase.number), "middle");
  }
  ink.words(0, 41, kLetter, phrase("chart.phase"));
}

std::vector<std::string> name_lines(const std::string& name) {
  return Ink::lines(name, kNames - 14, kLetter, 2);
}

/// A row is higher by a line where its name is wrapped.
double row_height(const std::string& name) {
  return kRow + (name_lines(name).size() > 1 ? kLine : 0);
}

void row_name(Ink& ink, double y, const std::string& name) {
  double base = y + 34;
  for (const std::string& line : name_lines(name)) {
    ink.words(0, base, kLetter, line);
    base += kLine;
  }
}

/// A dated source: a pin with a white edge, so that it shows on a solid bar, too.
void pin(Ink& ink, double x, double y) {
  ink.box(x - 6, y + 2, 12, kRow - 6, "#ffffff");
  ink.line(x, y + 8, x, y + kRow - 5, 3.4);
  ink.circle(x, y + 9, 7, "#ffffff");
}

/// What the bars, lines and pins mean; the place below it.
double key(Ink& ink, double top, bool with_pins) {
  for (std::size_t at = 0; at < kLevels.size(); ++at) {
    const double y = top + 44 * static_cast<double>(at);
    const std::string level = at == 0 ? phrase("certain") : at == 1 ? phrase("probable") : phrase("possible");
    ink.box(kNames, y, 70, 28, Ink::solid(kLevels[at]), 2.2);
    ink.words(kNames + 86, y + 24, kLetter, phrase("chart.surely", {{"level", level}}));
    ink.box(kNames + 570, y, 70, 28, Ink::hatch(kLevels[at]), 2.2);
    ink.words(kNames + 656, y + 24, kLetter, phrase("chart.perhaps", {{"level", level}}));
  }
  ink.words(0, top + 24, kLetter, phrase("chart.key"));
  const double y = top + 44 * 3;
  ink.line(kNames + 35, y - 4, kNames + 35, y + 32, 3.4);
  ink.words(kNames + 86, y + 24, kLetter, phrase("chart.opens"));
  ink.line(kNames + 605, y - 4, kNames + 605, y + 32, 2, "14 8");
  ink.words(kNames + 656, y + 24, kLetter, phrase("chart.opens-latest"));
  if (!with_pins) return y + 44;
  pin(ink, kNames + 35, y + 38);
  ink.words(kNames + 86, y + 68, kLetter, phrase("chart.pin"));
  return y + 88;
}

void span_bar(Ink& ink, const Scale& scale, const Span& begins, const Span& ends, double y) {
  const double left = begins.earliest.known ? scale.x(begins.earliest.day) : kNames;
  const double right = ends.latest.known ? scale.x(ends.latest.day) : kWide - 10;
  const bool open_left = !begins.earliest.known;
  const bool open_right = !ends.latest.known;
  const Level level = std::max(weaker(begins), weaker(ends));
  if (begins.latest.known && ends.earliest.known && begins.latest.day < ends.earliest.day) {
    const double from = scale.x(begins.latest.day);
    const double to = scale.x(ends.earliest.day);
    if (from - left > 1) ink.bar(left, from, y, kBar, Ink::hatch(weaker(begins)), open_left, false);
    if (right - to > 1) ink.bar(to, right, y, kBar, Ink::hatch(weaker(ends)), false, open_right);
    ink.bar(from, to, y, kBar, Ink::solid(level), false, open_right && right - to <= 1);
  } else {
    ink.bar(left, right, y, kBar, Ink::hatch(level), open_left, open_right);
  }
}

Figure figure(std::string title, std::string description, const Ink& ink, double height) {
  Figure made;
  made.title = std::move(title);
  made.description = std::move(description);
  made.media_type = "image/svg+xml";
  made.bytes = ink.svg(height);
  made.width = ink.width() / 10;
  made.height = height / 10;
  return made;
}

}  // namespace

void Builder::add_phase_charts(const Site& site) {
  std::vector<std::size_t> rows;
  for (const std::size_t at : site.items)
    if (is_thing(at) && is_dated(item(at).begins)) rows.push_back(at);
  const std::size_t parts = (rows.size() + kRows - 1) / kRows;
  for (std::size_t part = 0; part < parts; ++part) {
    const std::size_t first = part * rows.size() / parts;
    const std::size_t end = (part + 1) * rows.size() / parts;
    const std::string which = parts == 1 ? std::string()
                                         : phrase("chart.part", {{"n", static_cast<std::int64_t>(part + 1)},
                                                                 {"all", static_cast<std::int64_t>(parts)}});
    if (auto chart = phase_chart(site,
                                 {rows.begin() + static_cast<std::ptrdiff_t>(first),
                                  rows.begin() + static_cast<std::ptrdiff_t>(end)},
                                 which))
      add(std::move(*chart));
  }
}

std::optional<Figure> Builder::phase_chart(const Site& site, const std::vector<std::size_t>& rows,
                                           const std::string& which) {
  Scale scale;
  for (const std::size_t at : site.items) {
    scale.reach(item(at).begins);
    scale.reach(item(at).ends);
  }
  for (const TimelinePhase& phase : material_.timeline.phases) scale.reach(phase.opens);
  if (scale.empty()) return std::nullopt;
  scale.last = std::max(scale.last, material_.timeline.reading.known_day);
  const std::string title = phrase("chart.title", {{"place", site.title}, {"which", which}});
  const std::string words = phrase("chart.words", {{"n", static_cast<std::int64_t>(rows.size())},
                                                   {"from", edtf_year(civil_from_days(scale.first).year)},
                                                   {"to", edtf_year(civil_from_days(scale.last).year)}});
  Ink ink(kWide, title, words);
  const double top = 78;
  double bottom = top;
  for (const std::size_t at : rows) bottom += row_height(row_label(at));
  axis(ink, scale, 64, bottom);
  bands(ink, scale, material_.timeline, bottom);
  double y = top;
  for (std::size_t at = 0; at < rows.size(); ++at) {
    const TimelineItem& one = item(rows[at]);
    ink.line(0, y, kWide - 10, y, 0.6);
    row_name(ink, y, row_label(rows[at]));
    span_bar(ink, scale, one.begins, one.ends, y + 11);
    for (const TimelineEvent& event : material_.timeline.sources) {
      if (!is_dated(event.when) || !leans_on(rows[at], event.source)) continue;
      const Bound& bound = event.when.latest.known ? event.when.latest : event.when.earliest;
      const Day day = event.when.earliest.known && event.when.latest.known
                          ? event.when.earliest.day + (event.when.latest.day - event.when.earliest.day) / 2
                          : bound.day;
      pin(ink, scale.x(day), y);
    }
    y += row_height(row_label(rows[at]));
  }
  const double height = key(ink, bottom + 74, true);
  Figure made = figure(title, words, ink, height);
  made.caption = paragraph({remark("chart.caption", {{"title", title}})});
  return made;
}

/// Code, name and placement, as a row of a chart is named.
std::string Builder::row_label(std::size_t at) {
  return foreign(item(at).record.code + " " + item(at).record.name) + placement_words(at);
}

bool Builder::leans_on(std::size_t at, const Uuid& source) {
  for (const char* property : {"seen-in", "uncovered-in", "as-built-in", "billed-in"})
    for (const Statement& said : teller_.said(item(at).record.id, property))
      if (said.content.value == source.text()) return true;
  return false;
}

std::optional<Figure> Builder::building_chart() {
  const Timeline& timeline = material_.timeline;
  Scale scale;
  for (const TimelineWorks& works : timeline.works) {
    scale.reach(works.begins);
    scale.reach(works.ends);
  }
  for (const TimelinePhase& phase : timeline.phases) scale.reach(phase.opens);
  if (scale.empty()) return std::nullopt;
  scale.last = std::max(scale.last, timeline.reading.known_day);
  struct Line {
    std::string name;
    Span begins, ends;
  };
  std::vector<Line> lines;
  for (const TimelineWorks& works : timeline.works)
    if (teller_.record(works.record.id) && is_dated(works.begins))
      lines.push_back({without_marks(foreign(works.record.name)), works.begins, works.ends});
  const std::size_t works_count = lines.size();
  material_.archive.each(Kind::agent, [&](const RecordView& agent) {
    for (const Statement* role : agent.all("role")) {
      if (role->content.value != "owner") continue;
      Line line{foreign(agent.info.name), {}, {}};
      const auto fill = [&](Span& span, std::string_view edtf) {
        const auto date = edtf.empty() ? std::nullopt : Edtf::try_parse(edtf);
        if (!date || !date->earliest() || !date->latest()) return;
        span.earliest.known = span.latest.known = true;
        span.earliest.day = *date->earliest();
        span.latest.day = *date->latest();
        scale.reach(span);
      };
      fill(line.begins, role->content.qualifier("from"));
      fill(line.ends, role->content.qualifier("to"));
      if (is_dated(line.begins)) lines.push_back(std::move(line));
    }
  });
  std::stable_sort(
      lines.begin() + static_cast<std::ptrdiff_t>(works_count), lines.end(),
      [](const Line& a, const Line& b) { return a.begins.earliest.day < b.begins.earliest.day; });
  const std::string title = phrase("chart.building", {{"building", document_.subject}});
  const std::string words =
      phrase("chart.building-words", {{"works", static_cast<std::int64_t>(works_count)},
                                      {"owners", static_cast<std::int64_t>(lines.size() - works_count)}});
  Ink ink(kWide, title, words);
  const double top = 130;
  double y = top;
  double bottom = top + (lines.size() > works_count ? 70 : 0);
  for (const Line& line : lines) bottom += row_height(line.name);
  axis(ink, scale, 64, bottom);
  bands(ink, scale, timeline, bottom);
  ink.words(0, 108, kLetter, phrase("chart.works"), "start", true);
  for (std::size_t at = 0; at < lines.size(); ++at) {
    if (at == works_count) {
      ink.words(0, y + 48, kLetter, phrase("chart.owners"), "start", true);
      y += 70;
    }
    ink.line(0, y, kWide - 10, y, 0.6);
    row_name(ink, y, lines[at].name);
    span_bar(ink, scale, lines[at].begins, lines[at].ends, y + 11);
    y += row_height(lines[at].name);
  }
  const double height = key(ink, bottom + 74, false);
  Figure made = figure(title, words, ink, height);
  made.caption = paragraph({remark("chart.building-caption", {{"title", title}})});
  return made;
}

std::optional<Figure> Builder::finish_columns(const std::vector<const FinishSequence*>& sequences,
                                              const std::string& place) {
  std::size_t most = 0;
  for (const FinishSequence* sequence : sequences) most = std::max(most, sequence->coats.size());
  if (most == 0) return std::nullopt;
  const std::string title = phrase("chart.finishes", {{"place", place}});
  const std::string words =
      phrase("chart.finishes-words", {{"n", static_cast<std::int64_t>(sequences.size())}});
  Ink ink(kWide, title, words);
  const double step = (kWide - 10) / static_cast<double>(std::max<std::size_t>(sequences.size(), 3));
  const double coat_high = 82;
  const double bottom = 112 + coat_high * static_cast<double>(most);
  for (std::size_t at = 0; at < sequences.size(); ++at) {
    const double x = step * static_cast<double>(at);
    const auto head = Ink::lines(
        foreign(sequences[at]->element.name + " (" + sequences[at]->element.code + ")"), step - 40, 29, 3);
    for (std::size_t line = 0; line < head.size(); ++line)
      ink.words(x, 28 + 31 * static_cast<double>(line), 26, head[line], "start", true);
    double y = bottom;
    for (const FinishCoat& coat : sequences[at]->coats) {
      y -= coat_high;
      const bool finish = coat.role == "finish coat" || coat.role == "glaze" || coat.role == "paper";
      ink.box(x, y, 30, coat_high,
              finish                     ? Ink::solid(Level::certain)
              : coat.role == "dirt line" ? "#70757a"
                                         : "hatch-probable",
              2);
      ink.box(x + 30, y, 84, coat_high, coat.chip.srgb.empty() ? "#ffffff" : coat.chip.srgb, 2);
      if (coat.chip.srgb.empty()) ink.line(x + 30, y + coat_high, x + 114, y, 1.4);
      double base = y + 25;
      const std::string colour = foreign(coat.colour.empty() ? coat.role : coat.colour);
      for (const std::string& line : Ink::lines(
               (coat.layer == 0 ? "" : std::to_string(coat.layer) + " ") + colour, step - 140, 22, 2)) {
        ink.words(x + 124, base, 22, line);
        base += 24;
      }
      const std::string notation = foreign(coat.munsell.empty() ? coat.role : coat.munsell);
      if (notation != colour) ink.words(x + 124, base, 20, Ink::cut(notation, step - 140, 20));
    }
    ink.line(x, bottom, x + step - 20, bottom, 5);
  }
  ink.box(0, bottom + 22, 30, 26, Ink::solid(Level::certain), 2);
  ink.words(40, bottom + 44, 22, phrase("chart.finish-coats"));
  ink.box(560, bottom + 22, 30, 26, "hatch-probable", 2);
  ink.words(600, bottom + 44, 22, phrase("chart.under-coats"));
  ink.words(1130, bottom + 44, 22, phrase("chart.upward"));
  Figure made = figure(title, words, ink, bottom + 60);
  made.caption = paragraph({remark("chart.finishes-caption", {{"title", title}})});
  return made;
}

}  // namespace lathbook::report
