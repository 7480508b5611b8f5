// Judges an order that somebody proposes.
#include <algorithm>
#include <iterator>
#include <map>
#include <set>

#include "core/base/text.hpp"
#include "core/view/record_view.hpp"
#include "plugins/takedown/plan.hpp"

namespace lathbook::takedown {

namespace {

// Of one thing alone no number is told.
std::string turn_words(const WorkOrder& order, std::int64_t turn) {
  return order.proposed.size() < 2 ? std::string() : " as number " + std::to_string(turn + 1);
}

class Proposed {
public:
  Proposed(const Fabric& fabric, const Asked& asked, WorkOrder& order)
      : fabric_(fabric), order_(order), when_(fabric.nodes.size(), -1) {
    for (std::uint32_t i = 0; i < fabric.nodes.size(); ++i)
      nodes_[fold(fabric.nodes[i].record.code)].push_back(i);
    for (const auto& code : asked.codes)
      if (asked.strict || may_be_taken(code)) take(code);
    fill_marks();
  }

  void judge() {
    std::vector<bool> taken(when_.size());
    for (std::size_t i = 0; i < when_.size(); ++i) taken[i] = when_[i] >= 0;
    tell_beneath(fabric_, taken, order_);
    for (const std::size_t index : broken_by(when_, fabric_.hindrances)) {
      const Hindrance& one = fabric_.hindrances[index];
      if (fabric_.only_marks(one)) continue;
      const ReasonStep why = fabric_.why(one);
      const Node& upper = fabric_.nodes[one.first];
      const Node& lower = fabric_.nodes[one.second];
      if (one.holds && upper.propped) continue;
      const std::string turn = (lower.mark ? "beginning on " : "taking ") + display(lower.record) +
                               turn_words(order_, when_[one.second]);
      order_.warnings.push_back(
          {lower.record, upper.record,
           (one.holds ? turn + " would leave " + display(upper.record) + " without support: "
                      : turn + " is hindered, for " + display(upper.record) + " is still there: ") +
               why.words,
           why.statement});
    }
  }

private:
  bool may_be_taken(const std::string& code) const {
    const auto found = nodes_.find(fold(code));
    return found != nodes_.end() && !fabric_.things[found->second.front()].stays;
  }

  void take(const std::string& code) {
    const auto found = nodes_.find(fold(code));
    if (found == nodes_.end())
      fail(ErrorKind::invalid, quote(code) + " is not here to be taken; name pieces or elements of " +
                                   display(order_.scope) + " that are in place");
    const auto turn = static_cast<std::int64_t>(order_.proposed.size());
    const Node& named = fabric_.nodes[found->second.front()];
    refuse_kept(found->second.front());
    order_.proposed.push_back(named.record);
    if (!named.mark) {
      if (when_[found->second.front()] < 0) when_[found->second.front()] = turn;
      return;
    }
    for (const std::uint32_t piece : pieces_of(found->second)) {
      refuse_kept(piece);
      if (when_[piece] < 0) when_[piece] = turn;
    }
  }

  void refuse_kept(std::uint32_t node) const {
    if (!fabric_.things[node].stays) return;
    const RecordInfo& record = fabric_.nodes[node].record;
    std::string words = display(record) + " is kept as evidence, so no order may touch it";
    for (const WorkBlock& block : order_.blocked)
      if (block.thing.id == record.id) words = block.words;
    fail(ErrorKind::denied, words + "; withdraw that statement first if it was decided otherwise");
  }

  // Between the mark from which a field goes and the mark at which it is gone.
  std::vector<std::uint32_t> pieces_of(const std::vector<std::uint32_t>& marks) const {
    std::vector<std::uint32_t> pieces;
    for (const auto& one : fabric_.hindrances)
      if (one.first == marks.front() && fabric_.only_marks(one)) pieces.push_back(one.second);
    return pieces;
  }

