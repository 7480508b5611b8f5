// Either-ors in plain values: which cases are left of each, and what rules the others out.
#pragma once

#include <vector>

#include "core/analysis/timeline.hpp"
#include "plugins/timeline/reasons_words.hpp"

namespace lathbook::timeline {

class Eithers {
public:
  Eithers(const Claims& claims, const Words& words, const Solution& solution, std::uint8_t level)
      : claims_(claims), words_(words), solution_(solution), level_(level) {}

  /// Those about one placement of a record, as far as their statements are believed; in the order of the
  /// rules.
  std::vector<TimelineEither> of(const Uuid& record, int placement) const;

  /// The record was perhaps set up in one of these places, and in some way that all can have been it was.
  bool may_be_in(const Uuid& record, const std::vector<Uuid>& places) const;

private:
  bool asks_nothing(std::uint32_t choice) const;
  TimelineEither told(const Either& either) const;
  std::string case_words(const CaseMeaning& meaning) const;
  std::vector<ReasonStep> against(const Either& either, std::uint32_t alternative) const;
  void add_claims(const std::vector<Cause>& causes, const Either& either,
                  std::vector<ReasonStep>& steps) const;
  Membership holds(const Either& either, std::uint32_t alternative) const;

  const Claims& claims_;
  const Words& words_;
  const Solution& solution_;
  std::uint8_t level_;
};

}  // namespace lathbook::timeline
