// What is said of a thing beside its date: what it covers, fills or replaces, where it is seen, billed or
// mentioned, and either-ors that are open.
#include <algorithm>
#include <array>
#include <iterator>
#include <string_view>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"
#include "plugins/report/items.hpp"

namespace lathbook::report {

namespace {

/// Evidence told under a thing, in this order.
constexpr std::array<std::string_view, 14> kEvidence{
    "seen-in",      "uncovered-in", "as-built-in", "billed-in",  "proposed-in",
    "mentioned-in", "absent-from",  "not-yet-in",  "gone-by",    "like-seen-in",
    "standing-by",  "not-yet-on",   "gone-on",     "reused-from"};

/// A qualifier in words: a region of the picture is for programs; the caption of the note's picture has it.
std::string detail(const Statement& said, const char* name) {
  std::string words = foreign(said.content.qualifier(name));
  if (const auto region = words.find("xywh="); region != std::string::npos)
    words = std::string(trim(words.substr(0, region)));
  while (!words.empty() && (words.back() == ';' || words.back() == ',')) words.pop_back();
  return words;
}

/// Both can stand in one sentence.
bool are_alike(const Statement& one, const Statement& other) {
  if (one.content.confidence != other.content.confidence) return false;
  for (const char* name : {"feature", "spot", "says", "ground"})
    if (!detail(one, name).empty() || !detail(other, name).empty()) return false;
  return true;
}

bool is_evidence(const Statement& said) {
  const Property* property = Registry::standard().find(said.content.property);
  return property != nullptr &&
         std::find(kEvidence.begin(), kEvidence.end(), property->name) != kEvidence.end();
}

}  // namespace

/// ", over the sea-green tile field (N-203)" of what it covers, fills or replaces.
std::string Builder::relations(std::size_t at, std::vector<int>& notes) {
  std::string words;
  for (const char* property : {"covers", "fills", "replaces", "part-of"}) {
    std::vector<std::string> others;
    for (const Statement& said : teller_.said(item(at).record.id, property)) {
      if (!of_placement(said, item(at)) || said.content.confidence == Confidence::conjecture) continue;
      add_once(others, teller_.value(said));
      add_notes(notes, teller_.cite(said));
    }
    if (!others.empty()) words += phrase("relation." + std::string(property), {{"names", listing(others)}});
  }
  return words;
}

/// Statements of one property that differ in their values alone, in one sentence.
std::optional<Sentence> Builder::tell(const std::vector<Statement>& alike, const std::string& key) {
  std::vector<std::string> values;
  for (const Statement& said : alike) {
    const Property* property = Registry::standard().find(said.content.property);
    if (property != nullptr && property->type == ValueType::record) {
      const auto target = Uuid::parse(said.content.value);
      if (!target || !teller_.record(*target)) continue;
    }
    values.push_back(teller_.value(said));
  }
  if (values.empty()) return std::nullopt;
  const Statement& first = alike.front();
  const auto slot = [&](const char* name) {
    std::string words = detail(first, name);
    // The feature may name the spot already.
    if (std::string_view(name) == "spot" && detail(first, "feature").find(words) != std::string::npos)
      words.clear();
    return words.empty() ? words : phrase(std::string("detail.") + name, {{"words", words}});
  };
  return sentence(key,
                  {{"value", listing(values)},
                   {"feature", slot("feature")},
                   {"spot", slot("spot")},
                   {"says", slot("says")},
                   {"ground", slot("ground")},
                   {"doubt", teller_.doubt(first)}},
                  alike.size() == 1 ? teller_.cite(first) : teller_.notes().cite_together(alike));
}

Paragraph Builder::evidence(std::size_t at) {
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
      if (of_placement(said, one) && !said.content.why.empty())
        if (auto words = decision(said, "judged")) told.push_back(std::move(*words));
  std::set<std::size_t> elsewhere;  // contradictions that tell what the dates do without
  for (const std::string_view property : kEvidence) {
    std::vector<std::vector<Statement>> groups;
    for (const Statement& said : teller_.said(id, property)) {
      if (!of_placement(said, one)) continue;
      if (is_left_out(said)) {
        elsewhere.insert(disputed_.at(said.id).begin(), disputed_.at(said.id).end());
        continue;
      }
      const bool joins = !groups.empty() && are_alike(groups.back().front(), said) && !fate(said) &&
                         !fate(groups.back().front());
      if (joins)
        groups.back().push_back(said);
      else
        groups.push_back({said});
    }
    for (const std::vector<Statement>& group : groups)
      if (auto words = tell(group, "tell." + std::string(property))) {
        told.push_back(std::move(*words));
        if (auto more = fate(group.front())) told.push_back(std::move(*more));
      }
  }
  if (!elsewhere.empty()) told.push_back(remark("contradiction.left-out", {{"which", see(elsewhere)}}));
  for (std::size_t other = 0; other < material_.timeline.items.size() && one.placements > 1; ++other)
    if (item(other).record.id == id && item(other).placement != one.placement && is_dated(item(other).begins))
      told.push_back(sentence("placement.other",
                              {{"thing", name_of(other)},
                               {"number", number_of(one.record.name)},
                               {"surely", surely(item(other).begins)},
                               {"when", when(item(other).begins)}},
                              cite_ends(item(other).begins)));
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
    // One of which a single case is left is told with the proofs.
    if (either.cases.empty() || is_closed(either)) continue;
    evidence.points.push_back(cases_of(one, either));
  }
  return evidence;
}

// What an either-or leaves open, one case below the other, and what rules the others out. Where one case is
// left the opening sentence tells it.
Paragraph Builder::cases_of(const TimelineItem& item, const TimelineEither& either, bool beside) {
  std::vector<std::string> words, open;
  std::vector<int> notes;
  for (const ReasonStep& step : either.statements) {
    words.push_back(foreign(step.words));
    if (const auto said = teller_.statement(step.statement)) add_notes(notes, teller_.cite(*said));
  }
  const bool told_before =
      beside && std::all_of(either.statements.begin(), either.statements.end(), [&](const ReasonStep& step) {
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

bool Builder::is_closed(const TimelineEither& either) {
  return std::count_if(either.cases.begin(), either.cases.end(),
                       [](const TimelineCase& one) { return one.holds != Membership::no; }) == 1;
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

}  // namespace lathbook::report
