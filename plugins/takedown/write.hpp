// The order of work as text, JSON and a printed work sheet.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "core/analysis/work_order.hpp"
#include "core/plugin/plugin.hpp"

namespace lathbook::takedown {

/// Why the work is done at all, and under which leave: what stands at the head of every sheet.
struct Undertaking {
  RecordInfo campaign;  ///< nil id when nobody has written down a plan
  std::vector<std::string> reasons, alternatives, responsible, permissions, record_first, volunteer_tasks;
};

/// The works in the place, or in one it lies in, that say why something is taken down; the latest by code.
Undertaking undertaking_of(const Snapshot& archive, const Uuid& scope);

struct SheetFor {
  bool back = false;        ///< putting back instead of taking down
  bool volunteers = false;  ///< only tasks that a named person found fit for them
};

void write_text(const WorkOrder& order, const SheetFor& what, std::ostream& out);
void write_json(const WorkOrder& order, std::ostream& out);
void write_sheet(const WorkOrder& order, const Undertaking& plan, const std::vector<std::string>& care,
                 const SheetFor& what, std::ostream& out);

}  // namespace lathbook::takedown
