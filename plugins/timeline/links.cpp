// Renumbers the wanted parts of the network and names each instant by its record.
#include "plugins/timeline/links.hpp"

#include <numeric>

namespace lathbook::timeline {

namespace {

class Links {
public:
  Links(const Claims& claims, const Solution& solution, std::uint8_t level)
      : claims_(claims), network_(claims.network()), solution_(solution), level_(level) {
    parent_.resize(network_.variables());
    std::iota(parent_.begin(), parent_.end(), Var{0});
    for (const Constraint& constraint : network_.constraints()) join(constraint);
    for (const Network::ChoiceRow& choice : network_.choices()) join_all(choice);
  }

  TimelineNetwork make(const std::unordered_set<Uuid>& records) {
    data_.ticks_per_day = kTicksPerDay;
    name_instants(records);
    number_instants(records.empty());
    number_claims();
    for (const Constraint& constraint : network_.constraints()) add(constraint);
    for (std::uint32_t at = 0; at < network_.choices().size(); ++at) add_choice(at);
    return std::move(data_);
  }

private:
  Var root(Var var) {
    while (parent_[var] != var) var = parent_[var] = parent_[parent_[var]];
    return var;
  }
  void join(const Constraint& constraint) {
    if (constraint.from == kOrigin || constraint.to == kOrigin) return;
    parent_[root(constraint.from)] = root(constraint.to);
  }

  // The alternatives of a choice belong together, whatever they speak of.
  void join_all(const Network::ChoiceRow& choice) {
    Var last = kOrigin;
    for (std::uint32_t at = choice.first_alternative; at < choice.end_alternative; ++at) {
      const Network::AlternativeRow& row = network_.alternatives()[at];
      for (std::uint32_t option = row.first_option; option < row.end_option; ++option) {
        const Constraint& constraint = network_.options()[option];
        for (const Var var : {constraint.from, constraint.to}) {
          if (var == kOrigin) continue;
          if (last != kOrigin) parent_[root(var)] = root(last);
          last = var;
        }
      }
    }
  }

  void name_instants(const std::unordered_set<Uuid>& records) {
    named_.resize(network_.variables());
    wanted_.assign(network_.variables(), false);
    const Instants& instants = claims_.instants();
    for (const RecordInfo& record : claims_.facts().records()) {
      const bool is_wanted = records.count(record.id) != 0;
      const auto name = [&](const MaybeInstant& instant, InstantKind kind, int placement = 0) {
        if (!instant) return;
        named_[instant->low].record = record.id;
        named_[instant->low].kind = kind;
        named_[instant->low].placement = placement;
        if (is_wanted) wanted_[root(instant->low)] = true;
      };
      name(instants.made(record.id), InstantKind::made);
      for (int at = 1; at <= instants.placements(record.id); ++at) {
        name(instants.begin(record.id, at), InstantKind::begins, at);
        name(instants.end(record.id, at), InstantKind::ends, at);
      }
      name(instants.source(record.id), InstantKind::source);
      name(instants.source_closed(record.id), InstantKind::source_closed);
      name(instants.works_begin(record.id), InstantKind::works_begin);
      name(instants.works_end(record.id), InstantKind::works_end);
      name(instants.phase(record.id), InstantKind::phase_opens);
    }
  }

  void number_instants(bool all) {
    number_.assign(network_.variables(), kNone);
    for (Var var = 0; var < network_.variables(); ++var) {
      if (var != kOrigin && !all && !wanted_[root(var)]) continue;
      number_[var] = static_cast<std::uint32_t>(data_.instants.size());
      NetworkInstant& instant = data_.instants.emplace_back(named_[var]);
      if (var == kOrigin) continue;
      if (instant.record == Uuid{}) instant.kind = InstantKind::other;
      const Bounds bounds = solution_.bounds(var, level_);
      const std::uint8_t remarks = solution_.remarks(var, level_);
      instant.earliest = bounds.earliest;
      instant.latest = bounds.latest;
      instant.earliest_known = (remarks & kEarliestNoEvidence) == 0;
      instant.latest_known = (remarks & kLatestNoEvidence) == 0;
    }
  }

