// What a view of a spot tells: what it shows without its cover, and what it does not show.
#include <algorithm>

#include "core/base/text.hpp"
#include "plugins/timeline/rules.hpp"

namespace lathbook::timeline {

namespace {

// The face of x is seen uncovered, and y covers x: y was gone by then, or not yet there.
void uncovered(Claims& claims, std::uint32_t seen) {
  const Facts& facts = claims.facts();
  const Fact& view = facts.at(seen);
  const bool by_day = view.rule() == "uncovered-day";
  const MaybeInstant moment =
      by_day ? claims.moment_of(seen) : claims.instants().source(view.object.value_or(Uuid{}));
  if (!moment) return;
  for (const std::uint32_t index : facts.naming(view.subject())) {
    const Fact& cover = facts.at(index);
    if (!hides(cover) || !dates(cover)) continue;
    const int one = view.placement("placement"), other = cover.placement("other-placement");
    if (one != 0 && other != 0 && one != other) continue;
    const int placement = cover.placement("placement");
    const MaybeInstant begin = claims.instants().begin(cover.subject(), placement);
    const MaybeInstant end = claims.instants().end(cover.subject(), placement);
    if (!begin || !end) continue;
    const Cause cause = claims.joint({seen, index});
    const std::uint32_t choice =
        claims.choose(cause, {{precede(*end, *moment, 0)}, {precede(*moment, *begin, 1)}});
    claims.tell({cover.subject(), placement, choice, cause, {{CaseSort::gone, {}}, {CaseSort::not_yet, {}}}});
  }
}

// A placement of something recorded in front of the thing that is not seen.
struct Screen {
  Uuid record;
  int placement = 1;
};

// Everything in front of a placement: what hides it, what is laid over it, the coat next over it. Also what
// is only supposed, or whose contact was not read, can hide; the statements that may be given up for an error
// are gathered in `facts`.
class Screens {
public:
  Screens(const Claims& claims, const Uuid& record, int placement) : claims_(claims), placement_(placement) {
    for (const std::uint32_t index : claims.facts().naming(record)) consider(index);
    if (const LayerOver* over = claims.layer_over(record)) {
      add(over->upper, 0);
      const auto& said = claims.at(over->cause).facts;
      facts.insert(facts.end(), said.begin(), said.end());
    }
    std::sort(facts.begin(), facts.end());
    facts.erase(std::unique(facts.begin(), facts.end()), facts.end());
  }

  std::vector<Screen> all;
  std::vector<std::uint32_t> facts;

private:
  void consider(std::uint32_t index) {
    const Fact& fact = claims_.facts().at(index);
    // What lies over a part may lie over the very spot.
    if (fact.name() != "in-front-of" && fact.rule() != "covers" && !hides(fact)) return;
    const int said = fact.placement("other-placement");
    if (said != 0 && said != placement_) return;
    add(fact.subject(), fact.placement("placement"));
    if (fact.level != kNever) facts.push_back(index);
  }

  void add(const Uuid& record, int said) {
    const int count = claims_.instants().placements(record);
    for (int at = std::max(said, 1); at <= (said == 0 ? count : std::min(said, count)); ++at)
      if (std::none_of(all.begin(), all.end(),
                       [&](const Screen& one) { return one.record == record && one.placement == at; }))
        all.push_back({record, at});
  }

  const Claims& claims_;
  int placement_;
};

// The spot is in view, and it is not there: gone, not yet there, or behind something that then stood there.
void absent_placement(Claims& claims, std::uint32_t view, const Instant& moment, int placement) {
  const Fact& fact = claims.facts().at(view);
  const Instants& instants = claims.instants();
  const MaybeInstant begin = instants.begin(fact.subject(), placement);
  const MaybeInstant end = instants.end(fact.subject(), placement);
  if (!begin || !end) return;
  std::vector<Case> cases{{precede(*end, moment, 0)}, {precede(moment, *begin, 1)}};
  std::vector<CaseMeaning> meanings{{CaseSort::gone, {}}, {CaseSort::not_yet, {}}};
  std::vector<std::uint32_t> facts{view};
  if (fact.content().qualifier("could-be-hidden") != "no") {
    const Screens screens(claims, fact.subject(), placement);
    for (const Screen& screen : screens.all) {
      cases.push_back({precede(*instants.begin(screen.record, screen.placement), moment, 0),
                       precede(moment, *instants.end(screen.record, screen.placement), 1)});
      meanings.push_back({CaseSort::hidden, screen.record});
    }
    facts.insert(facts.end(), screens.facts.begin(), screens.facts.end());
  }
  const Cause cause = facts.size() == 1 ? claims.of(view) : claims.joint(facts);
  const std::uint32_t choice = claims.choose(cause, std::move(cases));
  claims.tell({fact.subject(), placement, choice, cause, std::move(meanings)});
}

// Where something that nobody recorded may have hidden it, nothing follows.
void absent(Claims& claims, std::uint32_t view) {
  const Fact& fact = claims.facts().at(view);
  const std::string_view hidden = fact.content().qualifier("could-be-hidden");
  if (hidden.empty() || hidden == "yes" || trim(fact.content().qualifier("ground")).empty()) return;
  const MaybeInstant moment = claims.instants().source(fact.object.value_or(Uuid{}));
  if (!moment) return;
  const int named = fact.placement("placement");
  const int count = claims.instants().placements(fact.subject());
  for (int at = std::max(named, 1); at <= (named == 0 ? count : std::min(named, count)); ++at)
    absent_placement(claims, view, *moment, at);
}

}  // namespace

bool hides(const Fact& fact) {
  if (!fact.object || fact.content().qualifier("extent") == "a part of it") return false;
  if (fact.rule() == "covers" || fact.rule() == "fills") return true;
  if (fact.name() != "fixed-to") return false;
  return fact.content().qualifier("contact") == "bedded on" ||
         fact.content().qualifier("extent") == "the whole of it";
}

void apply_sight_rules(Claims& claims) {
  const auto count = static_cast<std::uint32_t>(claims.facts().all().size());
  for (std::uint32_t index = 0; index < count; ++index) {
    const Fact& fact = claims.facts().at(index);
    if (!dates(fact)) continue;
    if (fact.rule() == "uncovered" || fact.rule() == "uncovered-day") uncovered(claims, index);
    if (fact.rule() == "absent") absent(claims, index);
  }
}

}  // namespace lathbook::timeline
