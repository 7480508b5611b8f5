// The things of a site in a table, phase by phase: what each is, when it came and went, its marks and labels.
#include <algorithm>
#include <iterator>
#include <limits>
#include <map>
#include <utility>

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

constexpr Day kLongAgo = std::numeric_limits<Day>::min();

/// The phase in which a thing was surely put in; past the last for things whose phase is not settled, and one
/// further for those in none.
std::size_t phase_of(const TimelineItem& item, std::size_t phases) {
  bool may_be = false;
  for (const PhasePart& part : item.phases) {
    if (part.installed == Membership::certain) return part.phase;
    may_be = may_be || (part.installed == Membership::possible && item.dated);
  }
  return may_be ? phases : phases + 1;
}

std::string last_seen(const TimelineItem& item) {
  const std::string_view long_form = "still in place when ";
  return foreign(item.last_seen.starts_with(long_form) ? item.last_seen.substr(long_form.size())
                                                       : item.last_seen);
}

/// Enough of the parts have marks that these have a column.
bool have_a_column(const std::map<std::size_t, Cell>& marks) {
  const auto marked = std::count_if(marks.begin(), marks.end(),
                                    [](const auto& one) { return !one.second.sentences.empty(); });
  return 3 * static_cast<std::size_t>(marked) > marks.size();
}

}  // namespace

void Builder::add_elements(const Site& site) {
  const std::size_t phases = material_.timeline.phases.size();
  Table table;
  table.caption = phrase("elements.caption", {{"place", site.title}});
  std::map<std::size_t, Cell> marks;
  for (const std::size_t at : site.items)
    if (is_thing(at)) marks.emplace(at, marks_of(item(at).record.id));
  // A column of dashes tells less than a sentence.
  const bool with_marks = have_a_column(marks);
  table.columns = {phrase("elements.thing"), phrase("elements.came"), phrase("elements.went")};
  table.widths = {52, 26, 22};
  if (with_marks) {
    table.columns.push_back(phrase("elements.marks"));
    table.widths = {36, 20, 17, 27};
  }
  for (std::size_t phase = 0; phase <= phases + 1; ++phase) {
    bool first = true;
    for (const std::size_t at : site.items) {
      if (!is_thing(at) || phase_of(item(at), phases) != phase) continue;
      if (first) {
        const auto info =
            phase < phases ? teller_.record(material_.timeline.phases[phase].record.id) : std::nullopt;
        const char* without = phase == phases ? "elements.unsettled" : "elements.no-phase";
        table.rows.push_back({info ? foreign(info->name) : phrase(without), {}});
        first = false;
      }
      table.rows.push_back(element_row(at, std::move(marks[at]), with_marks));
    }
  }
  add(std::move(table));
}

Row Builder::element_row(std::size_t at, Cell marks, bool with_marks) {
  const TimelineItem& one = item(at);
  const Uuid id = one.record.id;
  const ElementView view(teller_.view(id));
  std::vector<int> notes;
  std::vector<std::string> parts;
  parts.push_back(row_label(at));
  const std::string head = parts.back();
  std::string what = teller_.said_in_words(id, "element-type", notes);
  const std::string material = teller_.said_in_words(id, "material", notes);
  if (!material.empty()) what += (what.empty() ? "" : "; ") + material;
  for (const Statement& size : teller_.said(id, "dimension")) {
    what += (what.empty() ? "" : "; ") + foreign(size.content.value);
    const std::string of = foreign(size.content.qualifier("of"));
    if (!of.empty()) what += " " + of;
    add_notes(notes, teller_.cite(size));
  }
  Row row;
  Cell thing;
  thing.sentences.push_back(as_words(head));
  for (Run& run : thing.sentences.back().runs) run.strong = true;
  if (!what.empty()) thing.sentences.push_back(as_words(what, notes));
  for (const Statement& said : teller_.said(id, "description")) {
    thing.sentences.push_back(
        sentence("described",
                 {{"words", without_full_stop(foreign(said.content.value))}, {"doubt", teller_.doubt(said)}},
                 teller_.cite(said)));
    if (!said.content.why.empty())
      if (auto who = decision(said, "mark.taken-by")) thing.sentences.push_back(std::move(*who));
  }
  if (!with_marks)
    std::move(marks.sentences.begin(), marks.sentences.end(), std::back_inserter(thing.sentences));
  else if (marks.sentences.empty())
    marks.sentences.push_back(as_words(phrase("mark.none")));
  row.cells.push_back(std::move(thing));

  const std::string came = surely(one.begins) + std::string(trim(when(one.begins)));
  row.cells.push_back({{as_words(one.dated ? came : phrase("not-dated"),
                                 one.dated ? cite_ends(one.begins) : std::vector<int>{})},
                       {}});
  Cell went;
  if (one.ends.latest.known)
    went.sentences.push_back(
        as_words(surely(one.ends) + std::string(trim(when(one.ends))), cite_ends(one.ends)));
  else if (auto look = last_look(id, one.ends.earliest.known ? one.ends.earliest.day : kLongAgo))
    went.sentences.push_back(std::move(*look));
  else if (!one.last_seen.empty())
    went.sentences.push_back(as_words(telling(kDate, last_seen(one)), teller_.cite(one.ends.earliest)));
  else
    went.sentences.push_back(as_words(phrase("not-known")));
  row.cells.push_back(std::move(went));
  if (with_marks) row.cells.push_back(std::move(marks));
  return row;
}

