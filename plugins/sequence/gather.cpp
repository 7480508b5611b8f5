// Chooses the things to show, orders them, and puts words to every relation.
#include "plugins/sequence/gather.hpp"

#include <algorithm>
#include <numeric>
#include <set>
#include <unordered_set>

#include "core/base/text.hpp"
#include "core/view/views.hpp"
#include "plugins/sequence/claims.hpp"
#include "plugins/sequence/loops.hpp"
#include "plugins/sequence/phase_reach.hpp"

namespace lathbook::sequence {

namespace {

class Gatherer {
public:
  Gatherer(const Snapshot& archive, const Timeline& timeline, int steps)
      : archive_(archive), timeline_(timeline), claims_(timeline.network), steps_(steps) {}

  Sequence make() {
    sequence_.scope = timeline_.scope;
    sequence_.reading = timeline_.reading;
    sequence_.level = timeline_.level;
    for (const TimelinePhase& phase : timeline_.phases) sequence_.phases.push_back(phase.record);
    choose();
    sort_chosen();
    relate();
    make_things();
    order();
    tell_no_order();
    return std::move(sequence_);
  }

private:
  // --- which placements
  void choose() {
    const std::size_t size = claims_.placed().size();
    shown_.assign(size, false);
    for (const TimelineItem& item : timeline_.items) {
      if (item.placement == 0) continue;
      if (const auto node = claims_.find(item.record.id, item.placement)) shown_[*node] = true;
    }
    const Kind kind = timeline_.scope.kind;
    if (kind == Kind::element || kind == Kind::finish)
      for (int step = 0; step < steps_; ++step) widen();
    const std::vector<bool> below = reached(true), above = reached(false);
    chosen_.assign(size, false);
    for (std::size_t node = 0; node < size; ++node) chosen_[node] = below[node] && above[node];
  }

  void widen() {
    std::vector<bool> wider = shown_;
    for (const Claimed& one : claims_.all())
      if (shown_[one.later] || shown_[one.earlier]) wider[one.later] = wider[one.earlier] = true;
    shown_ = std::move(wider);
  }

  // What a way of orders and samenesses leads to from what is shown, downward or upward.
  std::vector<bool> reached(bool down) const {
    std::vector<Arc> arcs;
    for (const Claimed& one : claims_.all()) {
      if (one.bond != SequenceBond::order && one.bond != SequenceBond::same) continue;
      if (down || one.bond == SequenceBond::same) arcs.emplace_back(one.later, one.earlier);
      if (!down || one.bond == SequenceBond::same) arcs.emplace_back(one.earlier, one.later);
    }
    const Digraph graph(static_cast<Node>(shown_.size()), arcs);
    std::vector<bool> seen = shown_;
    std::vector<Node> stack;
    for (Node node = 0; node < graph.size(); ++node)
      if (seen[node]) stack.push_back(node);
    while (!stack.empty()) {
      const Node node = stack.back();
      stack.pop_back();
      for (const Node next : graph.next(node))
        if (!seen[next]) {
          seen[next] = true;
          stack.push_back(next);
        }
    }
    return seen;
  }

  // By code, so that numbers and drawings do not depend on the order of entry.
  void sort_chosen() {
    struct Key {
      std::string code;
      int placement;
      Node node;
      auto operator<=>(const Key&) const = default;
    };
    std::vector<Key> keys;
    for (Node node = 0; node < chosen_.size(); ++node) {
      if (!chosen_[node]) continue;
      const Placed& placed = claims_.placed()[node];
      infos_[placed.record] = archive_.statements().record(placed.record).value_or(RecordInfo{});
      keys.push_back({sort_key(infos_[placed.record].code), placed.placement, node});
    }
    std::sort(keys.begin(), keys.end());
    number_.assign(chosen_.size(), kNoNode);
    for (const Key& key : keys) {
      number_[key.node] = static_cast<Node>(nodes_.size());
      nodes_.push_back(key.node);
    }
  }

  // --- relations
  void relate() {
    std::set<std::tuple<Digest, SequenceBond, Node, Node>> seen;
    for (const Claimed& one : claims_.all()) {
      const Node later = number_[one.later], earlier = number_[one.earlier];
      if (later == kNoNode || earlier == kNoNode) continue;
      const NetworkClaim& claim = timeline_.network.claims[static_cast<std::size_t>(one.claim)];
      // Joint claims repeat what their leading statement says by itself.
      if (!seen.insert({claim.statements.front(), one.bond, later, earlier}).second) continue;
      SequenceRelation& relation = sequence_.relations.emplace_back();
      relation.statements = claim.statements;
      relation.relation = claim.relation;
      relation.bond = one.bond;
      relation.later = later;
      relation.earlier = earlier;
      relation.strict = one.strict;
      relation.level = claim.level;
      relation.kept = claim.kept;
      tell(relation, claim);
    }
  }

