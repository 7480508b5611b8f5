// The rows of a timeline: every placement of every element and finish, and pieces whose making is known.
#pragma once

#include <vector>

#include "core/analysis/timeline.hpp"
#include "plugins/timeline/duplicates.hpp"
#include "plugins/timeline/eithers.hpp"
#include "plugins/timeline/phases.hpp"
#include "plugins/timeline/reasons.hpp"
#include "plugins/timeline/scope.hpp"

namespace lathbook::timeline {

class Items {
public:
  Items(const Claims& claims, const Words& words, const Reasons& reasons, const Solution& solution,
        const PhaseMembership& membership, const Duplicates& duplicates, const Eithers& eithers,
        const Scope& scope, std::uint8_t level)
      : claims_(claims),
        facts_(claims.facts()),
        words_(words),
        reasons_(reasons),
        solution_(solution),
        membership_(membership),
        duplicates_(duplicates),
        eithers_(eithers),
        scope_(scope),
        level_(level) {}

  /// Appends one item for each placement of an element or finish. Of several records of one thing only the
  /// first has rows, which tell of all.
  void add_placements(const Uuid& record, std::vector<TimelineItem>& items) const;
  /// Appends the making of a piece or find: placement 0 of 0.
  void add_piece(const Uuid& record, std::vector<TimelineItem>& items) const;

private:
  /// Another thing that lies over an item.
  struct Cover {
    TimelineCover shown;
    Standing standing;
  };
  std::optional<TimelineItem> begin_item(const Uuid& record) const;
  /// One entry for each place where the placement could be seen: what covers it there.
  std::vector<std::vector<Standing>> views_of(const Uuid& record, int placement, TimelineItem& item) const;
  std::vector<Cover> covers_of(const Uuid& record, int placement) const;
  void add_covers(const Uuid& record, int placement, std::vector<Cover>& covers) const;
  void add_cover(const Uuid& cover, int said, std::vector<Cover>& covers) const;
  void add_covers_of_ground(const Uuid& coat, std::vector<Cover>& covers) const;
  std::vector<Uuid> seen_in(const Uuid& record) const;
  std::string how(const Uuid& record, int placement, std::size_t phase) const;
  std::string last_seen(const TimelineItem& item, Var end) const;
  void add_remarks(const Uuid& record, std::vector<ReasonStep>& remarks) const;
  std::string remark(const Fact& fact) const;
  std::string silence(const Fact& fact) const;
  bool is_first(const Uuid& record) const;
  bool is_believed(const Fact& fact) const;
  bool is_shown(const Fact& fact) const;
  bool is_coat(const Uuid& record) const;

  const Claims& claims_;
  const Facts& facts_;
  const Words& words_;
  const Reasons& reasons_;
  const Solution& solution_;
  const PhaseMembership& membership_;
  const Duplicates& duplicates_;
  const Eithers& eithers_;
  const Scope& scope_;
  std::uint8_t level_;
};

}  // namespace lathbook::timeline
