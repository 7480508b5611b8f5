// One row for every rule that a single statement carries.
#include "plugins/timeline/rules.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

#include "core/base/text.hpp"

namespace lathbook::timeline {

namespace {

// One fact at work: its instants under short names, and constraints in its name. 'One' is the subject,
// 'other' the record named as the value.
struct Row {
  Claims& claims;
  std::uint32_t index;
  Cause cause;

  const Fact& fact() const { return claims.facts().at(index); }
  const Instants& instants() const { return claims.instants(); }
  Uuid other() const { return fact().object.value_or(Uuid{}); }

  MaybeInstant begin() const { return instants().begin(fact().subject(), fact().placement("placement")); }
  MaybeInstant end() const { return instants().end(fact().subject(), fact().placement("placement")); }
  MaybeInstant made() const { return instants().made(fact().subject()); }
  MaybeInstant other_begin(std::string_view placement = "other-placement") const {
    return instants().begin(other(), fact().placement(placement));
  }
  MaybeInstant other_end(std::string_view placement = "other-placement") const {
    return instants().end(other(), fact().placement(placement));
  }
  MaybeInstant source() const { return instants().source(other()); }
  MaybeInstant first() const {
    if (!fact().range || !fact().range->first) return std::nullopt;
    return Instant::at(first_tick(*fact().range->first));
  }
  MaybeInstant last() const {
    if (!fact().range || !fact().range->last) return std::nullopt;
    return Instant::at(last_tick(*fact().range->last));
  }