  bool is_here(const Constraint& constraint) const {
    return number_[constraint.from] != kNone && number_[constraint.to] != kNone;
  }

  // Claims in their own order, those alone that bear on an instant that is here.
  void number_claims() {
    std::vector<bool> used(claims_.size() + 1, false);
    const auto use = [&](const Constraint& constraint, Cause cause, std::uint8_t level) {
      if (level != 0 && level <= level_ && is_here(constraint)) used[cause] = true;
    };
    for (const Constraint& constraint : network_.constraints())
      use(constraint, constraint.cause, constraint.level);
    for (const Network::AlternativeRow& row : network_.alternatives()) {
      const Network::ChoiceRow& choice = network_.choices()[row.choice];
      for (std::uint32_t at = row.first_option; at < row.end_option; ++at)
        use(network_.options()[at], choice.cause, choice.level);
    }
    claim_.assign(claims_.size() + 1, kByNature);
    for (Cause cause = 1; cause <= claims_.size(); ++cause) {
      if (!used[cause]) continue;
      claim_[cause] = static_cast<std::int32_t>(data_.claims.size());
      NetworkClaim& claim = data_.claims.emplace_back();
      const Claim& from = claims_.at(cause);
      for (const std::uint32_t fact : from.facts)
        claim.statements.push_back(claims_.facts().at(fact).statement.id);
      const Fact& leading = claims_.facts().at(from.facts.front());
      claim.relation = leading.name();
      claim.subject = leading.subject();
      claim.object = leading.object.value_or(Uuid{});
      claim.level = static_cast<lathbook::Level>(from.level);
      claim.kept = !solution_.is_aside(cause, level_);
    }
  }

  NetworkLink link(const Constraint& constraint, std::int32_t claim) const {
    return {number_[constraint.to], number_[constraint.from], -constraint.weight, claim};
  }

  void add(const Constraint& constraint) {
    if (constraint.level > level_ || !is_here(constraint)) return;
    std::int32_t claim = kByNature;
    if (constraint.cause == kHorizon)
      claim = kByHorizon;
    else if (constraint.cause != kStructural)
      claim = claim_[constraint.cause];
    data_.links.push_back(link(constraint, claim));
  }

  void add_choice(std::uint32_t index) {
    const Network::ChoiceRow& choice = network_.choices()[index];
    const ChoiceState state = solution_.choice_state(index, level_);
    if (choice.level > level_ || claim_[choice.cause] == kByNature || state == ChoiceState::unused) return;
    const std::uint32_t chosen = solution_.chosen(index, level_);
    NetworkChoice open;
    open.claim = claim_[choice.cause];
    for (std::uint32_t at = choice.first_alternative; at < choice.end_alternative; ++at) {
      if (state == ChoiceState::decided && at - choice.first_alternative != chosen) continue;
      const Network::AlternativeRow& row = network_.alternatives()[at];
      std::vector<NetworkLink> links;
      for (std::uint32_t option = row.first_option; option < row.end_option; ++option)
        links.push_back(link(network_.options()[option], open.claim));
      if (state == ChoiceState::decided)
        data_.links.insert(data_.links.end(), links.begin(), links.end());
      else
        open.alternatives.push_back(std::move(links));
    }
    if (!open.alternatives.empty()) data_.choices.push_back(std::move(open));
  }

  const Claims& claims_;
  const Network& network_;
  const Solution& solution_;
  std::uint8_t level_;
  std::vector<Var> parent_;
  std::vector<NetworkInstant> named_;
  std::vector<bool> wanted_;
  std::vector<std::uint32_t> number_;
  std::vector<std::int32_t> claim_;
  TimelineNetwork data_;
};

}  // namespace

TimelineNetwork network_of(const Claims& claims, const Solution& solution,
                           const std::unordered_set<Uuid>& records, std::uint8_t level) {
  return Links(claims, solution, level).make(records);
}

}  // namespace lathbook::timeline
