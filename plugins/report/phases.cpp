// The history of a site by phases: what was put in, taken out, covered up, to be seen.
#include <algorithm>
#include <array>
#include <string_view>
#include <tuple>

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

}  // namespace

void Builder::add_phases(const Site& site) {
  if (site.items.empty()) return;
  add_phase_charts(site);
  for (std::size_t phase = 0; phase < material_.timeline.phases.size(); ++phase) add_phase(site, phase);
}

void Builder::add_phase(const Site& site, std::size_t phase) {
  const TimelinePhase& one = material_.timeline.phases[phase];
  const auto info = teller_.record(one.record.id);
  if (!info) return;
  const std::size_t before = chapter_.blocks.size();
  chapter_.blocks.emplace_back(Heading{3, foreign(info->name.empty() ? display(*info) : info->name), {}});
  const std::size_t opened = chapter_.blocks.size();
  std::vector<int> notes = teller_.cite(one.opens);
  for (const Statement& said : teller_.said(one.record.id, "opened-by")) add_notes(notes, teller_.cite(said));
  const bool by_works = teller_.record(one.campaign.id).has_value();
  add(sentence(by_works ? "phase.opened-by" : "phase.opened",
               {{"works", by_works ? teller_.name(one.campaign.id) : std::string()},
                {"surely", surely(one.opens)},
                {"when", is_dated(one.opens) ? when(one.opens, teller_.about(one.opens))
                                             : " " + phrase("when.unknown")}},
               notes));
  const std::size_t told = chapter_.blocks.size();
  add_put_in(site, phase, Membership::certain);
  add_put_in(site, phase, Membership::possible);
  add_taken_out(site, phase);
  add_covered(site, phase);
  add_in_view(site, phase);
  if (chapter_.blocks.size() == told) {
    if (opened == told)
      chapter_.blocks.resize(before);
    else
      add(remark("phase.nothing"));
  }
}

// Things of one date that nothing more is said of are told in one sentence; each of the others has its own.
void Builder::add_put_in(const Site& site, std::size_t phase, Membership wanted) {
  using Key = std::tuple<std::string, std::string>;
  std::vector<std::pair<Key, std::vector<std::size_t>>> together;
  List list;
  for (const std::size_t at : site.items) {
    const PhasePart* part = part_in(item(at), phase);
    if (part == nullptr || part->installed != wanted) continue;
    if (wanted == Membership::possible && (told_[at] || !item(at).dated)) continue;
    std::vector<int> scratch;
    const bool plain = relations(at, scratch).empty() && evidence(at).empty();
    const Span& begins = item(at).begins;
    const std::string of_class = teller_.view(item(at).record.id).text("element-class");
    if (plain && !is_finish(at) && of_class != "cut" && of_class != "ghost" && of_class != "opening") {
      const Key key{when(begins, teller_.about(begins)), surely(begins) + "|" + part->how};
      auto found =
          std::find_if(together.begin(), together.end(), [&](const auto& one) { return one.first == key; });
      if (found == together.end()) found = together.insert(together.end(), {key, {}});
      found->second.push_back(at);
      told_[at] = true;
      continue;
    }
    if (is_finish(at)) continue;  // told layer by layer in the finish schedule
    std::vector<Sentence> told{put_in(at, part->how)};
    if (!told_[at])
      for (Sentence& more : evidence(at)) told.push_back(std::move(more));
    told_[at] = true;
    list.entries.push_back(paragraph(std::move(told)));
  }
  List groups;
  for (const auto& [key, members] : together) {
    std::vector<int> notes;
    std::vector<std::string> names;
    for (const std::size_t at : members) {
      names.push_back(teller_.name(item(at).record.id));
      add_notes(notes, teller_.cite(item(at).begins));
    }
    const std::string how = part_in(item(members.front()), phase)->how;
    groups.entries.push_back(paragraph({sentence(members.size() == 1 ? "put-in.one-plain" : "put-in.together",
                                                 {{"names", listing(names)},
                                                  {"n", static_cast<std::int64_t>(members.size())},
                                                  {"number", number_of(item(members.front()).record.name)},
                                                  {"surely", surely(item(members.front()).begins)},
                                                  {"when", std::get<0>(key)},
                                                  {"how", how.empty() ? how : phrase("how." + how)}},
                                                 notes)}));
  }
  if (groups.entries.empty() && list.entries.empty()) return;
  chapter_.blocks.emplace_back(
      Heading{4, phrase(wanted == Membership::certain ? "phase.put-in" : "phase.put-in-possibly"), {}});
  for (Paragraph& entry : list.entries) groups.entries.push_back(std::move(entry));
  add(std::move(groups));
}

