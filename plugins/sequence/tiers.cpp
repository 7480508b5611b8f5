// Lays chains out once to see how wide they are, fills tiers, and lays out again on the ranks a tier needs.
#include "plugins/sequence/tiers.hpp"

#include <algorithm>

namespace lathbook::sequence {

namespace {

struct Column {
  double left = 0;
  double width = 0;
  std::vector<bool> taken;  // of every rank
};

class Arranger {
public:
  Arranger(const Sequence& sequence, const std::vector<std::uint32_t>& drawn)
      : sequence_(sequence), ranks_(rank_things(sequence)), place_(sequence.things.size(), 0) {
    gather(drawn);
  }

  Tiers make() {
    for (Chain& chain : made_.chains) lay_out_chain(chain, ranks_.rank, ranks_.first.back());
    for (std::size_t at = 0; at < made_.chains.size(); ++at) add(at);
    double top = kMargin;
    for (Tier& tier : made_.tiers) {
      settle(tier, top);
      top = tier.top + tier.depth + kBetweenColumns;
    }
    made_.bottom = made_.tiers.empty() ? kMargin : top - kBetweenColumns;
    made_.width += kMargin - kBetweenColumns;
    return std::move(made_);
  }

private:
  void gather(const std::vector<std::uint32_t>& drawn) {
    std::vector<Chain> by_number(sequence_.chains);
    for (std::uint32_t at = 0; at < sequence_.things.size(); ++at) {
      Chain& chain = by_number[sequence_.things[at].chain];
      place_[at] = static_cast<std::uint32_t>(chain.things.size());
      chain.things.push_back(at);
    }
    for (const std::uint32_t at : drawn) {
      const SequenceRelation& relation = sequence_.relations[at];
      const std::uint32_t chain = sequence_.things[relation.later].chain;
      if (chain == sequence_.things[relation.earlier].chain) by_number[chain].relations.push_back(at);
    }
    for (Chain& chain : by_number)
      if (chain.things.size() > 1) made_.chains.push_back(std::move(chain));
  }

  void lay_out_chain(Chain& chain, const std::vector<std::uint32_t>& rank_of, std::uint32_t ranks) const {
    std::vector<std::uint32_t> rank;
    for (const std::uint32_t thing : chain.things) rank.push_back(rank_of[thing]);
    std::vector<LayoutLine> lines;
    for (const std::uint32_t at : chain.relations)
      lines.push_back({place_[sequence_.relations[at].later], place_[sequence_.relations[at].earlier]});
    chain.layout = lay_out(rank, ranks, lines, made_.size);
  }

  void add(std::size_t at) {
    Chain& chain = made_.chains[at];
    std::uint32_t low = UINT32_MAX, high = 0;
    for (const std::uint32_t thing : chain.things) {
      low = std::min(low, ranks_.rank[thing]);
      high = std::max(high, ranks_.rank[thing]);
    }
    const auto has_room = [&](const Column& column) {
      return chain.layout.width <= column.width &&
             std::none_of(column.taken.begin() + low, column.taken.begin() + high + 1,
                          [](bool taken) { return taken; });
    };
    // The largest part has its column for itself.
    const auto first = columns_.begin() + (made_.tiers.size() == 1 && at > 1 ? 1 : 0);
    auto column = at < 2 ? columns_.end() : std::find_if(first, columns_.end(), has_room);
    if (column == columns_.end()) column = open_column(chain.layout.width);
    chain.left = column->left;
    made_.tiers.back().chains.push_back(at);
    std::fill(column->taken.begin() + low, column->taken.begin() + high + 1, true);
  }

  std::vector<Column>::iterator open_column(double width) {
    if (made_.tiers.empty() || (!columns_.empty() && left_ + width > kWidestTier)) {
      made_.tiers.emplace_back();
      columns_.clear();
      left_ = kMargin + (sequence_.phases.empty() ? 0 : kBandLabels);
    }
    made_.tiers.back().rules.push_back(left_ - kBetweenColumns / 2);
    const auto column =
        columns_.insert(columns_.end(), {left_, width, std::vector<bool>(ranks_.first.back(), false)});
    left_ += width + kBetweenColumns;
    made_.width = std::max(made_.width, left_);
    return column;
  }

  // Only the ranks in use; in the first tier every phase keeps one at least.
  void settle(Tier& tier, double top) {
    const bool is_main = &tier == made_.tiers.data();
    std::vector<bool> used(ranks_.first.back(), false);
    for (const std::size_t at : tier.chains)
      for (const std::uint32_t thing : made_.chains[at].things) used[ranks_.rank[thing]] = true;
    std::vector<std::uint32_t> rank(used.size(), 0);
    tier.first.push_back(0);
    for (std::size_t band = 0; band + 1 < ranks_.first.size(); ++band) {
      std::uint32_t next = tier.first.back();
      for (std::uint32_t at = ranks_.first[band]; at < ranks_.first[band + 1]; ++at)
        if (used[at]) rank[at] = next++;
      tier.first.push_back(is_main ? std::max(next, tier.first.back() + 1) : next);
    }
    std::vector<std::uint32_t> rank_of(ranks_.rank.size());
    for (std::size_t thing = 0; thing < rank_of.size(); ++thing) rank_of[thing] = rank[ranks_.rank[thing]];
    for (const std::size_t at : tier.chains) lay_out_chain(made_.chains[at], rank_of, tier.first.back());
    const bool has_head = !is_main || tier.chains.size() > 1;
    tier.top = top + (has_head ? kTierHead : 0);
    tier.depth = tier.first.back() * (made_.size.box_height + made_.size.between_ranks);
  }

  const Sequence& sequence_;
  const Ranks ranks_;
  std::vector<std::uint32_t> place_;  // of every thing within its chain
  std::vector<Column> columns_;       // of the tier being filled
  double left_ = 0;
  Tiers made_;
};

}  // namespace

Tiers arrange(const Sequence& sequence, const std::vector<std::uint32_t>& drawn) {
  return Arranger(sequence, drawn).make();
}

}  // namespace lathbook::sequence
