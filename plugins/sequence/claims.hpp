// What each statement of a timeline's network says of two placements: the one reading of links as relations.
#pragma once

#include <cstdint>
#include <optional>
#include <unordered_map>
#include <vector>

#include "core/analysis/sequence.hpp"
#include "plugins/sequence/digraph.hpp"

namespace lathbook::sequence {

/// A placement of an element or finish.
struct Placed {
  Uuid record;
  int placement = 1;
  std::uint32_t instant = 0;  ///< its beginning, into TimelineNetwork::instants
};

/// A relation between two placements, by number in Claimed::placed.
struct Claimed {
  std::int32_t claim = 0;  ///< into TimelineNetwork::claims
  SequenceBond bond = SequenceBond::order;
  Node later = 0;
  Node earlier = 0;
  bool strict = true;
};

class Claims {
public:
  explicit Claims(const TimelineNetwork& network);

  /// In the order of the network's instants.
  const std::vector<Placed>& placed() const { return placed_; }
  std::optional<Node> find(const Uuid& record, int placement) const;
  /// By claim; each claim, bond and pair once.
  const std::vector<Claimed>& all() const { return all_; }
  /// Claims between elements or finishes from which no relation came: the setting meant is not said.
  const std::vector<std::int32_t>& unplaced() const { return unplaced_; }

private:
  void place();
  void read(std::int32_t claim, const std::vector<NetworkLink>& links);
  void add(std::int32_t claim, SequenceBond bond, Node later, Node earlier, bool strict);
  bool add_by_name(std::int32_t claim);

  const TimelineNetwork& network_;
  std::vector<Placed> placed_;
  std::vector<Node> begins_;  ///< of every instant: the placement it begins, or kNoNode
  std::vector<Node> ends_;
  std::unordered_map<Uuid, Node> first_;
  std::vector<Claimed> all_;
  std::vector<std::int32_t> unplaced_;
};

/// Whether a dating rule of the registry relates two elements or finishes.
bool relates_fabric(std::string_view dating_rule);

}  // namespace lathbook::sequence
