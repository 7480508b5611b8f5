// What would settle open dates: what was tried in the reckoning, less what has been looked for already.
#include <algorithm>
#include <cstdlib>
#include <iterator>

#include "core/base/text.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

/// Tasks told for a site, the first of them help most; and such that other chapters tell.
constexpr std::size_t kMostTasks = 5;
constexpr std::size_t kFirstOfASort = 2;
constexpr std::size_t kMostElsewhere = 3;
/// Stretches told of one outcome, names told in one list.
constexpr std::size_t kMostStretches = 3;
constexpr std::size_t kMostNames = 4;
/// A bound so many days from the day tried follows from it.
constexpr Day kNear = 400;

}  // namespace

/// What the date told of a record rests on: the source itself, or the statements behind its beginning.
std::vector<int> Builder::notes_on(const Uuid& id) {
  if (teller_.notes().source(id) != nullptr) return {teller_.notes().cite_source(id)};
  std::vector<int> notes;
  for (const TimelineItem& one : material_.timeline.items)
    if (one.record.id == id) add_notes(notes, cite_ends(one.begins));
  for (const TimelineWorks& works : material_.timeline.works)
    if (works.record.id == id) add_notes(notes, teller_.cite(works.begins));
  return notes;
}

// Those about things of the site, then those told elsewhere that would date something here.
bool Builder::add_tasks(const Site& site) {
  List own{true, {}}, elsewhere;
  std::vector<std::size_t> mine;
  std::set<Uuid> sampled;
  for (std::size_t at = 0; at < material_.timeline.tasks.size(); ++at) {
    const TimelineTask& task = material_.timeline.tasks[at];
    const bool given = std::all_of(task.records.begin(), task.records.end(),
                                   [&](const Uuid& id) { return teller_.record(id).has_value(); });
    if (!given || task.records.empty()) continue;
    // One sample dates all coats of a thing: it is asked for once.
    const auto painted = painted_thing(task.records.front());
    if (task.sort == "thing" && painted && !sampled.insert(*painted).second) continue;
    const bool here =
        is_of_site(site, task.records.front()) || (site.at_large && !is_of_some_site(task.records.front()));
    if (here) {
      mine.push_back(at);
    } else if (!here && elsewhere.entries.size() < kMostElsewhere) {
      if (auto told = told_elsewhere(task, site)) elsewhere.entries.push_back(std::move(*told));
    }
  }
  std::vector<Alike> lines;
  for (const std::size_t at : mixed(mine)) {
    const TimelineTask& task = material_.timeline.tasks[at];
    auto told = told_task(task);
    if (!told) continue;
    const std::string key = likeness(task, *told);
    auto line = std::find_if(lines.begin(), lines.end(),
                             [&](const Alike& one) { return !key.empty() && one.key == key; });
    if (line == lines.end()) {
      if (lines.size() == kMostTasks) continue;
      line = lines.insert(lines.end(), {key, {}, {}, std::nullopt});
    }
    line->things.push_back(painted_thing(task.records.front()).value_or(task.records.front()));
    add_notes(line->notes, told->sentences.front().notes);
    line->alone = line->things.size() == 1 ? std::move(told) : std::nullopt;
  }
  for (Alike& line : lines)
    own.entries.push_back(line.alone ? std::move(*line.alone) : paragraph({*asked_together(line)}));
  if (own.entries.empty() && elsewhere.entries.empty()) return false;
  if (!own.entries.empty()) {
    add(remark("open.tasks"));
    add(std::move(own));
  }
  if (!elsewhere.entries.empty()) {
    add(remark("open.elsewhere"));
    add(std::move(elsewhere));
  }
  return true;
}

/// The same tasks with the first of each sort of work in front: a list of one sort is of little use.
std::vector<std::size_t> Builder::mixed(const std::vector<std::size_t>& tasks) const {
  std::map<std::string, std::size_t> taken;
  std::vector<std::size_t> first, rest;
  for (const std::size_t at : tasks)
    (taken[material_.timeline.tasks[at].sort]++ < kFirstOfASort ? first : rest).push_back(at);
  first.insert(first.end(), rest.begin(), rest.end());
  return first;
}

/// What was sought there already, by what sort of look.
struct Builder::Looks {
  std::vector<Sentence> told;
  std::set<std::string> done;  ///< "mark", "nails", "saw", "layers", "sample"
};

