// Judges an order that somebody proposes.
#include <algorithm>
#include <map>

#include "core/base/text.hpp"
#include "core/view/record_view.hpp"
#include "plugins/takedown/plan.hpp"

namespace lathbook::takedown {

namespace {

class Proposed {
public:
  Proposed(const Fabric& fabric, const std::vector<std::string>& codes, WorkOrder& order)
      : fabric_(fabric), order_(order), when_(fabric.nodes.size(), -1) {
    for (std::uint32_t i = 0; i < fabric.nodes.size(); ++i)
      nodes_[fold(fabric.nodes[i].record.code)].push_back(i);
    for (const auto& code : codes) take(code);
    fill_marks();
  }

  void judge() {
    for (const std::size_t index : broken_by(when_, fabric_.hindrances)) {
      const Hindrance& one = fabric_.hindrances[index];
      if (fabric_.only_marks(one)) continue;
      const ReasonStep why = fabric_.why(one);
      const Node& upper = fabric_.nodes[one.first];
      const Node& lower = fabric_.nodes[one.second];
      if (one.holds && upper.propped) continue;
      const std::string turn =
          "taking " + display(lower.record) + " as number " + std::to_string(when_[one.second] + 1);
      order_.warnings.push_back(
          {lower.record, upper.record,
           (one.holds ? turn + " would leave " + display(upper.record) + " without support: "
                      : turn + " is hindered, for " + display(upper.record) + " is still there: ") +
               why.words,
           why.statement});
    }
  }

private:
  void take(const std::string& code) {
    const auto found = nodes_.find(fold(code));
    if (found == nodes_.end())
      fail(ErrorKind::invalid, quote(code) + " is not here to be taken; name pieces or elements of " +
                                   display(order_.scope) + " that are in place");
    const auto turn = static_cast<std::int64_t>(order_.proposed.size());
    const Node& named = fabric_.nodes[found->second.front()];
    if (fabric_.things[found->second.front()].stays) refuse(named.record);
    order_.proposed.push_back(named.record);
    if (!named.mark) {
      if (when_[found->second.front()] < 0) when_[found->second.front()] = turn;
      return;
    }
    for (const std::uint32_t piece : pieces_of(found->second)) {
      if (fabric_.things[piece].stays) refuse(fabric_.nodes[piece].record);
      if (when_[piece] < 0) when_[piece] = turn;
    }
  }

  [[noreturn]] static void refuse(const RecordInfo& record) {
    fail(ErrorKind::denied, display(record) +
                                " is kept as evidence, so no order may touch it; withdraw that "
                                "statement first if it was decided otherwise");
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

}  // namespace

void judge_proposed(const Fabric& fabric, const std::vector<std::string>& codes, WorkOrder& order) {
  Proposed(fabric, codes, order).judge();
}

}  // namespace lathbook::takedown
