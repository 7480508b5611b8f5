// The phases and what each holds; every thing told in full once, at the first place it belongs.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/sheet/builder.hpp"
#include "plugins/sheet/phrases.hpp"

namespace lathbook::sheet {

namespace {

/// Whether the statement speaks of this placement of the item, or of none in particular.
bool of_placement(const Statement& statement, const TimelineItem& item) {
  const std::string_view said = statement.content.qualifier("placement");
  return item.placements < 2 || said.empty() || said == std::to_string(item.placement);
}

const PhasePart* part_in(const TimelineItem& item, std::size_t phase) {
  for (const PhasePart& part : item.phases)
    if (part.phase == phase) return &part;
  return nullptr;
}

/// Whether a date told of the item rests on the statement.
bool is_reason(const TimelineItem& item, const Digest& statement) {
  for (const Bound* bound :
       {&item.begins.earliest, &item.begins.latest, &item.ends.earliest, &item.ends.latest})
    for (const ReasonStep& step : bound->reason)
      if (bound->known && step.statement == statement) return true;
  return false;
}

/// Whether the making of the thing says more than its beginning does.
bool tells_more(const Span& made, const Span& begins) {
  return made.earliest.known ||
         (made.latest.known && (!begins.latest.known || made.latest.day < begins.latest.day));
}

void add_words(Sentence& sentence, std::string words) {
  sentence.parts.push_back({std::move(words), std::nullopt, false});
}

}  // namespace

void Builder::add_phases() {
  for (std::size_t at = 0; at < timeline_.phases.size(); ++at) {
    const auto info = teller_.record(timeline_.phases[at].record.id);
    if (!info) continue;
    Chapter chapter;
    chapter.number = timeline_.phases[at].number;
    chapter.heading = foreign(info->name.empty() ? display(*info) : info->name);
    chapter.opening = opening_of(at);
    add_groups(chapter, at);
    sheet_.phases.push_back(std::move(chapter));
  }
}

std::vector<Sentence> Builder::opening_of(std::size_t phase) {
  const TimelinePhase& one = timeline_.phases[phase];
  // Phases have no place among the items; their dates are kept behind them.
  const std::size_t key = items_.size() + phase;
  const auto campaign = teller_.record(one.campaign.id);
  const std::string works = campaign ? teller_.name(campaign->id) : std::string();
  const std::string this_phase = teller_.name(one.record.id);
  std::vector<Sentence> said;
  Sentence opens;
  add_words(opens, fill(campaign ? english().opened_by : english().opened, {{"works", works}}));
  add_date(opens, why(key, Side::opens, one.opens, std::string(english().opening_of) + this_phase));
  add_words(opens, ".");
  for (const Statement& statement : teller_.said(one.record.id, "opened-by"))
    add_notes(opens.notes, teller_.cite(statement));
  said.push_back(std::move(opens));
  if (campaign && (one.works_end.earliest.known || one.works_end.latest.known)) {
    Sentence over;
    add_words(over, std::string(english().these_over));
    add_date(over, why(key, Side::works_end, one.works_end, std::string(english().end_of) + works));
    add_words(over, ".");
    said.push_back(std::move(over));
  }
  return said;
}

void Builder::add_groups(Chapter& chapter, std::size_t phase) {
  const Words& words = english();
  const auto gather = [&](const std::string& sort, std::string_view label, Membership wanted,
                          const auto& membership, const auto& tell, bool names_only) {
    Group group;
    group.sort = sort;
    group.surely = wanted == Membership::certain;
    group.names_only = names_only;
    group.label = std::string(label) + ", " + std::string(group.surely ? words.surely : words.possibly);
    for (std::size_t at = 0; at < items_.size(); ++at) {
      const PhasePart* part = part_in(items_[at], phase);
      if (part == nullptr || membership(*part) != wanted) continue;
      if (!items_[at].dated && !group.surely) continue;
      // An end that nothing fixes is no sign that the thing was ever taken out.
      if (sort == "taken-out" && !group.surely && !items_[at].ends.latest.known) continue;
      group.entries.push_back(tell(at, *part));
    }
    if (!group.entries.empty()) chapter.groups.push_back(std::move(group));
  };
  const auto by_name = [&](std::size_t at, const PhasePart&) {
    return Entry{at, sentence_of(teller_.name(items_[at].record.id)), {}};
  };
  const auto hidden = [](const PhasePart& part) {
    return part.visible == Membership::no && part.covered == Membership::no ? part.present : Membership::no;
  };
  for (const Membership wanted : {Membership::certain, Membership::possible})
    gather(
        "put-in", words.put_in, wanted, [](const PhasePart& part) { return part.installed; },
        [&](std::size_t at, const PhasePart& part) { return put_in(at, part.how); }, false);
  for (const Membership wanted : {Membership::certain, Membership::possible})
    gather(
        "taken-out", words.taken_out, wanted, [](const PhasePart& part) { return part.removed; },
        [&](std::size_t at, const PhasePart&) { return taken_out(at); }, false);
  for (const Membership wanted : {Membership::certain, Membership::possible})
    gather(
        "covered-up", words.covered_up, wanted, [](const PhasePart& part) { return part.covered; },
        [&](std::size_t at, const PhasePart&) { return covered_up(at); }, false);
  for (const Membership wanted : {Membership::certain, Membership::possible})
    gather(
        "to-be-seen", words.to_be_seen, wanted, [](const PhasePart& part) { return part.visible; }, by_name,
        true);
  for (const Membership wanted : {Membership::certain, Membership::possible})
    gather("out-of-sight", words.out_of_sight, wanted, hidden, by_name, true);
}

void Builder::add_others() {
  for (std::size_t at = 0; at < items_.size(); ++at) {
    if (is_piece(at)) continue;
    const bool put_in_somewhere =
        std::any_of(items_[at].phases.begin(), items_[at].phases.end(),
                    [](const PhasePart& part) { return part.installed != Membership::no; });
    if (items_[at].dated && !told_[at] && !put_in_somewhere) sheet_.outside.push_back(put_in(at, {}));
  }
  for (std::size_t at = 0; at < items_.size(); ++at)
    if (!items_[at].dated && !told_[at] && !is_piece(at)) sheet_.undated.push_back(undated(at));
  for (std::size_t at = 0; at < items_.size(); ++at)
    if (is_piece(at)) sheet_.pieces.push_back(piece(at));
}

bool Builder::is_piece(std::size_t item) const {
  const Kind kind = items_[item].record.kind;
  return kind == Kind::piece || kind == Kind::find;
}

Entry Builder::put_in(std::size_t item, const std::string& how) {
  const TimelineItem& one = items_[item];
  const RecordInfo info = *teller_.record(one.record.id);
  const std::string name = teller_.name(info.id);
  const std::string element_class =
      info.kind == Kind::finish ? "finish" : RecordView::read(teller_.reader(), info).text("element-class");
  Entry entry;
  entry.thing = item;
  add_words(entry.head,
            fill(english().came_in, {{"thing", capital(name)}, {"came", came_in(element_class, info.name)}}));
  add_date(entry.head, why(item, Side::begins, one.begins, std::string(english().beginning_of) + name));
  if (how == "piecemeal")
    add_words(entry.head, std::string(english().piecemeal));
  else if (how == "by the opening works")
    add_words(entry.head, std::string(english().by_works));
  if (told_[item]) {
    add_words(entry.head, ".");
    return entry;
  }
  told_[item] = true;
  add_relations(entry.head, item);
  add_words(entry.head, ".");
  add_all_that_is_said(entry);
  return entry;
}

Entry Builder::taken_out(std::size_t item) {
  const std::string name = teller_.name(items_[item].record.id);
  Entry entry;
  entry.thing = item;
  add_words(entry.head,
            fill(english().taken, {{"thing", capital(name)}, {"was", was(items_[item].record.name)}}));
  add_date(entry.head, why(item, Side::ends, items_[item].ends, std::string(english().end_of) + name));
  add_words(entry.head, ".");
  return entry;
}

Entry Builder::covered_up(std::size_t item) {
  Entry entry;
  entry.thing = item;
  const std::string name = teller_.name(items_[item].record.id);
  add_words(entry.head,
            fill(english().covered, {{"thing", capital(name)}, {"was", was(items_[item].record.name)}}));
  bool any = false;
  for (const TimelineCover& over : items_[item].under) {
    const auto at = std::find_if(items_.begin(), items_.end(), [&](const TimelineItem& one) {
      return one.record.id == over.record && one.placement == over.placement;
    });
    std::vector<int> notes;
    for (const std::string_view property : {"covers", "fills", "fixed-to"})
      for (const Statement& statement : teller_.said_to(items_[item].record.id, property))
        if (statement.content.subject == over.record) add_notes(notes, teller_.cite(statement));
    if (at == items_.end() || notes.empty()) continue;
    const std::string cover = teller_.name(over.record);
    add_words(entry.head, fill(any ? english().covered_also : english().covered_by, {{"cover", cover}}));
    const auto place = static_cast<std::size_t>(at - items_.begin());
    add_date(entry.head, why(place, Side::begins, at->begins, std::string(english().beginning_of) + cover));
    add_notes(entry.head.notes, notes);
    any = true;
  }
  add_words(entry.head, any ? "." : std::string(english().covered_somehow));
  return entry;
}

Entry Builder::undated(std::size_t item) {
  Entry entry;
  entry.thing = item;
  told_[item] = true;
  std::string words = capital(teller_.name(items_[item].record.id));
  const Thing& thing = sheet_.things[item];
  if (!thing.type.empty()) words += ", " + thing.type;
  add_words(entry.head, words);
  add_relations(entry.head, item);
  add_words(entry.head, ".");
  add_all_that_is_said(entry);
  return entry;
}

Entry Builder::piece(std::size_t item) {
  const TimelineItem& one = items_[item];
  const std::string name = teller_.name(one.record.id);
  Entry entry;
  entry.thing = item;
  add_words(entry.head, fill(english().made, {{"thing", capital(name)}, {"was", was(one.record.name)}}));
  add_date(entry.head, why(item, Side::made, one.made, std::string(english().making_of) + name));
  add_words(entry.head, ".");
  return entry;
}

void Builder::add_relations(Sentence& sentence, std::size_t item) {
  for (const auto& [property, words] : {std::pair{"covers", english().over},
                                        {"fills", english().filling},
                                        {"replaces", english().in_place_of}}) {
    std::vector<std::string> others;
    for (const Statement& statement : teller_.said(items_[item].record.id, property)) {
      if (!of_placement(statement, items_[item]) || statement.content.confidence == Confidence::conjecture)
        continue;
      const std::string other = teller_.value(statement);
      if (std::find(others.begin(), others.end(), other) == others.end()) others.push_back(other);
      add_notes(sentence.notes, teller_.cite(statement));
    }
    if (!others.empty()) add_words(sentence, std::string(words) + listed(others));
  }
}

void Builder::add_all_that_is_said(Entry& entry) {
  const std::size_t item = entry.thing;
  const TimelineItem& one = items_[item];
  const std::string name = teller_.name(one.record.id);
  if (tells_more(one.made, one.begins)) {
    Sentence made;
    add_words(made, std::string(english().itself_made));
    add_date(made, why(item, Side::made, one.made, std::string(english().making_of) + name));
    add_words(made, ".");
    entry.more.push_back(std::move(made));
  }
  std::vector<std::string> also;
  for (const RecordInfo& other : one.also)
    if (teller_.record(other.id)) also.push_back(teller_.name(other.id));
  if (!also.empty())
    entry.more.push_back(sentence_of(fill(english().also_recorded, {{"names", listed(also)}})));
  add_original_pieces(entry);
  const auto names = [](const std::vector<ReasonStep>& steps, const Statement& statement) {
    return std::any_of(steps.begin(), steps.end(),
                       [&](const ReasonStep& step) { return step.statement == statement.id; });
  };
  // What is told by itself further down.
  const auto is_told = [&](const Statement& statement) {
    return names(one.remarks, statement) ||
           std::any_of(one.either.begin(), one.either.end(),
                       [&](const TimelineEither& either) { return names(either.statements, statement); });
  };
  for (const Telling& telling_of : english().tellings)
    for (const Statement& statement : teller_.said(one.record.id, telling_of.property))
      if (of_placement(statement, one) && !is_told(statement) &&
          !(telling_of.by_date && is_reason(one, statement.id)))
        if (auto said = telling(statement, telling_of.pattern)) entry.more.push_back(std::move(*said));
  if (!one.ends.latest.known && one.ends.earliest.known && !one.last_seen.empty()) {
    Sentence seen;
    const std::size_t place = why(item, Side::ends, one.ends, std::string(english().end_of) + name);
    seen.parts.push_back({capital(foreign(one.last_seen)) + ".", place, true});
    for (const Step& step : sheet_.whys[place].earliest.steps) add_notes(seen.notes, step.notes);
    entry.more.push_back(std::move(seen));
  }
  add_bared(entry);
  for (const TimelineEither& either : one.either) {
    // What a view of another thing leaves of this one's dates is told as their reason.
    const auto leading = teller_.statement(either.statements.front().statement);
    const auto open = std::count_if(either.cases.begin(), either.cases.end(),
                                    [](const TimelineCase& left) { return left.holds != Membership::no; });
    if (open == 1 && leading && leading->content.subject != one.record.id) continue;
    std::vector<int> notes;
    for (const ReasonStep& step : either.statements)
      if (const auto statement = teller_.statement(step.statement))
        add_notes(notes, teller_.cite(*statement));
    for (const TimelineCase& one_case : either.cases)
      for (const ReasonStep& step : one_case.against)
        if (const auto statement = teller_.statement(step.statement))
          add_notes(notes, teller_.cite(*statement));
    entry.more.push_back(sentence_of(foreign(either.words), notes));
  }
  for (const ReasonStep& remark : one.remarks) {
    std::set<Digest> shown;
    const Step step = teller_.step(remark, shown);
    entry.more.push_back(sentence_of(step.words + ".", step.notes));
  }
}

void Builder::add_bared(Entry& entry) {
  for (const TimelineCover& cover : items_[entry.thing].under)
    for (std::size_t at = 0; at < items_.size(); ++at) {
      const TimelineItem& one = items_[at];
      if (one.record.id != cover.record || one.placement != cover.placement || !one.ends.latest.known)
        continue;
      Sentence bared;
      const std::string name = teller_.name(one.record.id);
      add_words(bared, fill(english().bared, {{"cover", name}, {"was", was(one.record.name)}}));
      add_date(bared, why(at, Side::ends, one.ends, std::string(english().end_of) + name));
      add_words(bared, ".");
      entry.more.push_back(std::move(bared));
    }
}

void Builder::add_original_pieces(Entry& entry) {
  for (const Statement& judged : teller_.said_to(items_[entry.thing].record.id, "original-to")) {
    if (!of_placement(judged, items_[entry.thing])) continue;
    const Uuid piece = judged.content.subject;
    if (!teller_.record(piece)) continue;
    const std::string grounds = foreign(judged.content.qualifier("grounds"));
    entry.more.push_back(sentence_of(fill(grounds.empty() ? english().original : english().original_since,
                                          {{"piece", capital(teller_.name(piece))}, {"grounds", grounds}}),
                                     teller_.cite(judged)));
    for (const Statement& dated : teller_.said(piece, "made-not-before")) {
      const std::string basis = foreign(dated.content.qualifier("basis"));
      Sentence sentence = sentence_of(std::string(english().not_older), teller_.cite(dated));
      sentence.parts.push_back({teller_.value(dated), std::nullopt, true});
      add_words(sentence, (basis.empty() ? "" : " (" + basis + ")") + ".");
      entry.more.push_back(std::move(sentence));
    }
  }
}

std::optional<Sentence> Builder::telling(const Statement& statement, std::string_view pattern) {
  const Content& content = statement.content;
  const auto detail = [&](std::string_view before, std::string_view name) {
    const std::string words = foreign(spot_in_words(content.qualifier(name)));
    return words.empty() ? words : std::string(before) + words;
  };
  const Property* property = Registry::standard().find(content.property);
  if (property != nullptr && property->type == ValueType::record) {
    const auto target = Uuid::parse(content.value);
    if (!target || !teller_.record(*target)) return std::nullopt;
  }
  const std::string value = teller_.value(statement);
  Sentence sentence;
  std::string words = capital(fill(pattern, {{"source", value},
                                             {"value", value},
                                             {"when", when_words(value)},
                                             {"feature", detail(english().known_by, "feature")},
                                             {"spot", detail(": ", "spot")}}));
  if (content.confidence != Confidence::certain && content.confidence != Confidence::none)
    words.insert(words.size() - 1, " (" + std::string(word(content.confidence)) + ")");
  sentence.parts.push_back({std::move(words), std::nullopt, true});
  sentence.notes = teller_.cite(statement);
  return sentence;
}

}  // namespace lathbook::sheet