Builder::Looks Builder::looks_at(const Uuid& id) {
  Looks looks;
  std::vector<Uuid> seen;
  for (const Statement& examined : teller_.said_to(id, "examined")) {
    const Uuid examination = examined.content.subject;
    const auto info = teller_.record(examination);
    if (!info || std::find(seen.begin(), seen.end(), examination) != seen.end()) continue;
    seen.push_back(examination);
    for (const Statement& sought : teller_.said(examination, "sought")) {
      const std::string outcome(sought.content.qualifier("outcome"));
      const std::string words = to_lower_ascii(sought.content.value);
      std::vector<std::string> sorts;
      for (const char* look : {"mark", "nails", "saw", "layers"})
        for (const std::string& sign : split(phrase(std::string("open.look-sign.") + look), '|'))
          if (words.find(sign) != std::string::npos) sorts.push_back(look);
      // What was found beside is told where the examination is.
      if (sorts.empty() || outcome == "found") continue;
      looks.told.push_back(sentence("open.sought",
                                    {{"what", foreign(sought.content.value)},
                                     {"outcome", phrase("open.outcome." + choice(outcome))},
                                     {"code", foreign(info->code)}},
                                    teller_.cite(sought)));
      if (outcome == "could not tell" || outcome == "not looked") continue;
      looks.done.insert(sorts.begin(), sorts.end());
    }
  }
  const auto is_done = [&](const Uuid& about, const char* by, const char* look) {
    for (const Statement& said : teller_.said_to(about, by))
      if (teller_.record(said.content.subject)) looks.done.insert(look);
  };
  is_done(id, "sample-from", "sample");
  is_done(id, "mark-on", "mark");
  for (const Statement& piece : teller_.said_to(id, "piece-of"))
    is_done(piece.content.subject, "mark-on", "mark");
  return looks;
}

/// Whether a coat lies in a sample that a laboratory has looked at, or its thing was sampled.
bool Builder::is_analysed(const Uuid& coat) {
  if (material_.layers == nullptr) return false;
  for (const FinishSequence& sequence : material_.layers->sequences)
    for (const FinishCoat& one : sequence.coats)
      if (one.record.id == coat &&
          (sequence.read_by == "laboratory" || !teller_.said_to(sequence.element.id, "sample-from").empty()))
        return true;
  return false;
}

/// The thing that a coat is on; nothing for what is no coat.
std::optional<Uuid> Builder::painted_thing(const Uuid& coat) const {
  for (const TimelineItem& one : material_.timeline.items)
    if (one.record.id == coat && teller_.record(one.finish_on.value_or(Uuid{}))) return one.finish_on;
  return std::nullopt;
}

bool Builder::is_left_alone(const Uuid& id) {
  const auto names_it = [](std::string_view text) {
    const std::string words = to_lower_ascii(text);
    for (const std::string& sign : split(phrase("open.leave-alone"), '|'))
      if (words.find(sign) != std::string::npos) return true;
    return false;
  };
  for (const Statement& said : teller_.said(id, "hazard"))
    if (names_it(said.content.value) && said.content.qualifier("status") != "tested clear") return true;
  for (const char* property : {"material", "element-type"})
    for (const Statement& said : teller_.said(id, property))
      if (names_it(said.content.value)) return true;
  return false;
}

std::vector<std::string> Builder::looks_left(const Uuid& id, const Looks& looks) {
  // What has gone can be looked at in its pieces alone.
  const bool gone = std::any_of(
      material_.timeline.items.begin(), material_.timeline.items.end(), [&](const TimelineItem& one) {
        return one.record.id == id && one.placement == one.placements && one.ends.latest.known;
      });
  if (gone && teller_.said_to(id, "piece-of").empty()) return {};
  const std::string material = to_lower_ascii(teller_.view(id).text("material"));
  std::vector<std::string> left;
  for (const std::string& look :
       split(phrase("open.looks-of", {{"class", choice(teller_.view(id).text("element-class"))}}), ' ')) {
    if (look.empty() || looks.done.count(look) != 0) continue;
    const std::vector<std::string> fits = split(phrase("open.look-material." + look), '|');
    const bool suits = material.empty() || std::any_of(fits.begin(), fits.end(), [&](const std::string& one) {
                         return material.find(one) != std::string::npos;
                       });
    if (suits) left.push_back(phrase("open.look." + look));
  }
  return left;
}