Sentence Builder::put_in(std::size_t at, const std::string& how) {
  const TimelineItem& one = item(at);
  const std::string element_class = teller_.view(one.record.id).text("element-class");
  std::vector<int> notes = teller_.cite(one.begins);
  const std::string behind = relations(at, notes);
  return sentence(
      "put-in",
      {{"thing", teller_.name(one.record.id)},
       {"number", number_of(one.record.name)},
       {"surely", surely(one.begins)},
       {"verb", phrase("verb", {{"class", is_finish(at) ? std::string("finish") : choice(element_class)}})},
       {"when", when(one.begins, teller_.about(one.begins))},
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

std::vector<Sentence> Builder::evidence(std::size_t at, const std::vector<Digest>& without) {
  const TimelineItem& one = item(at);
  const Uuid id = one.record.id;
  std::vector<Sentence> told;
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
  for (const std::string_view property : kEvidence)
    for (const Statement& said : teller_.said(id, property))
      if (of_placement(said, one) && std::find(without.begin(), without.end(), said.id) == without.end())
        if (auto words = tell(said, "tell." + std::string(property))) told.push_back(std::move(*words));
  for (const TimelineEither& either : one.either) {
    // One that fixes a date is told by that date's notes; beside a contradiction only evidence is told.
    if (!without.empty() || either.words.empty() || is_reason(one, either)) continue;
    std::vector<int> notes;
    for (const ReasonStep& step : either.statements)
      if (const auto said = teller_.statement(step.statement)) add_notes(notes, teller_.cite(*said));
    told.push_back(as_sentence(foreign(either.words), notes));
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
  return told;
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
      if (wanted == Membership::possible && !told_removed_.insert(at).second) continue;
      std::vector<int> notes = teller_.cite(one.ends);
      list.entries.push_back(
          paragraph({sentence(wanted == Membership::certain ? "taken-out" : "taken-out-possibly",
                              {{"thing", teller_.name(one.record.id)},
                               {"number", number_of(one.record.name)},
                               {"surely", surely(one.ends)},
                               {"when", when(one.ends, teller_.about(one.ends))}},
                              notes)}));
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
        covers.push_back(phrase("covered.by", {{"cover", teller_.name(item(other).record.id)},
                                               {"when", when(item(other).begins)},
                                               {"surely", surely(item(other).begins)}}));
        add_notes(notes, teller_.cite(said));
        add_notes(notes, teller_.cite(item(other).begins));
      }
    }
    if (covers.empty()) continue;
    if (part->covered == Membership::possible && !told_covered_.insert(at).second) continue;
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

void Builder::add_in_view(const Site& site, std::size_t phase) {
  std::vector<std::string> sure, perhaps, hidden;
  std::vector<std::size_t> all = site.items;
  all.insert(all.end(), site.elsewhere.begin(), site.elsewhere.end());
  for (const std::size_t at : all) {
    const PhasePart* part = part_in(item(at), phase);
    if (part == nullptr || is_finish(at)) continue;
    const std::string name = teller_.label(item(at).record.id);
    if (part->visible == Membership::certain)
      sure.push_back(name);
    else if (part->visible == Membership::possible && item(at).dated)
      perhaps.push_back(name);
    else if (part->present == Membership::certain && part->covered == Membership::no)
      hidden.push_back(name);
  }
  if (sure.empty() && perhaps.empty() && hidden.empty()) return;
  std::vector<Sentence> told;
  if (!sure.empty()) told.push_back(remark("view.sure", {{"names", join(sure, "; ")}}));
  if (!perhaps.empty()) told.push_back(remark("view.perhaps", {{"names", join(perhaps, "; ")}}));
  if (!hidden.empty()) told.push_back(remark("view.hidden", {{"names", join(hidden, "; ")}}));
  chapter_.blocks.emplace_back(Heading{4, phrase("phase.view"), {}});
  add(paragraph(std::move(told)));
}

}  // namespace lathbook::report