  void tell(SequenceRelation& relation, const NetworkClaim& claim) const {
    const auto statement = archive_.statements().statement(claim.statements.front());
    if (statement) relation.contact = statement->content.qualifier("contact");
    const Property* property = Registry::standard().find(claim.relation);
    relation.words = name(claim.subject) + " " + std::string(property ? property->label : claim.relation) +
                     " " + name(claim.object);
    if (!relation.contact.empty()) relation.words += " (contact read: " + relation.contact + ")";
  }

  std::string name(const Uuid& record) const {
    const auto info = archive_.statements().record(record);
    return info ? display(*info) : "a record that is not to be seen";
  }

  // --- things
  void make_things() {
    std::vector<Same> kept, all;
    for (std::uint32_t at = 0; at < sequence_.relations.size(); ++at) {
      const SequenceRelation& relation = sequence_.relations[at];
      if (relation.bond != SequenceBond::same) continue;
      all.push_back({relation.later, relation.earlier, at});
      if (relation.kept) kept.push_back(all.back());
    }
    const auto size = static_cast<Node>(nodes_.size());
    same_.emplace(size, kept);
    if (kept.size() != all.size()) all_same_.emplace(size, all);
    sequence_.things.resize(same_->classes());
    for (Node node = 0; node < size; ++node) add_member(sequence_.things[same_->class_of(node)], node);
    for (const Same& same : kept) sequence_.things[same_->class_of(same.a)].joined_by.push_back(same.reason);
    for (const TimelineItem& item : timeline_.items) add_phases(item);
    reach_phases();
    for (const SequenceRelation& relation : sequence_.relations) {
      if (relation.bond != SequenceBond::order) continue;
      SequenceThing& thing = sequence_.things[same_->class_of(relation.later)];
      if (relation.relation == "takes-away")
        thing.sort = SequenceSort::removal;
      else if (relation.relation == "cuts" && thing.sort == SequenceSort::fabric)
        thing.sort = SequenceSort::cut;
    }
  }

  void add_member(SequenceThing& thing, Node node) {
    const Placed& placed = claims_.placed()[nodes_[node]];
    const RecordInfo& info = infos_[placed.record];
    if (thing.members.empty()) {
      thing.elsewhere = true;
      describe(thing, info);
    }
    thing.elsewhere = thing.elsewhere && !shown_[nodes_[node]];
    int placements = placed.placement;
    while (claims_.find(placed.record, placements + 1)) ++placements;
    thing.members.push_back({info, placed.placement, placements});
    const NetworkInstant& instant = timeline_.network.instants[placed.instant];
    const Day first = day_of(instant.earliest), last = day_of(instant.latest);
    if (instant.earliest_known) thing.not_before = std::max(thing.not_before.value_or(first), first);
    if (instant.latest_known) thing.not_after = std::min(thing.not_after.value_or(last), last);
  }

  Day day_of(std::int64_t tick) const {
    const std::int64_t day = timeline_.network.ticks_per_day;
    return tick >= 0 ? tick / day : -((-tick + day - 1) / day);
  }

  void describe(SequenceThing& thing, const RecordInfo& info) const {
    if (info.kind == Kind::finish) thing.sort = SequenceSort::finish;
    if (info.kind != Kind::element) return;
    const auto view = archive_.find(info.id);
    if (!view) return;
    const ElementView element(*view);
    thing.type = element.type;
    if (element.of_class == "cut") thing.sort = SequenceSort::cut;
    if (element.of_class == "ghost") thing.sort = SequenceSort::ghost;
  }

  // Members are one, so what one of them rules out none has.
  void add_phases(const TimelineItem& item) {
    if (item.placement == 0) return;
    const auto found = claims_.find(item.record.id, item.placement);
    if (!found || number_[*found] == kNoNode) return;
    SequenceThing& thing = sequence_.things[same_->class_of(number_[*found])];
    for (const PhasePart& part : item.phases) {
      if (part.installed == Membership::no) continue;
      if (!thing.first_phase) thing.first_phase = part.phase;
      thing.first_phase = std::min(*thing.first_phase, part.phase);
      thing.last_phase = std::max(thing.last_phase.value_or(part.phase), part.phase);
    }
  }

  void reach_phases() {
    const bool is_needed = std::any_of(sequence_.things.begin(), sequence_.things.end(),
                                       [](const SequenceThing& thing) { return !thing.first_phase; });
    if (!is_needed || timeline_.phases.empty()) return;
    const PhaseReach reach(timeline_);
    for (Node node = 0; node < nodes_.size(); ++node) {
      SequenceThing& thing = sequence_.things[same_->class_of(node)];
      if (thing.first_phase) continue;
      const auto range = reach.of(claims_.placed()[nodes_[node]].instant);
      if (!range) continue;
      thing.first_phase = range->first;
      thing.last_phase = range->second;
    }
  }