/// By which a task is told with others: how it is to be dated; empty for what would date other things, too.
std::string Builder::likeness(const TimelineTask& task, const Paragraph& told) {
  if (task.sort != "thing" || told.sentences.size() != 1 || !told.points.empty()) return {};
  const Uuid& chief = task.records.front();
  if (painted_thing(chief)) return "coat";
  if (is_left_alone(chief)) return "papers";
  return "thing " + listing(looks_left(chief, looks_at(chief)));
}

std::optional<Sentence> Builder::asked_together(const Alike& alike) {
  std::vector<std::string> names;
  for (const Uuid& id : alike.things) names.push_back(teller_.name(id));
  if (alike.key == "coat" || alike.key == "papers")
    return sentence("open.ask-" + alike.key + "-many", {{"things", listing(names)}}, alike.notes);
  const std::string looks = alike.key.substr(std::string_view("thing ").size());
  return sentence(
      "open.ask-thing-many",
      {{"things", listing(names)}, {"looks", looks}, {"some", std::string(looks.empty() ? "no" : "yes")}},
      alike.notes);
}

/// The task in words, without looks that were taken already; nothing when none is left.
std::optional<Sentence> Builder::asked(const TimelineTask& task, const Looks& looks) {
  const Uuid& chief = task.records.front();
  if (task.sort == "layers" && (looks.done.count("layers") != 0 || looks.done.count("sample") != 0))
    return std::nullopt;
  const bool touches = task.sort == "layers" || task.sort == "contact";
  if (touches && std::any_of(task.records.begin(), task.records.end(),
                             [&](const Uuid& id) { return is_left_alone(id); }))
    return std::nullopt;
  if (task.sort != "thing") return as_sentence(foreign(task.words));
  if (const auto painted = painted_thing(chief)) {
    if (is_analysed(chief)) return std::nullopt;
    return sentence("open.ask-coat", {{"thing", teller_.name(*painted)}, {"coat", teller_.name(chief)}});
  }
  if (is_left_alone(chief)) return sentence("open.ask-papers", {{"thing", teller_.name(chief)}});
  const std::vector<std::string> left = looks_left(chief, looks);
  return sentence("open.ask-thing", {{"thing", teller_.name(chief)},
                                     {"looks", listing(left)},
                                     {"some", std::string(left.empty() ? "no" : "yes")}});
}

std::optional<Paragraph> Builder::told_task(const TimelineTask& task) {
  Looks looks = looks_at(task.records.front());
  auto one = asked(task, looks);
  if (!one) return std::nullopt;
  for (const Uuid& id : task.records) add_notes(one->notes, notes_on(id));
  Paragraph told{{*one}};
  std::move(looks.told.begin(), looks.told.end(), std::back_inserter(told.sentences));
  for (const ReasonStep& step : task.on) {
    const auto said = teller_.statement(step.statement);
    const Property* property = said ? Registry::standard().find(said->content.property) : nullptr;
    if (step.words.empty() || (property != nullptr && property->name == "sought")) continue;
    told.sentences.push_back(
        as_sentence(foreign(step.words), said ? teller_.cite(*said) : std::vector<int>{}));
  }
  std::vector<int> notes = one->notes;
  if (task.sort == "contact" || task.sort == "layers") {
    for (const TimelineOutcome& outcome : task.outcomes)
      if (auto words = told_outcome(outcome, notes)) told.points.push_back(paragraph({std::move(*words)}));
  } else if (auto words = told_by_day(task, notes)) {
    told.sentences.push_back(std::move(*words));
  }
  return told;
}

