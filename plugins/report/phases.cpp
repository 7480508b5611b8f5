// The history of a site by phases: what was put in, taken out, covered up, to be seen.
#include <algorithm>
#include <array>
#include <iterator>
#include <string_view>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

const PhasePart* part_in(const TimelineItem& item, std::size_t phase) {
  for (const PhasePart& part : item.phases)
    if (part.phase == phase) return &part;
  return nullptr;
}

bool of_placement(const Statement& statement, const TimelineItem& item) {
  const std::string_view said = statement.content.qualifier("placement");
  return item.placements < 2 || said.empty() || said == std::to_string(item.placement);
}

std::string number_of(std::string_view name) {
  return is_plural(name) ? "many" : "one";
}

/// Whether a date told of the item rests on a statement of the either-or.
bool is_reason(const TimelineItem& item, const TimelineEither& either) {
  for (const Bound* bound :
       {&item.begins.earliest, &item.begins.latest, &item.ends.earliest, &item.ends.latest})
    for (const ReasonStep& step : bound->reason)
      for (const ReasonStep& one : either.statements)
        if (bound->known && step.statement == one.statement) return true;
  return false;
}

/// Evidence told under a thing, in this order.
constexpr std::array<std::string_view, 14> kEvidence{
    "seen-in",      "uncovered-in", "as-built-in", "billed-in",  "proposed-in",
    "mentioned-in", "absent-from",  "not-yet-in",  "gone-by",    "like-seen-in",
    "standing-by",  "not-yet-on",   "gone-on",     "reused-from"};

bool is_evidence(const Statement& said) {
  const Property* property = Registry::standard().find(said.content.property);
  return property != nullptr &&
         std::find(kEvidence.begin(), kEvidence.end(), property->name) != kEvidence.end();
}

}  // namespace

void Builder::add_phases(const Site& site) {
  if (site.items.empty()) return;
  add_phase_charts(site);
  seen_.clear();
  for (std::size_t phase = 0; phase < material_.timeline.phases.size(); ++phase) add_phase(site, phase);
}

void Builder::add_phase(const Site& site, std::size_t phase) {
  const TimelinePhase& one = material_.timeline.phases[phase];
  const auto info = teller_.record(one.record.id);
  if (!info) return;
  const std::size_t before = chapter_.blocks.size();
  chapter_.blocks.emplace_back(Heading{3, foreign(info->name.empty() ? display(*info) : info->name), {}});
  const std::size_t opened = chapter_.blocks.size();
  add(phase_opening(one, phrase("phase.this")));
  const std::size_t told = chapter_.blocks.size();
  add_put_in(site, phase, Membership::certain);
  add_put_in(site, phase, Membership::possible);
  add_taken_out(site, phase);
  add_covered(site, phase);
  add_in_view(site, phase, chapter_.blocks.size() != told);
  if (chapter_.blocks.size() == told) {
    if (opened == told)
      chapter_.blocks.resize(before);
    else
      add(remark("phase.nothing"));
  }
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
      const std::string rest = surely(begins) + "|" + part->how + "|" + own_verb(at);
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
    names.push_back(teller_.name(item(at).record.id));
    add_notes(notes, teller_.cite(item(at).begins));
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
                   {"how", how.empty() ? how : phrase("how." + how)}},
                  notes);
}

Sentence Builder::put_in(std::size_t at, const std::string& how) {
  const TimelineItem& one = item(at);
  std::vector<int> notes = teller_.cite(one.begins);
  const std::string behind = relations(at, notes);
  const auto [be, verb] = happening(at, false);
  return sentence("put-in",
                  {{"thing", teller_.name(one.record.id)},
                   {"be", be},
                   {"surely", surely(one.begins)},
                   {"verb", verb},
                   {"when", when(one.begins)},
                   {"how", how.empty() ? how : phrase("how." + how)},
                   {"relations", behind},
                   {"again", one.placement > 1 ? phrase("again") : std::string()}},
                  notes);
}

/// ", over the sea-green tile field (N-203)" of what it covers, fills or replaces.
std::string Builder::relations(std::size_t at, std::vector<int>& notes) {
  std::string words;
  for (const char* property : {"covers", "fills", "replaces", "part-of"}) {
    std::vector<std::string> others;
    for (const Statement& said : teller_.said(item(at).record.id, property)) {
      if (!of_placement(said, item(at)) || said.content.confidence == Confidence::conjecture) continue;
      const std::string other = teller_.value(said);
      if (std::find(others.begin(), others.end(), other) == others.end()) others.push_back(other);
      add_notes(notes, teller_.cite(said));
    }
    if (!others.empty()) words += phrase("relation." + std::string(property), {{"names", listing(others)}});
  }
  return words;
}

