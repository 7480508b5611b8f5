// What each phase holds of an item, decided from distances in the network and never from printed dates.
//
// An instant t lies in phase k, from its beginning s to the beginning e of the next, when s <= t < e.
// 'Certain' means that the network leaves nothing else; 'possible' that adding it makes no contradiction.
#pragma once

#include <vector>

#include "core/analysis/timeline.hpp"
#include "plugins/timeline/claims.hpp"

namespace lathbook::timeline {

/// The two instants of one placement, and of what covers it.
struct Standing {
  Var begin = kOrigin;
  Var end = kOrigin;
};

/// A phase as the network knows it: its beginning, and the works that open it when they are said.
struct PhaseVars {
  Var opens = kOrigin;
  std::optional<Var> works_begin;
  std::optional<Var> works_end;
};

class PhaseMembership {
public:
  PhaseMembership(const Solution& solution, std::uint8_t level, std::vector<PhaseVars> phases, Day known);

  /// One part for each phase in which the item can be said to have been installed, removed or present.
  /// 'how' is set for piecemeal work only: the words about the opening works are the caller's.
  /// `views` has one entry for each place where the item could be seen: what covers it there. It is to be
  /// seen when it is in any of them, covered when it is in any. Where several things cover it in one view,
  /// 'possibly visible' looks at each by itself, so it errs to the generous side.
  std::vector<PhasePart> parts(const Standing& item, const std::vector<std::vector<Standing>>& views) const;

private:
  struct Boundary {
    Var var = kOrigin;
    std::vector<Tick> from;  ///< most that x - boundary can be
    std::vector<Tick> to;    ///< most that boundary - x can be
  };
  struct Phase {
    const Boundary* start = nullptr;
    const Boundary* next = nullptr;  ///< null for the last, which ends with the known day
  };
  /// Most that the beginning of the next phase can be after an instant, and an instant after it.
  Tick before_next(Var instant, const Phase& phase) const;
  Tick after_next(Var instant, const Phase& phase) const;
  Membership happened(Var instant, const Phase& phase) const;
  Membership present(const Standing& item, const Phase& phase) const;
  Membership visible(const Standing& item, const std::vector<Standing>& covers, const Phase& phase,
                     Membership present) const;
  bool surely_seen(const Standing& item, const std::vector<Standing>& covers, const Phase& phase) const;
  Membership covered(const std::vector<Standing>& covers, const Phase& phase) const;
  bool is_piecemeal(Var begin, std::size_t phase) const;
  bool can_outlast(Var cover_end, Var item_end) const;

  const Solution& solution_;
  std::uint8_t level_;
  std::vector<PhaseVars> vars_;
  Tick known_;
  std::vector<Boundary> boundaries_;
  std::vector<Boundary> works_begin_;
  std::vector<Boundary> works_end_;
};

}  // namespace lathbook::timeline