/// "last seen on 12 November 2024" by a look at its condition, where that is later than `after`.
std::optional<Sentence> Builder::last_look(const Uuid& id, Day after) {
  std::optional<Statement> last;
  for (const char* property : {"condition", "condition-class"})
    for (const Statement& said : teller_.said(id, property)) {
      const auto date = Edtf::try_parse(said.content.qualifier("on"));
      if (!date || !date->earliest() || *date->earliest() <= after) continue;
      after = *date->earliest();
      last = said;
    }
  if (!last) return std::nullopt;
  return as_words(phrase("last-seen", {{"day", telling(kDate, plain_day(after))}}), teller_.cite(*last));
}

// Writing on the thing itself and on its pieces, as read, with what it is taken to say.
Cell Builder::marks_of(const Uuid& element) {
  Cell cell;
  std::vector<Uuid> carriers{element};
  for (const Statement& piece : teller_.said_to(element, "piece-of"))
    carriers.push_back(piece.content.subject);
  for (const Uuid& carrier : carriers)
    for (const char* link : {"mark-on", "label-on"})
      for (const Statement& carried : teller_.said_to(carrier, link)) {
        const Uuid id = carried.content.subject;
        if (!teller_.record(id)) continue;
        const RecordView& view = teller_.view(id);
        std::vector<int> notes = teller_.cite(carried);
        std::vector<std::string> read;
        const auto texts = teller_.said(id, "transcription");
        for (const Statement& text : texts) {
          read.push_back("“" + foreign(text.content.value) + "”");
          add_notes(notes, teller_.cite(text));
        }
        const std::string how = view.text(std::string(link) == "mark-on" ? "mark-method" : "label-tool");
        std::string on = carrier == element ? std::string() : foreign(teller_.record(carrier)->code);
        cell.sentences.push_back(sentence("mark",
                                          {{"code", foreign(view.info.code)},
                                           {"how", foreign(how)},
                                           {"told", std::string(how.empty() ? "no" : "yes")},
                                           {"text", read.empty() ? phrase("mark.unread") : listing(read)},
                                           {"on", on},
                                           {"apart", std::string(on.empty() ? "no" : "yes")}},
                                          notes));
        // Where there are several readings the reader must see whose each is, and why.
        if (texts.size() > 1)
          for (const Statement& text : texts)
            if (auto who = decision(text, "mark.read-by")) {
              who->runs.insert(who->runs.begin(), {"“" + foreign(text.content.value) + "”: "});
              cell.sentences.push_back(std::move(*who));
            }
        const auto readings = teller_.said(id, "reading");
        for (const Statement& reading : readings) {
          cell.sentences.push_back(
              sentence("mark.reading",
                       {{"reading", telling(kMaker, foreign(reading.content.value))},
                        {"of", foreign(reading.content.qualifier("of"))},
                        {"some", std::string(reading.content.qualifier("of").empty() ? "no" : "yes")},
                        {"doubt", teller_.doubt(reading)}},
                       teller_.cite(reading)));
          if (readings.size() > 1 || !reading.content.why.empty())
            if (auto who = decision(reading, "mark.taken-by")) cell.sentences.push_back(std::move(*who));
        }
        for (const char* maker : {"blank-maker", "decorator"})
          for (const Statement& made : teller_.said(id, maker))
            cell.sentences.push_back(
                sentence(std::string("mark.") + maker,
                         {{"who", telling(kMaker, teller_.value(made))}, {"doubt", teller_.doubt(made)}},
                         teller_.cite(made)));
      }
  return cell;
}

}  // namespace lathbook::report
