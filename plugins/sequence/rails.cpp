// Rows by listing what is free from the latest on, nearest neighbour first; rails by the first that is free.
#include "plugins/sequence/rails.hpp"

#include <algorithm>
#include <unordered_map>

namespace lathbook::sequence {

namespace {

class RailLayer {
public:
  RailLayer(const Sequence& sequence, const std::vector<std::uint32_t>& things,
            const std::vector<std::uint32_t>& relations, const Ranks& ranks)
      : sequence_(sequence), things_(things), ranks_(ranks) {
    for (const std::uint32_t at : relations) {
      const SequenceRelation& relation = sequence.relations[at];
      if (!has_rail(relation, ranks)) continue;
      below_[relation.later].push_back(at);
      ++above_[relation.earlier];
    }
  }

  Rails make() {
    for (const std::uint32_t thing : listed()) add(thing);
    rails_.count = static_cast<std::uint32_t>(leads_to_.size());
    return std::move(rails_);
  }

private:
  static constexpr std::uint32_t kFree = 0xffffffff;

  std::uint32_t earlier(std::uint32_t relation) const { return sequence_.relations[relation].earlier; }

  // Bands from the top; within one, what was freed last comes next, so that chains stay together.
  std::vector<std::uint32_t> listed() {
    std::vector<std::uint32_t> by_rank = things_;
    std::stable_sort(by_rank.begin(), by_rank.end(),
                     [&](auto a, auto b) { return ranks_.rank[a] < ranks_.rank[b]; });
    std::vector<std::vector<std::uint32_t>> ready(ranks_.first.size());
    for (const std::uint32_t thing : by_rank)
      if (above_[thing] == 0) ready[ranks_.band[thing]].push_back(thing);
    std::vector<std::uint32_t> rows;
    for (std::size_t band = ready.size(); band-- > 0;) {
      while (!ready[band].empty()) {
        const std::uint32_t thing = ready[band].back();
        ready[band].pop_back();
        rows.push_back(thing);
        std::vector<std::uint32_t> freed;
        for (const std::uint32_t relation : below_[thing])
          if (--above_[earlier(relation)] == 0) freed.push_back(earlier(relation));
        std::stable_sort(freed.begin(), freed.end(),
                         [&](auto a, auto b) { return ranks_.rank[a] < ranks_.rank[b]; });
        for (const std::uint32_t one : freed) ready[ranks_.band[one]].push_back(one);
      }
    }
    return rows;
  }

  std::uint32_t take_rail(std::uint32_t thing) {
    const auto free = std::find(leads_to_.begin(), leads_to_.end(), kFree);
    const auto rail = static_cast<std::uint32_t>(free - leads_to_.begin());
    if (free == leads_to_.end()) leads_to_.push_back(thing);
    leads_to_[rail] = thing;
    return rail;
  }

  std::vector<std::uint32_t> used() const {
    std::vector<std::uint32_t> rails;
    for (std::uint32_t rail = 0; rail < leads_to_.size(); ++rail)
      if (leads_to_[rail] != kFree) rails.push_back(rail);
    return rails;
  }

  void add(std::uint32_t thing) {
    RailRow& row = rails_.rows.emplace_back();
    row.thing = thing;
    row.arriving = used();
    const auto own = std::find(leads_to_.begin(), leads_to_.end(), thing);
    row.rail =
        own == leads_to_.end() ? take_rail(thing) : static_cast<std::uint32_t>(own - leads_to_.begin());
    leads_to_[row.rail] = kFree;
    // The nearest takes over the rail of this thing and goes straight down.
    std::vector<std::uint32_t> joins = below_[thing];
    std::stable_sort(joins.begin(), joins.end(),
                     [&](auto a, auto b) { return ranks_.rank[earlier(a)] > ranks_.rank[earlier(b)]; });
    for (const std::uint32_t relation : joins) {
      const std::uint32_t to = earlier(relation);
      const auto found = std::find(leads_to_.begin(), leads_to_.end(), to);
      std::uint32_t rail = static_cast<std::uint32_t>(found - leads_to_.begin());
      if (found == leads_to_.end()) {
        rail = leads_to_[row.rail] == kFree ? row.rail : take_rail(to);
        leads_to_[rail] = to;
      }
      row.joins.push_back({relation, rail});
    }
    row.passing = used();
  }

  const Sequence& sequence_;
  const std::vector<std::uint32_t>& things_;
  const Ranks& ranks_;
  std::unordered_map<std::uint32_t, std::vector<std::uint32_t>> below_;
  std::unordered_map<std::uint32_t, std::size_t> above_;
  std::vector<std::uint32_t> leads_to_;  // of every rail the thing it leads to
  Rails rails_;
};

}  // namespace

bool has_rail(const SequenceRelation& relation, const Ranks& ranks) {
  return relation.kept && (relation.bond == SequenceBond::order || relation.bond == SequenceBond::coat) &&
         ranks.rank[relation.later] > ranks.rank[relation.earlier];
}

Rails lay_rails(const Sequence& sequence, const std::vector<std::uint32_t>& things,
                const std::vector<std::uint32_t>& relations, const Ranks& ranks) {
  return RailLayer(sequence, things, relations, ranks).make();
}

}  // namespace lathbook::sequence
