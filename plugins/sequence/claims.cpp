// A link that ends at a beginning, from the beginning or end of another, is an order; both ways, sameness.
#include "plugins/sequence/claims.hpp"

#include <algorithm>
#include <array>

#include "core/evidence/registry.hpp"

namespace lathbook::sequence {

namespace {

constexpr std::array<std::string_view, 16> kRules{
    "bonded",    "butts",        "covers",     "cuts",          "either-order", "fills",
    "finish-on", "ghost-across", "ghost-bare", "ghost-behind",  "ghost-stops",  "replaces",
    "reused",    "same",         "takes-away", "years-at-least"};

}  // namespace

bool relates_fabric(std::string_view dating_rule) {
  return std::find(kRules.begin(), kRules.end(), dating_rule) != kRules.end();
}

Claims::Claims(const TimelineNetwork& network) : network_(network) {
  place();
  std::vector<std::vector<NetworkLink>> links(network_.claims.size());
  for (const NetworkLink& link : network_.links)
    if (link.claim >= 0) links[static_cast<std::size_t>(link.claim)].push_back(link);
  for (std::size_t at = 0; at < links.size(); ++at) read(static_cast<std::int32_t>(at), links[at]);
}

void Claims::place() {
  begins_.assign(network_.instants.size(), kNoNode);
  ends_ = begins_;
  for (std::size_t at = 0; at < network_.instants.size(); ++at) {
    const NetworkInstant& instant = network_.instants[at];
    if (instant.kind != InstantKind::begins) continue;
    begins_[at] = static_cast<Node>(placed_.size());
    first_.emplace(instant.record, begins_[at]);
    placed_.push_back({instant.record, instant.placement, static_cast<std::uint32_t>(at)});
  }
  for (std::size_t at = 0; at < network_.instants.size(); ++at) {
    const NetworkInstant& instant = network_.instants[at];
    if (instant.kind == InstantKind::ends)
      ends_[at] = find(instant.record, instant.placement).value_or(kNoNode);
  }
}

// Placements of a record follow one another among the instants.
std::optional<Node> Claims::find(const Uuid& record, int placement) const {
  const auto found = first_.find(record);
  if (found == first_.end()) return std::nullopt;
  const std::size_t at = found->second + static_cast<std::size_t>(placement) - 1;
  if (at >= placed_.size() || placed_[at].record != record || placed_[at].placement != placement)
    return std::nullopt;
  return static_cast<Node>(at);
}

void Claims::add(std::int32_t claim, SequenceBond bond, Node later, Node earlier, bool strict) {
  // A claim has few relations, all at the end of the list.
  for (auto at = all_.rbegin(); at != all_.rend() && at->claim == claim; ++at) {
    if (at->bond != bond || at->later != later || at->earlier != earlier) continue;
    at->strict = at->strict || strict;
    return;
  }
  all_.push_back({claim, bond, later, earlier, strict});
}

// Relations that order nothing by themselves are known by name; those of things set up once only.
bool Claims::add_by_name(std::int32_t claim) {
  const NetworkClaim& said = network_.claims[static_cast<std::size_t>(claim)];
  SequenceBond bond;
  if (said.relation == "bonded-with")
    bond = SequenceBond::together;
  else if (said.relation == "one-after-other")
    bond = SequenceBond::either;
  else if (said.relation == "finish-on")
    bond = SequenceBond::coat;
  else
    return false;
  const auto one = find(said.subject, 1), other = find(said.object, 1);
  if (!one || !other) return false;
  add(claim, bond, *one, *other, false);
  return true;
}

void Claims::read(std::int32_t claim, const std::vector<NetworkLink>& links) {
  const NetworkClaim& said = network_.claims[static_cast<std::size_t>(claim)];
  const Property* property = Registry::standard().find(said.relation);
  if (!property || !relates_fabric(property->dating)) return;
  const std::size_t before = all_.size();
  for (const NetworkLink& link : links) {
    const Node later = begins_[link.after];
    const bool from_end = ends_[link.before] != kNoNode;
    const Node earlier = from_end ? ends_[link.before] : begins_[link.before];
    if (later == kNoNode || earlier == kNoNode || link.gap < 0) continue;
    if (placed_[later].record == placed_[earlier].record) continue;
    const bool back = !from_end && std::any_of(links.begin(), links.end(), [&](const NetworkLink& other) {
      return other.before == link.after && other.after == link.before && other.gap == 0;
    });
    if (back && link.gap == 0)
      add(claim, SequenceBond::same, std::max(later, earlier), std::min(later, earlier), false);
    else
      add(claim, SequenceBond::order, later, earlier, from_end || link.gap > 0);
  }
  if (all_.size() == before && !add_by_name(claim) && first_.count(said.object) != 0)
    unplaced_.push_back(claim);
}

}  // namespace lathbook::sequence