/// "the ivory paint (F-1) between 1890 and 1924": what would be left of the dates, the most telling first.
std::vector<std::string> Builder::stretches(const std::vector<TimelineGain>& gains) {
  std::vector<std::pair<std::string, std::vector<std::string>>> by_date;
  for (const TimelineGain& gain : gains) {
    // That it went after it came needs no telling.
    if (!teller_.record(gain.record) || (gain.of_end && !gain.not_after)) continue;
    Span span;
    span.earliest.known = gain.not_before.has_value();
    span.earliest.day = gain.not_before.value_or(0);
    span.latest.known = gain.not_after.has_value();
    span.latest.day = gain.not_after.value_or(0);
    const std::string key =
        phrase(gain.of_end ? "open.would-go" : "open.would-come", {{"when", report::when(span)}});
    const auto found =
        std::find_if(by_date.begin(), by_date.end(), [&](const auto& one) { return one.first == key; });
    auto& names =
        found == by_date.end() ? by_date.emplace_back(key, std::vector<std::string>{}).second : found->second;
    const std::string name = teller_.name(gain.record);
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  std::vector<std::string> words;
  for (auto& [date, names] : by_date) {
    if (words.size() == kMostStretches) break;
    words.push_back(phrase("open.stretch", {{"names", few(names)}, {"date", date}}));
  }
  return words;
}

/// "a, b, c and 4 more".
std::string Builder::few(std::vector<std::string> names) const {
  if (names.size() > kMostNames + 1) {
    const std::size_t more = names.size() - kMostNames;
    names.resize(kMostNames);
    names.push_back(phrase("open.more", {{"n", static_cast<std::int64_t>(more)}}));
  }
  return listing(names);
}

std::optional<Sentence> Builder::told_outcome(const TimelineOutcome& outcome, const std::vector<int>& notes) {
  const std::vector<std::string> words = stretches(outcome.gains);
  if (words.empty() || !teller_.record(outcome.earlier) || !teller_.record(outcome.later))
    return std::nullopt;
  return sentence("open.if-earlier",
                  {{"earlier", teller_.name(outcome.earlier)},
                   {"later", teller_.name(outcome.later)},
                   {"dates", join(words, "; ")}},
                  notes);
}

/// Which things the day would bound, whatever day it is found to be.
std::optional<Sentence> Builder::told_by_day(const TimelineTask& task, const std::vector<int>& notes) {
  std::vector<std::string> before, after;
  if (task.outcomes.empty()) return std::nullopt;
  const auto painted = painted_thing(task.records.front());
  const auto bound = [&](const TimelineOutcome& outcome, const TimelineGain& gain) -> int {
    const auto near = [&](const std::optional<Day>& day) {
      return day && outcome.day && std::abs(*day - *outcome.day) < kNear;
    };
    return (near(gain.not_after) ? 1 : 0) + (near(gain.not_before) ? 2 : 0);
  };
  for (const TimelineGain& gain : task.outcomes.front().gains) {
    if (gain.of_end || gain.record == task.records.front() || !teller_.record(gain.record)) continue;
    // That the coats of a thing lie one over the other is told in the finish schedule.
    if (painted && painted == painted_thing(gain.record)) continue;
    int always = bound(task.outcomes.front(), gain);
    for (const TimelineOutcome& outcome : task.outcomes) {
      int here = 0;
      for (const TimelineGain& other : outcome.gains)
        if (other.record == gain.record && other.placement == gain.placement && !other.of_end)
          here = bound(outcome, other);
      always &= here;
    }
    const std::string name = teller_.name(gain.record);
    if ((always & 1) != 0) before.push_back(name);
    if ((always & 2) != 0) after.push_back(name);
  }
  if (before.empty() && after.empty()) return std::nullopt;
  return sentence("open.by-day",
                  {{"before", few(before)},
                   {"after", few(after)},
                   {"which", std::string(before.empty()  ? "after"
                                         : after.empty() ? "before"
                                                         : "both")}},
                  notes);
}

/// A task that another chapter tells, where it would date things of this site.
std::optional<Paragraph> Builder::told_elsewhere(const TimelineTask& task, const Site& site) {
  const auto words_of_task = asked(task, looks_at(task.records.front()));
  if (!words_of_task) return std::nullopt;
  std::vector<std::string> names;
  for (const TimelineOutcome& outcome : task.outcomes)
    for (const TimelineGain& gain : outcome.gains) {
      const std::string name = teller_.label(gain.record);
      if (is_of_site(site, gain.record) && std::find(names.begin(), names.end(), name) == names.end())
        names.push_back(name);
    }
  if (names.empty()) return std::nullopt;
  const Site* home = nullptr;
  for (const Site& one : sites_)
    if (is_of_site(one, task.records.front()) ||
        (home == nullptr && one.at_large && !is_of_some_site(task.records.front())))
      home = &one;
  if (home == nullptr) return std::nullopt;
  Sentence words = sentence("open.task-elsewhere",
                            {{"task", words_of_task->words()},
                             {"names", few(names)},
                             {"where", pointing(home->anchor, home->title)}},
                            {});
  for (const Uuid& id : task.records) add_notes(words.notes, notes_on(id));
  return paragraph({std::move(words)});
}

}  // namespace lathbook::report
