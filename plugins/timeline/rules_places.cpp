// One of several places: what each would mean for the date.
#include <algorithm>
#include <map>

#include "plugins/timeline/rules.hpp"

namespace lathbook::timeline {

namespace {

// Statements that together name the places that come into question for one placement of a thing.
struct Question {
  std::vector<std::uint32_t> facts;
  std::uint8_t level = kCertain;
};

// By the name of the set and the placement, in the order of the names.
std::map<std::pair<std::string, int>, Question> questions_of(const Facts& facts, const Uuid& thing) {
  std::map<std::pair<std::string, int>, Question> questions;
  for (const std::uint32_t index : facts.about(thing)) {
    const Fact& fact = facts.at(index);
    if (fact.rule() != "one-of-places" || !dates(fact) || !fact.object) continue;
    Question& question =
        questions[{std::string(fact.content().qualifier("set")), fact.placement("placement")}];
    question.facts.push_back(index);
    question.level = std::max(question.level, fact.level);
  }
  return questions;
}

// The place was there when the thing was put up in it. A less sure word of its beginning is not used: it
// would make the whole question less sure.
void add_life(const Facts& facts, const Uuid& place, const Question& question, const Instant& begin,
              Case& one, std::vector<std::uint32_t>& used) {
  for (const std::string_view property : {"place-began", "place-ended"}) {
    const Fact* fact = facts.best(place, property);
    if (!fact || !fact->range || fact->level > question.level) continue;
    const auto& day = property == "place-began" ? fact->range->first : fact->range->last;
    if (!day) continue;
    one.push_back(property == "place-began" ? precede(Instant::at(first_tick(*day)), begin, 0)
                                            : precede(begin, Instant::at(last_tick(*day)), 0));
    used.push_back(facts.index_of(*fact));
  }
}

// 'put-in' of the statement: when, if it was this place. A date marked '?' is too unsure to rule anything
// out.
void add_date(const Fact& fact, const Settings& settings, const Instant& begin, Case& one) {
  const auto range = detail_range(fact.content().qualifier("put-in"), settings);
  if (!range || range->unsure) return;
  if (range->first) one.push_back(precede(Instant::at(first_tick(*range->first)), begin, 0));
  if (range->last) one.push_back(precede(begin, Instant::at(last_tick(*range->last)), 0));
}

void ask(Claims& claims, const Uuid& thing, int placement, const Question& question) {
  const Facts& facts = claims.facts();
  const MaybeInstant begin = claims.instants().begin(thing, placement);
  if (!begin) return;
  std::vector<Case> cases;
  std::vector<CaseMeaning> meanings;
  std::vector<std::uint32_t> used = question.facts;
  for (const std::uint32_t index : question.facts) {
    const Fact& fact = facts.at(index);
    Case& one = cases.emplace_back();
    add_life(facts, *fact.object, question, *begin, one, used);
    add_date(fact, facts.settings(), *begin, one);
    meanings.push_back({CaseSort::in_place, *fact.object});
  }
  std::sort(used.begin() + static_cast<std::ptrdiff_t>(question.facts.size()), used.end());
  used.erase(std::unique(used.begin() + static_cast<std::ptrdiff_t>(question.facts.size()), used.end()),
             used.end());
  const Cause cause = used.size() == 1 ? claims.of(used.front()) : claims.joint(used);
  const std::uint32_t choice = claims.choose(cause, std::move(cases));
  claims.tell({thing, placement, choice, cause, std::move(meanings)});
}

}  // namespace

void apply_place_rules(Claims& claims) {
  for (const RecordInfo& record : claims.facts().records())
    if (record.kind == Kind::element)
      for (const auto& [key, question] : questions_of(claims.facts(), record.id))
        ask(claims, record.id, key.second, question);
}

}  // namespace lathbook::timeline