  // A field begins to go with its first piece and is away with its last.
  void fill_marks() {
    std::map<std::uint32_t, std::int64_t> first, last;
    for (const auto& one : fabric_.hindrances) {
      if (!fabric_.only_marks(one)) continue;
      if (fabric_.nodes[one.first].mark && when_[one.second] >= 0) {
        const auto [known, fresh] = first.try_emplace(one.first, when_[one.second]);
        if (!fresh) known->second = std::min(known->second, when_[one.second]);
      }
      if (fabric_.nodes[one.second].mark) {
        const auto [known, fresh] = last.try_emplace(one.second, when_[one.first]);
        if (!fresh && known->second >= 0)
          known->second = when_[one.first] < 0 ? -1 : std::max(known->second, when_[one.first]);
      }
    }
    for (const auto& [mark, turn] : first) when_[mark] = turn;
    for (const auto& [mark, turn] : last) when_[mark] = turn;
  }

  const Fabric& fabric_;
  WorkOrder& order_;
  std::map<std::string, std::vector<std::uint32_t>> nodes_;
  std::vector<std::int64_t> when_;
};

class Setting {
public:
  Setting(const Fabric& all, const Fabric& out, const Asked& asked, WorkOrder& order)
      : all_(all), order_(order), when_(all.nodes.size(), -1), from_(all.nodes.size()) {
    for (const Node& node : out.nodes)
      if (!node.mark) out_.insert(node.record.id);
    for (const auto& one : all.hindrances) from_[one.first].push_back(one);
    for (const auto& one : all.leanings) from_[one.upper].push_back({one.upper, one.lower, kBelow, true});
    std::map<std::string, std::uint32_t> nodes;
    for (std::uint32_t i = 0; i < all.nodes.size(); ++i)
      if (out_.count(all.nodes[i].record.id) != 0) nodes.emplace(fold(all.nodes[i].record.code), i);
    for (const auto& code : asked.codes) {
      const auto found = nodes.find(fold(code));
      if (found == nodes.end() && !asked.strict) continue;
      if (found == nodes.end())
        fail(ErrorKind::invalid, quote(code) + " is not out and in hand; name pieces or elements of " +
                                     display(order.scope) + " that were taken down");
      when_[found->second] = static_cast<std::int64_t>(set_.size());
      set_.push_back(found->second);
      order.proposed.push_back(all.nodes[found->second].record);
    }
  }

  void judge() {
    for (const std::uint32_t thing : set_)
      for (const Hindrance& one : relations_of(thing)) look_at(thing, one);
  }

private:
  // Its own, and those of the field it is a piece of.
  std::vector<Hindrance> relations_of(std::uint32_t thing) const {
    std::vector<Hindrance> relations;
    for (const Hindrance& one : from_[thing]) {
      if (!all_.only_marks(one))
        relations.push_back(one);
      else
        std::copy_if(from_[one.second].begin(), from_[one.second].end(), std::back_inserter(relations),
                     [&](const Hindrance& other) { return !all_.only_marks(other); });
    }
    return relations;
  }

  void look_at(std::uint32_t thing, const Hindrance& one) {
    std::vector<std::uint32_t> lower{one.second};
    if (all_.nodes[one.second].mark)
      for (const Hindrance& piece : from_[one.second]) lower.push_back(piece.second);
    for (const std::uint32_t other : lower) {
      const Node& node = all_.nodes[other];
      if (node.mark || out_.count(node.record.id) == 0) continue;
      if (when_[other] >= 0 && when_[other] < when_[thing]) continue;
      const ReasonStep why = all_.why(one);
      order_.warnings.push_back({all_.nodes[thing].record, node.record,
                                 "setting " + display(all_.nodes[thing].record) +
                                     turn_words(order_, when_[thing]) + " comes too early, for " +
                                     display(node.record) + " is not in place yet: " + why.words,
                                 why.statement});
      return;
    }
  }

  const Fabric& all_;
  WorkOrder& order_;
  std::vector<std::int64_t> when_;
  std::vector<std::vector<Hindrance>> from_;
  std::set<Uuid> out_;
  std::vector<std::uint32_t> set_;
};

}  // namespace

void judge_setting(const Fabric& all, const Fabric& out, const Asked& asked, WorkOrder& order) {
  Setting(all, out, asked, order).judge();
}

void judge_proposed(const Fabric& fabric, const Asked& asked, WorkOrder& order) {
  Proposed(fabric, asked, order).judge();
}

}  // namespace lathbook::takedown