  // --- order
  void order() {
    std::vector<Relation> relations;
    std::vector<std::uint32_t> number;  // of each among the sequence's
    for (std::uint32_t at = 0; at < sequence_.relations.size(); ++at) {
      const SequenceRelation& relation = sequence_.relations[at];
      if (relation.bond != SequenceBond::order) continue;
      relations.push_back({relation.later, relation.earlier, relation.strict, relation.kept});
      number.push_back(at);
    }
    const Order order = order_of(*same_, relations);
    for (const Edge& edge : order.edges)
      for (const std::uint32_t relation : edge.relations)
        sequence_.relations[number[relation]].redundant = edge.redundant;
    add_loops(all_same_ ? loops_of(*all_same_, relations) : order.loops, number);
    sequence_.of_one_time = order.of_one_time;
    sequence_.levels = order.levels;
    for (std::uint32_t at = 0; at < order.classes; ++at) {
      sequence_.things[at].from_base = order.from_base[at];
      sequence_.things[at].from_top = order.from_top[at];
    }
    // From here on relations name things, not placements.
    for (SequenceRelation& relation : sequence_.relations) {
      relation.later = same_->class_of(relation.later);
      relation.earlier = same_->class_of(relation.earlier);
    }
    find_chains();
  }

  // Connected by whatever was kept; the largest first, then by code.
  void find_chains() {
    std::vector<Same> bonds;
    for (const SequenceRelation& relation : sequence_.relations)
      if (relation.kept) bonds.push_back({relation.later, relation.earlier, 0});
    const Sameness joined(static_cast<Node>(sequence_.things.size()), bonds);
    std::vector<std::uint32_t> size(joined.classes(), 0), by_size(joined.classes()), chain(by_size);
    for (Node at = 0; at < sequence_.things.size(); ++at) ++size[joined.class_of(at)];
    std::iota(by_size.begin(), by_size.end(), 0U);
    std::stable_sort(by_size.begin(), by_size.end(), [&](auto a, auto b) { return size[a] > size[b]; });
    chain.resize(by_size.size());
    for (std::uint32_t at = 0; at < by_size.size(); ++at) chain[by_size[at]] = at;
    for (Node at = 0; at < sequence_.things.size(); ++at)
      sequence_.things[at].chain = chain[joined.class_of(at)];
    sequence_.chains = joined.classes();
  }

  void add_loops(const std::vector<Loop>& loops, const std::vector<std::uint32_t>& number) {
    const Sameness& classes = all_same_ ? *all_same_ : *same_;
    for (const Loop& loop : loops) {
      SequenceLoop& told = sequence_.loops.emplace_back();
      std::set<std::uint32_t> things;
      for (Node node = 0; node < nodes_.size(); ++node)
        if (std::binary_search(loop.classes.begin(), loop.classes.end(), classes.class_of(node)))
          things.insert(same_->class_of(node));
      told.things.assign(things.begin(), things.end());
      for (const std::uint32_t relation : loop.relations) told.relations.push_back(number[relation]);
      for (const LoopStep& step : loop.shortest) {
        told.shortest.push_back(number[step.relation]);
        told.shortest.insert(told.shortest.end(), step.same.begin(), step.same.end());
      }
    }
  }

  // --- what orders nothing
  void tell_no_order() {
    std::set<Uuid> told;
    for (const Node node : nodes_) {
      const Placed& placed = claims_.placed()[node];
      if (shown_[node] && told.insert(placed.record).second) tell_contacts(placed.record);
    }
    for (const std::int32_t claim : claims_.unplaced()) {
      const NetworkClaim& said = timeline_.network.claims[static_cast<std::size_t>(claim)];
      if (told.count(said.subject) == 0 && told.count(said.object) == 0) continue;
      const Property* property = Registry::standard().find(said.relation);
      sequence_.no_order.push_back(
          {said.statements.front(), name(said.subject) + " " + std::string(property->label) + " " +
                                        name(said.object) + ": which setting is meant is not said"});
    }
  }

  void tell_contacts(const Uuid& record) {
    Query query;
    query.subject = record;
    archive_.statements().each_statement(query, [&](const Statement& statement) {
      const Property* property = Registry::standard().find(statement.content.property);
      const auto object = Uuid::parse(statement.content.value);
      if (!property || !object) return true;
      std::string why;
      if (property->name == "touches")
        why = std::string(statement.content.qualifier("how"));
      else if (property->name == "in-front-of")
        why = "it hides the other, no more";
      else if (!relates_fabric(property->dating))
        return true;
      else if (statement.content.confidence == Confidence::conjecture)
        why = "a conjecture";
      else if (statement.content.qualifier("contact") == "not read")
        why = "the contact was not read";
      else
        return true;
      sequence_.no_order.push_back({statement.id, name(record) + " " + std::string(property->label) + " " +
                                                      name(*object) + ": " + why});
      return true;
    });
  }

  const Snapshot& archive_;
  const Timeline& timeline_;
  const Claims claims_;
  const int steps_;
  std::vector<bool> shown_, chosen_;
  std::vector<Node> nodes_;   // chosen placements, by code
  std::vector<Node> number_;  // of every placement: its place in nodes_
  std::unordered_map<Uuid, RecordInfo> infos_;
  std::optional<Sameness> same_, all_same_;
  Sequence sequence_;
};

}  // namespace

Sequence make_sequence(const Snapshot& archive, const Timeline& timeline, int steps) {
  return Gatherer(archive, timeline, steps).make();
}

}  // namespace lathbook::sequence
