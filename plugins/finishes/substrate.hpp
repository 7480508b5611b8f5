// What was looked for under the paint of an element, how, and what was found.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "core/analysis/finish_layers.hpp"
#include "core/plugin/plugin.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::finishes {

/// Outcomes over all that was said; `found` outweighs `none`, which outweighs the rest.
enum class Looked { not_looked, could_not_tell, none, found };

struct Substrate {
  Looked stripping = Looked::not_looked;
  Looked clear_finish = Looked::not_looked;
  std::set<std::string> methods;    ///< of choice list examination-method
  std::vector<ReasonStep> said;     ///< one step for each statement, in words
  std::vector<Citation> citations;  ///< of these
};

/// From `stripping-looked-for` on the element and its finishes (which covers clear finishes too), and from
/// examinations of the element: what they sought counts as stripping when its words hold 'strip', as a clear
/// finish when they hold 'clear'.
Substrate substrate_of(const Snapshot& archive, const RecordInfo& element, const std::vector<Uuid>& finishes,
                       const AnalysisRequest& request);

/// Leaves the record with the statements that the request believes: without those it leaves out, those weaker
/// than its level, and conjectures.
void leave_out(RecordView& record, const AnalysisRequest& request);

}  // namespace lathbook::finishes
