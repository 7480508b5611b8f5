// The history of a site by phases: what was put in, taken out, covered up, to be seen.
#include <algorithm>
#include <iterator>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"
#include "plugins/report/items.hpp"

namespace lathbook::report {

void Builder::add_phases(const Site& site) {
  if (site.items.empty()) return;
  add_phase_charts(site);
  seen_.clear();
  std::vector<std::string> quiet;
  for (std::size_t phase = 0; phase < material_.timeline.phases.size(); ++phase)
    if (const auto name = add_phase(site, phase)) quiet.push_back(*name);
  if (!quiet.empty()) add(remark("phase.nothing", {{"phases", join(quiet, "; ")}}));
}

/// The name of the phase where nothing is to be told of it.
std::optional<std::string> Builder::add_phase(const Site& site, std::size_t phase) {
  const auto info = teller_.record(material_.timeline.phases[phase].record.id);
  if (!info) return std::nullopt;
  const std::string name = foreign(info->name.empty() ? display(*info) : info->name);
  const std::size_t before = chapter_.blocks.size();
  chapter_.blocks.emplace_back(Heading{3, name, {}});
  const std::size_t told = chapter_.blocks.size();
  add_put_in(site, phase, Membership::certain);
  add_put_in(site, phase, Membership::possible);
  add_taken_out(site, phase);
  add_covered(site, phase);
  add_in_view(site, phase, chapter_.blocks.size() != told);
  if (chapter_.blocks.size() != told) return std::nullopt;
  chapter_.blocks.resize(before);
  return name;
}

/// "The phase opened in 1924 with the works of 1924 to 1926."
Sentence Builder::phase_opening(const TimelinePhase& phase, const std::string& name) {
  std::vector<int> notes = teller_.cite(phase.opens);
  for (const Statement& said : teller_.said(phase.record.id, "opened-by"))
    add_notes(notes, teller_.cite(said));
  const bool by_works = teller_.record(phase.campaign.id).has_value();
  return sentence(by_works ? "phase.opened-by" : "phase.opened",
                  {{"phase", name},
                   {"works", by_works ? teller_.name(phase.campaign.id) : std::string()},
                   {"surely", surely(phase.opens)},
                   {"when", is_dated(phase.opens) ? when(phase.opens) : " " + phrase("when.unknown")}},
                  notes);
}

/// Whether it is something done, such as a removal, by its name.
bool Builder::is_deed(std::size_t at) {
  static const std::vector<std::string> deeds = split(phrase("deeds"), ' ');
  const RecordInfo& record = item(at).record;
  const std::string first = split(to_lower_ascii(record.name), ' ').front();
  return teller_.view(record.id).text("element-class") == "cut" &&
         std::find(deeds.begin(), deeds.end(), first) != deeds.end();
}

/// What happened to the thing at its beginning or its end: "was laid", "was taken up"; a removal or another
/// thing done "took place".
Builder::Happening Builder::happening(std::size_t at, bool of_end, bool many) {
  const RecordInfo& record = item(at).record;
  const std::string of_class = teller_.view(record.id).text("element-class");
  const std::string keyword = is_finish(at) ? "finish" : is_deed(at) ? "deed" : choice(of_class);
  const std::string number = many ? "many" : number_of(record.name);
  return {phrase("be", {{"class", keyword}, {"number", number}}),
          phrase(of_end ? "verb.end" : "verb", {{"class", keyword}})};
}

/// The verb of what is no thing put in but something done to others, or left by them; else empty.
std::string Builder::own_verb(std::size_t at) {
  const std::string of_class = teller_.view(item(at).record.id).text("element-class");
  const bool own = of_class == "cut" || of_class == "ghost" || of_class == "opening";
  return own ? happening(at, false, true).verb : std::string();
}

// Things of one date that nothing more is said of are told in one sentence; each of the others has its own.
void Builder::add_put_in(const Site& site, std::size_t phase, Membership wanted) {
  struct Group {
    std::string when, rest;
    std::vector<std::size_t> members;
  };
  std::vector<Group> groups;
  List list;
  for (const std::size_t at : site.items) {
    const PhasePart* part = part_in(item(at), phase);
    if (part == nullptr || part->installed != wanted) continue;
    if (wanted == Membership::possible && (told_[at] || !item(at).dated)) continue;
    if (is_finish(at)) continue;  // told layer by layer in the finish schedule
    std::vector<int> scratch;
    if (relations(at, scratch).empty() && evidence(at).sentences.empty()) {
      const Span& begins = item(at).begins;
      const std::string date = when(begins);
      const std::string rest =
          surely(begins) + "|" + part->how + "|" + own_verb(at) + "|" + strongest(at, begins);
      auto found = std::find_if(groups.begin(), groups.end(),
                                [&](const Group& one) { return one.when == date && one.rest == rest; });
      if (found == groups.end()) found = groups.insert(groups.end(), {date, rest, {}});
      found->members.push_back(at);
    } else {
      Paragraph told{{put_in(at, part->how)}};
      if (!told_[at]) {
        Paragraph more = evidence(at);
        std::move(more.sentences.begin(), more.sentences.end(), std::back_inserter(told.sentences));
        told.points = std::move(more.points);
      }
      list.entries.push_back(std::move(told));
    }
    told_[at] = true;
  }
  if (groups.empty() && list.entries.empty()) return;
  chapter_.blocks.emplace_back(
      Heading{4, phrase(wanted == Membership::certain ? "phase.put-in" : "phase.put-in-possibly"), {}});
  List all;
  for (const Group& group : groups)
    all.entries.push_back(paragraph({put_in_together(group.members, group.when, phase)}));
  std::move(list.entries.begin(), list.entries.end(), std::back_inserter(all.entries));
  add(std::move(all));
}

Sentence Builder::put_in_together(const std::vector<std::size_t>& members, const std::string& date,
                                  std::size_t phase) {
  std::vector<int> notes;
  std::vector<std::string> names;
  for (const std::size_t at : members) {
    names.push_back(name_of(at));
    add_notes(notes, cite_ends(item(at).begins));
  }
  const std::size_t first = members.front();
  const Happening came = happening(first, false, members.size() > 1);
  const bool alike = std::all_of(members.begin(), members.end(), [&](std::size_t at) {
    return happening(at, false, true).verb == came.verb;
  });
  const std::string how = part_in(item(first), phase)->how;
  return sentence("put-in.together",
                  {{"names", listing(names)},
                   {"be", came.be},
                   {"surely", surely(item(first).begins)},
                   {"verb", alike ? came.verb : phrase("verb.mixed")},
                   {"when", date},
                   {"how", how.empty() ? how : phrase("how." + how)},
                   {"reason", strongest(first, item(first).begins)}},
                  notes);
}

Sentence Builder::put_in(std::size_t at, const std::string& how) {
  const TimelineItem& one = item(at);
  std::vector<int> notes = cite_ends(one.begins);
  const std::string behind = relations(at, notes);
  const auto [be, verb] = happening(at, false);
  return sentence("put-in",
                  {{"thing", name_of(at)},
                   {"be", be},
                   {"surely", surely(one.begins)},
                   {"verb", verb},
                   {"when", when(one.begins)},
                   {"how", how.empty() ? how : phrase("how." + how)},
                   {"relations", behind},
                   {"reason", strongest(at, one.begins)},
                   {"again", one.placement > 1 ? phrase("again") : std::string()}},
                  notes);
}

void Builder::add_taken_out(const Site& site, std::size_t phase) {
  List list;
  for (const Membership wanted : {Membership::certain, Membership::possible})
    for (const std::size_t at : site.items) {
      const TimelineItem& one = item(at);
      const PhasePart* part = part_in(one, phase);
      if (part == nullptr || part->removed != wanted || is_finish(at)) continue;
      // An end that nothing fixes is no sign that the thing was ever taken out.
      if (!one.ends.latest.known || (wanted == Membership::possible && !one.dated)) continue;
      // Where it may have been in any of several phases it is told in the first.
      if (!told_removed_.insert(at).second && wanted == Membership::possible) continue;
      const auto [be, verb] = happening(at, true);
      list.entries.push_back(
          paragraph({sentence(wanted == Membership::certain ? "taken-out" : "taken-out-possibly",
                              {{"thing", name_of(at)},
                               {"be", be},
                               {"verb", verb},
                               {"surely", surely(one.ends)},
                               {"when", when(one.ends)},
                               {"reason", strongest(at, one.ends)}},
                              cite_ends(one.ends))}));
    }
  if (list.entries.empty()) return;
  chapter_.blocks.emplace_back(Heading{4, phrase("phase.taken-out"), {}});
  add(std::move(list));
}

/// What covered the thing in the phase, with the statements that say so. A coat of paint puts nothing but
/// other coats out of sight.
std::vector<std::size_t> Builder::covers_in(std::size_t at, std::size_t phase, std::vector<Statement>& by) {
  std::vector<std::size_t> covers;
  for (const Statement& said : teller_.said_to(item(at).record.id, "covers")) {
    if (!teller_.record(said.content.subject) || said.content.confidence == Confidence::conjecture) continue;
    for (std::size_t other = 0; other < material_.timeline.items.size(); ++other) {
      const TimelineItem& cover = item(other);
      if (cover.record.id != said.content.subject || !of_placement(said, cover) || is_finish(other)) continue;
      const PhasePart* part = part_in(cover, phase);
      if (part == nullptr || part->installed == Membership::no) continue;
      covers.push_back(other);
      by.push_back(said);
    }
  }
  return covers;
}

// One line for each cover, and whether it surely came in this phase.
void Builder::add_covered(const Site& site, std::size_t phase) {
  struct Line {
    std::size_t cover;
    bool surely;
    std::vector<std::string> names;
    std::vector<Statement> said;
  };
  std::vector<Line> lines;
  for (const std::size_t at : site.items) {
    const PhasePart* part = part_in(item(at), phase);
    if (part == nullptr || part->covered == Membership::no || is_finish(at)) continue;
    if (part->covered == Membership::possible && !told_covered_.insert(at).second) continue;
    std::vector<Statement> by;
    const std::vector<std::size_t> covers = covers_in(at, phase, by);
    for (std::size_t n = 0; n < covers.size(); ++n) {
      const bool surely = part_in(item(covers[n]), phase)->installed == Membership::certain;
      auto line =
          std::find_if(lines.begin(), lines.end(), [&](const Line& one) { return one.cover == covers[n]; });
      if (line == lines.end()) line = lines.insert(lines.end(), {covers[n], surely, {}, {}});
      line->names.push_back(name_of(at));
      line->said.push_back(by[n]);
    }
  }
  if (lines.empty()) return;
  chapter_.blocks.emplace_back(Heading{4, phrase("phase.covered"), {}});
  List list;
  for (const Line& line : lines)
    list.entries.push_back(
        paragraph({sentence(line.surely ? "covered" : "covered-possibly",
                            {{"cover", name_of(line.cover)}, {"names", listing(line.names)}},
                            teller_.notes().cite_together(line.said))}));
  add(std::move(list));
}

}  // namespace lathbook::report