std::optional<Sentence> Builder::tell(const Statement& said, const std::string& key) {
  const Property* property = Registry::standard().find(said.content.property);
  if (property != nullptr && property->type == ValueType::record) {
    const auto target = Uuid::parse(said.content.value);
    if (!target || !teller_.record(*target)) return std::nullopt;
  }
  const auto detail = [&](const char* name) {
    std::string words = foreign(said.content.qualifier(name));
    // A region of the picture is for programs; the caption of the picture's note has it.
    if (const auto region = words.find("xywh="); region != std::string::npos)
      words = std::string(trim(words.substr(0, region)));
    while (!words.empty() && (words.back() == ';' || words.back() == ',')) words.pop_back();
    return words;
  };
  const auto slot = [&](const char* name) {
    const std::string words = detail(name);
    return words.empty() ? words : phrase(std::string("detail.") + name, {{"words", words}});
  };
  return sentence(key,
                  {{"value", teller_.value(said)},
                   {"feature", slot("feature")},
                   {"spot", slot("spot")},
                   {"says", slot("says")},
                   {"ground", slot("ground")},
                   {"doubt", teller_.doubt(said)}},
                  teller_.cite(said));
}

Paragraph Builder::evidence(std::size_t at, const std::vector<Digest>& without) {
  const TimelineItem& one = item(at);
  const Uuid id = one.record.id;
  Paragraph evidence;
  std::vector<Sentence>& told = evidence.sentences;
  if (one.made.earliest.known &&
      (!one.begins.earliest.known || one.made.earliest.day > one.begins.earliest.day))
    told.push_back(sentence("made-itself", {{"when", when(one.made)}, {"surely", surely(one.made)}},
                            teller_.cite(one.made)));
  for (const Statement& judged : teller_.said_to(id, "original-to")) {
    if (!of_placement(judged, one) || !teller_.record(judged.content.subject)) continue;
    const Uuid piece = judged.content.subject;
    told.push_back(sentence("original",
                            {{"piece", teller_.name(piece)},
                             {"grounds", foreign(judged.content.qualifier("grounds"))},
                             {"surely", teller_.doubt(judged)}},
                            teller_.cite(judged)));
    for (const Statement& dated : teller_.said(piece, "made-not-before"))
      told.push_back(
          sentence("piece-not-before",
                   {{"day", teller_.value(dated)}, {"basis", foreign(dated.content.qualifier("basis"))}},
                   teller_.cite(dated)));
  }
  // Where a reading was preferred the report says whose it is, and why.
  for (const char* property : {"of-campaign", "installed", "removed-in-campaign", "removed-for-good"})
    for (const Statement& said : teller_.said(id, property))
      if (of_placement(said, one) && !said.content.why.empty() &&
          std::find(without.begin(), without.end(), said.id) == without.end())
        if (auto words = decision(said, "judged")) told.push_back(std::move(*words));
  for (const std::string_view property : kEvidence)
    for (const Statement& said : teller_.said(id, property))
      if (of_placement(said, one) && std::find(without.begin(), without.end(), said.id) == without.end())
        if (auto words = tell(said, "tell." + std::string(property))) {
          told.push_back(std::move(*words));
          if (auto more = fate(said)) told.push_back(std::move(*more));
        }
  for (const char* link : {"intended-for", "fitted-in"})
    for (const Statement& said : teller_.said(id, link))
      told.push_back(sentence("tell." + std::string(link),
                              {{"value", teller_.value(said)},
                               {"fit", foreign(said.content.qualifier("fit"))},
                               {"doubt", teller_.doubt(said)}},
                              teller_.cite(said)));
  for (const Statement& note : teller_.said(id, "note"))
    told.push_back(as_sentence(foreign(note.content.value), teller_.cite(note)));
  for (const TimelineEither& either : one.either) {
    // One that fixes a date is told by that date's notes; beside a contradiction only evidence is told.
    if (!without.empty() || either.cases.empty() || is_reason(one, either)) continue;
    evidence.points.push_back(cases_of(one, either));
  }
  return evidence;
}

// What an either-or leaves open, one case below the other, and what rules the others out. Where one case is
// left the opening sentence tells it.
Paragraph Builder::cases_of(const TimelineItem& item, const TimelineEither& either) {
  std::vector<std::string> words, open;
  std::vector<int> notes;
  for (const ReasonStep& step : either.statements) {
    words.push_back(foreign(step.words));
    if (const auto said = teller_.statement(step.statement)) add_notes(notes, teller_.cite(*said));
  }
  const bool told_before =
      std::all_of(either.statements.begin(), either.statements.end(), [&](const ReasonStep& step) {
        const auto said = teller_.statement(step.statement);
        return said && said->content.subject == item.record.id && is_evidence(*said);
      });
  Paragraph told;
  std::vector<Paragraph> out;
  for (const TimelineCase& one : either.cases)
    if (one.holds != Membership::no)
      open.push_back(foreign(one.words));
    else
      out.push_back(ruled_out(one, notes));
  if (open.size() > 1)
    for (const std::string& one : open)
      told.points.push_back(paragraph({sentence("either.open", {{"case", one}}, notes)}));
  std::move(out.begin(), out.end(), std::back_inserter(told.points));
  told.sentences.push_back(sentence("either",
                                    {{"what", join(words, "; ")},
                                     {"told", std::string(told_before ? "yes" : "no")},
                                     {"left", static_cast<std::int64_t>(open.size())},
                                     {"all", static_cast<std::int64_t>(either.cases.size())},
                                     {"case", open.empty() ? std::string() : open.front()}},
                                    notes));
  if (!either.all_tried) told.sentences.push_back(remark("either.many"));
  return told;
}