  void precede(const MaybeInstant& x, const MaybeInstant& y, Tick gap = 0) const {
    claims.precede(cause, x, y, gap);
  }
  void within(const MaybeInstant& x) const {
    if (fact().range) claims.within(cause, *fact().range, x);
  }
  void equal(const MaybeInstant& x, const MaybeInstant& y) const {
    precede(x, y);
    precede(y, x);
  }
  void in_place_at(const MaybeInstant& moment) const {
    precede(begin(), moment);
    precede(moment, end(), 1);
  }
};

void either_order(Row& row) {
  const MaybeInstant begin = row.begin(), end = row.end();
  const MaybeInstant other_begin = row.other_begin(), other_end = row.other_end();
  if (!begin || !end || !other_begin || !other_end) return;
  const Uuid one = row.fact().subject(), other = row.other();
  const std::uint32_t choice =
      row.claims.choose(row.cause, {{precede(*other_end, *begin, 0)}, {precede(*end, *other_begin, 0)}});
  row.claims.tell({one, 0, choice, row.cause, {{CaseSort::after, other}, {CaseSort::before, other}}});
  row.claims.tell({other, 0, choice, row.cause, {{CaseSort::before, one}, {CaseSort::after, one}}});
}

void source_date(Row& row) {
  row.precede(row.first(), row.instants().source(row.fact().subject()));
  row.precede(row.instants().source_closed(row.fact().subject()), row.last());
}

void finish_on(Row& row) {
  row.precede(row.instants().made(row.other()), row.begin());
  // Only a coat that goes on unbroken onto a neighbour came after the thing was set where it is.
  const MaybeInstant coat = row.instants().begin(row.fact().subject(), 0);
  if (!trim(row.fact().content().qualifier("runs-onto")).empty())
    row.precede(row.other_begin("placement"), coat);
  // Plaster and walls are made where they are: no paint on them is older.
  const Facts& facts = row.claims.facts();
  const Fact* kind = facts.best(row.other(), "element-class");
  if (!kind || !dates(*kind) || (kind->content().value != "plaster" && kind->content().value != "wall"))
    return;
  row.claims.precede(row.claims.joint({row.index, facts.index_of(*kind)}), row.other_begin("placement"),
                     coat);
}

void of_phase(Row& row, const MaybeInstant& instant) {
  row.precede(row.instants().phase(row.other()), instant);
  if (const NumberedPhase* next = row.claims.phases().after(row.other()))
    row.precede(instant, row.instants().phase(next->phase), 1);
}

void of_campaign(Row& row, const MaybeInstant& instant) {
  row.precede(row.instants().works_begin(row.other()), instant);
  row.precede(instant, row.instants().works_end(row.other()), 1);
}

void same(Row& row) {
  row.equal(row.begin(), row.other_begin());
  // Parts of what was once one thing may have gone at different times.
  if (row.fact().name() == "same-as") row.equal(row.end(), row.other_end());
}

// One thing was entered twice: all that is known of the one holds of the other.
void same_record(Row& row) {
  const Uuid one = row.fact().subject(), two = row.other();
  const Instants& instants = row.instants();
  row.equal(instants.made(one), instants.made(two));
  const int placements = std::min(instants.placements(one), instants.placements(two));
  for (int at = 1; at <= placements; ++at) {
    row.equal(instants.begin(one, at), instants.begin(two, at));
    row.equal(instants.end(one, at), instants.end(two, at));
  }
  row.equal(instants.source(one), instants.source(two));
  row.equal(instants.source_closed(one), instants.source_closed(two));
  row.equal(instants.works_begin(one), instants.works_begin(two));
  row.equal(instants.works_end(one), instants.works_end(two));
  row.equal(instants.phase(one), instants.phase(two));
}

// Both stood up in one course of works, which has no record of its own.
void bonded(Row& row) {
  const Instant begun = row.claims.anonymous();
  const Instant done = row.claims.anonymous();
  row.precede(begun, done, 1);
  for (const MaybeInstant& instant : {row.begin(), row.other_begin()}) {
    row.precede(begun, instant);
    row.precede(instant, done, 1);
  }
}

void years_apart(Row& row, std::string_view qualifier, bool at_least) {
  const double years = std::strtod(std::string(row.fact().content().qualifier(qualifier)).c_str(), nullptr);
  const auto [fewest, most] = days_in_years(years);
  if (at_least)
    row.precede(row.other_begin(), row.begin(), fewest * kTicksPerDay);
  else
    row.precede(row.begin(), row.other_begin(), -most * kTicksPerDay);
}

void campaign_length(Row& row) {
  const auto most = days_in_years(std::strtod(row.fact().content().value.c_str(), nullptr)).second;
  const Uuid& campaign = row.fact().subject();
  row.precede(row.instants().works_end(campaign), row.instants().works_begin(campaign), -most * kTicksPerDay);
}

struct RuleRow {
  std::string_view word;
  void (*apply)(Row&);
};

void nothing(Row&) {}

// B is the beginning of a placement, E its end, M the making, p the moment of a source; sorted by word.
constexpr std::array<RuleRow, 53> kRules{{
    {"absent", nothing},  // rules_sight.cpp
    {"after-coat",
     [](Row& r) {  // B(x) > B(f)
       r.precede(r.instants().begin(r.other(), 0), r.begin(), 1);
     }},
    {"begins-by", [](Row& r) { r.precede(r.begin(), r.last()); }},  // B(x) <= end of D
    {"begins-in", [](Row& r) { r.within(r.begin()); }},             // B(x) in D
    {"billed", [](Row& r) { r.precede(r.begin(), r.instants().source_closed(r.other())); }},
    {"bonded", bonded},  // one campaign
    {"butts",
     [](Row& r) {  // B(a) >= B(b), E(b) > B(a)
       r.precede(r.other_begin(), r.begin());
       r.precede(r.begin(), r.other_end(), 1);
     }},
    {"by-coat", [](Row& r) { r.precede(r.begin(), r.instants().begin(r.other(), 0)); }},  // B(x) <= B(f)
    {"campaign-began", [](Row& r) { r.within(r.instants().works_begin(r.fact().subject())); }},
    {"campaign-ended", [](Row& r) { r.within(r.instants().works_end(r.fact().subject())); }},
    {"campaign-length", campaign_length},  // T - S <= n years
    {"covers",
     [](Row& r) {  // B(a) > B(b), E(b) > B(a)
       r.precede(r.other_begin(), r.begin(), 1);
       r.precede(r.begin(), r.other_end(), 1);
     }},
    {"cuts",
     [](Row& r) {  // B(a) > B(b), E(b) >= B(a)
       r.precede(r.other_begin(), r.begin(), 1);
       r.precede(r.begin(), r.other_end());
     }},
    {"either-order", either_order},                  // B(a) >= E(b) or B(b) >= E(a)
    {"ends-in", [](Row& r) { r.within(r.end()); }},  // E(x) in D
    {"falls-together", nothing},                     // rules_joint.cpp
    {"fills",
     [](Row& r) {  // as 'cuts'
       r.precede(r.other_begin(), r.begin(), 1);
       r.precede(r.begin(), r.other_end());
     }},
    {"finish-on", finish_on},  // B(coat) >= M(x), B(x) where it is made in place
    {"ghost-across",
     [](Row& r) {  // E(x) <= B(f)
       r.precede(r.other_end("placement"), r.instants().begin(r.fact().subject(), 0));
     }},
    {"ghost-bare", [](Row& r) { r.precede(r.begin(), r.instants().begin(r.other(), 0)); }},  // B(x) <= B(f)
    {"ghost-behind",
     [](Row& r) {  // B(x) >= B(f)
       r.precede(r.instants().begin(r.fact().subject(), 0), r.other_begin("placement"));
     }},
    {"ghost-stops",
     [](Row& r) {  // B(x) <= B(f) < E(x)
       const MaybeInstant coat = r.instants().begin(r.fact().subject(), 0);
       r.precede(r.other_begin("placement"), coat);
       r.precede(coat, r.other_end("placement"), 1);
     }},
    {"gone", [](Row& r) { r.precede(r.end(), r.source()); }},    // E(x) <= p
    {"gone-day", [](Row& r) { r.precede(r.end(), r.last()); }},  // E(x) <= end of D
    {"gone-in-phase", [](Row& r) { of_phase(r, r.end()); }},
    {"layer", nothing},                                                   // rules_joint.cpp
    {"made-after", [](Row& r) { r.precede(r.first(), r.made()); }},       // M(x) >= start of D
    {"made-in", [](Row& r) { r.within(r.made()); }},                      // M(x) in D
    {"not-yet", [](Row& r) { r.precede(r.source(), r.begin(), 1); }},     // B(x) > p
    {"not-yet-day", [](Row& r) { r.precede(r.first(), r.begin(), 1); }},  // B(x) > start of D
    {"of-campaign", [](Row& r) { of_campaign(r, r.begin()); }},           // S(c) <= B(x) < T(c)
    {"of-phase", [](Row& r) { of_phase(r, r.begin()); }},                 // S(p) <= B(x) < S(p+1)
    {"one-of-places", nothing},                                           // rules_places.cpp
    {"opened-by",
     [](Row& r) {  // S(p) = S(c)
       r.equal(r.instants().phase(r.fact().subject()), r.instants().works_begin(r.other()));
     }},
    {"original", [](Row& r) { r.precede(r.made(), r.other_begin("placement")); }},  // B(x) >= M(y)
    {"phase-order", nothing},                                                       // rules_joint.cpp
    {"proposed", [](Row& r) { r.precede(r.source(), r.begin()); }},     // B(x) >= p, when accepted
    {"removed-in-campaign", [](Row& r) { of_campaign(r, r.end()); }},   // S(c) <= E(x) < T(c)
    {"replaces", [](Row& r) { r.precede(r.other_end(), r.begin()); }},  // B(a) >= E(b)
    {"reused", [](Row& r) { r.precede(r.end(), r.other_begin()); }},    // E(a) <= B(b)
    {"ruling", nothing},                                                // facts.cpp
    {"same", same},                                                     // B(a) = B(b), E(a) = E(b)
    {"same-record", same_record},                                       // every instant of both
    {"seen", [](Row& r) { r.in_place_at(r.source()); }},                // B(x) <= p < E(x)
    {"seen-day", [](Row& r) { r.in_place_at(r.claims.moment_of(r.index)); }},
    {"setting", nothing},  // settings.cpp
    {"source-by",
     [](Row& r) {  // p <= end of D
       r.precede(r.instants().source_closed(r.fact().subject()), r.last());
     }},
    {"source-date", source_date},  // p in D
    {"takes-away",
     [](Row& r) {  // B(a) > B(b), E(b) = B(a)
       r.precede(r.other_begin(), r.begin(), 1);
       r.equal(r.begin(), r.other_end());
     }},
    {"uncovered", [](Row& r) { r.in_place_at(r.source()); }},  // and rules_joint.cpp
    {"uncovered-day", [](Row& r) { r.in_place_at(r.claims.moment_of(r.index)); }},
    {"years-at-least", [](Row& r) { years_apart(r, "years", true); }},
    {"years-at-most", [](Row& r) { years_apart(r, "years", false); }},
}};

const RuleRow* find_rule(std::string_view word) {
  const auto found =
      std::lower_bound(kRules.begin(), kRules.end(), word,
                       [](const RuleRow& row, std::string_view wanted) { return row.word < wanted; });
  return found != kRules.end() && found->word == word ? &*found : nullptr;
}

}  // namespace

std::vector<std::string_view> known_rules() {
  std::vector<std::string_view> words;
  for (const RuleRow& row : kRules) words.push_back(row.word);
  return words;
}

// The calendar repeats after 400 years, so every start within them is tried.
std::pair<Day, Day> days_in_years(double years) {
  years = std::clamp(years, 0.0, 100'000.0);
  const auto whole = static_cast<std::int64_t>(years);
  const double part = years - static_cast<double>(whole);
  Day fewest = INT64_MAX, most = 0;
  for (std::int64_t start = 0; start < 400; ++start) {
    for (const int month : {1, 3}) {
      const Day days = days_from_civil(start + whole, month, 1) - days_from_civil(start, month, 1);
      fewest = std::min(fewest, days);
      most = std::max(most, days);
    }
  }
  return {fewest + static_cast<Day>(std::floor(part * 365)), most + static_cast<Day>(std::ceil(part * 366))};
}

void apply_rules(Claims& claims) {
  const auto count = static_cast<std::uint32_t>(claims.facts().all().size());
  for (std::uint32_t index = 0; index < count; ++index) {
    const Fact& fact = claims.facts().at(index);
    if (fact.level == kNever || !fact.is_complete()) continue;
    const RuleRow* rule = find_rule(fact.rule());
    if (!rule || rule->apply == nothing) continue;
    if (fact.rule() == "proposed" && fact.content().qualifier("accept-not-before") != "yes") continue;
    Row row{claims, index, claims.of(index)};
    rule->apply(row);
  }
  apply_joint_rules(claims);
  apply_sight_rules(claims);
  apply_place_rules(claims);
  apply_groups(claims);
}

}  // namespace lathbook::timeline