Paragraph Builder::ruled_out(const TimelineCase& one, const std::vector<int>& notes) {
  Paragraph point{{sentence("either.out", {{"case", foreign(one.words)}}, notes)}};
  for (const ReasonStep& step : one.against) {
    const auto said = teller_.statement(step.statement);
    Sentence reason = sentence("either.against", {{"why", foreign(step.words)}});
    if (said) reason.notes = teller_.cite(*said);
    reason.of_report = !said;
    point.sentences.push_back(std::move(reason));
  }
  return point;
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
                              {{"thing", teller_.name(one.record.id)},
                               {"be", be},
                               {"verb", verb},
                               {"surely", surely(one.ends)},
                               {"when", when(one.ends)}},
                              teller_.cite(one.ends))}));
    }
  if (list.entries.empty()) return;
  chapter_.blocks.emplace_back(Heading{4, phrase("phase.taken-out"), {}});
  add(std::move(list));
}

void Builder::add_covered(const Site& site, std::size_t phase) {
  List list;
  for (const std::size_t at : site.items) {
    const TimelineItem& one = item(at);
    const PhasePart* part = part_in(one, phase);
    if (part == nullptr || part->covered == Membership::no || is_finish(at)) continue;
    std::vector<std::string> covers;
    std::vector<int> notes;
    for (const Statement& said : teller_.said_to(one.record.id, "covers")) {
      if (!teller_.record(said.content.subject) || said.content.confidence == Confidence::conjecture)
        continue;
      for (std::size_t other = 0; other < material_.timeline.items.size(); ++other) {
        if (item(other).record.id != said.content.subject || !of_placement(said, item(other))) continue;
        const auto [be, verb] = happening(other, false);
        covers.push_back(phrase("covered.by", {{"cover", teller_.name(item(other).record.id)},
                                               {"be", be},
                                               {"verb", verb},
                                               {"when", when(item(other).begins)},
                                               {"surely", surely(item(other).begins)}}));
        add_notes(notes, teller_.cite(said));
        add_notes(notes, teller_.cite(item(other).begins));
      }
    }
    if (covers.empty()) continue;
    if (!told_covered_.insert(at).second && part->covered == Membership::possible) continue;
    list.entries.push_back(
        paragraph({sentence(part->covered == Membership::certain ? "covered" : "covered-possibly",
                            {{"thing", teller_.name(one.record.id)},
                             {"number", number_of(one.record.name)},
                             {"covers", listing(covers)}},
                            notes)}));
  }
  if (list.entries.empty()) return;
  chapter_.blocks.emplace_back(Heading{4, phrase("phase.covered"), {}});
  add(std::move(list));
}

// The first phase tells all that was to be seen; each later one only what is otherwise than in the one
// before.
void Builder::add_in_view(const Site& site, std::size_t phase, bool tells_more) {
  std::vector<std::size_t> all = site.items;
  all.insert(all.end(), site.elsewhere.begin(), site.elsewhere.end());
  std::map<std::size_t, Sight> seen;
  for (const std::size_t at : all) {
    const PhasePart* part = part_in(item(at), phase);
    if (part == nullptr || is_finish(at) || is_deed(at)) continue;
    if (part->visible == Membership::certain)
      seen[at] = Sight::sure;
    else if (part->visible == Membership::possible && item(at).dated)
      seen[at] = Sight::perhaps;
    else if (part->present == Membership::certain && part->covered == Membership::no)
      seen[at] = Sight::hidden;
  }
  const bool first = seen_.empty();
  std::map<Sight, std::vector<std::string>> told;
  for (const std::size_t at : all) {
    const auto now = seen.find(at), before = seen_.find(at);
    const Sight is = now == seen.end() ? Sight::none : now->second;
    const Sight was = before == seen_.end() ? Sight::none : before->second;
    if (is != was) told[is].push_back(teller_.label(item(at).record.id));
  }
  seen_ = std::move(seen);
  if (told.empty() && (first || !tells_more)) return;
  std::vector<Sentence> sentences;
  if (!first) sentences.push_back(remark(told.empty() ? "view.same" : "view.change"));
  for (const auto& [key, sight] : {std::pair{"sure", Sight::sure}, std::pair{"perhaps", Sight::perhaps},
                                   std::pair{"hidden", Sight::hidden}, std::pair{"none", Sight::none}})
    if (const auto names = told.find(sight); names != told.end())
      sentences.push_back(
          remark(std::string(first ? "view." : "view.now-") + key, {{"names", join(names->second, "; ")}}));
  chapter_.blocks.emplace_back(Heading{4, phrase("phase.view"), {}});
  add(paragraph(std::move(sentences)));
}

}  // namespace lathbook::report
