// The order of work as text, JSON and a printed work sheet.
#pragma once

#include <map>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

#include "core/analysis/work_order.hpp"
#include "core/base/xml_writer.hpp"
#include "core/plugin/plugin.hpp"

namespace lathbook::takedown {

/// Why the work is done at all, and under which leave: what stands at the head of every sheet.
struct Undertaking {
  RecordInfo campaign;  ///< nil id when nobody has written down a plan
  std::vector<std::string> reasons, alternatives, responsible, permissions, record_first, volunteer_tasks;
};

struct SheetFor {
  bool back = false;        ///< putting back instead of taking down
  bool volunteers = false;  ///< only tasks that a named person found fit for them
};

/// A step of putting back, as the works or the element say it.
struct RepairStep {
  int order = 0;
  std::string words, product, each;  ///< `each`: "course", "once", or as written
  double waits = 0;                  ///< days to leave it alone after it
};

/// Steps said of the place or element itself, else of the works; by their order.
std::vector<RepairStep> repair_steps(const Snapshot& archive, const WorkOrder& order,
                                     const Undertaking& plan);

/// A field whose cells carry the numbers of the lines of the sheet.
struct StepMap {
  RecordInfo element;
  int rows = 0, columns = 0;
  double shift = 0;                                  ///< of even rows, in cells
  std::map<std::pair<int, int>, std::string> cells;  ///< row, column: number of the line, or "E" for evidence
};
/// One for each field of the order whose pieces have cells, by code.
std::vector<StepMap> step_maps(const Snapshot& archive, const WorkOrder& order, const SheetFor& what);
void write_step_map(XmlWriter& xml, const StepMap& map);

/// The works in the place, or in one it lies in, that say why something is taken down; the latest by code.
Undertaking undertaking_of(const Snapshot& archive, const Uuid& scope);

/// `stops`: lines that say loudly where work is stopped (core/view/stops.hpp).
void write_text(const WorkOrder& order, const SheetFor& what, const std::vector<std::string>& stops,
                std::ostream& out);
void write_json(const WorkOrder& order, const std::vector<std::string>& stops, std::ostream& out);
/// What a work sheet needs beside the order.
struct SheetParts {
  Undertaking plan;
  std::vector<std::string> stops;
  std::vector<std::string> care;
  std::vector<RepairStep> repairs;  ///< only for putting back
  std::vector<StepMap> maps;
};
void write_sheet(const WorkOrder& order, const SheetParts& parts, const SheetFor& what, std::ostream& out);
/// The order that was really followed, as a list to keep.
void write_followed(const WorkOrder& order, const std::vector<std::string>& stops, std::ostream& out);

/// Steps in a row that do not wait for one another and need the same care: one line of a sheet.
struct Stage {
  std::size_t first = 0, last = 0;  ///< numbers of steps, from 1
  std::vector<RecordInfo> things;
  std::vector<RecordInfo> unsupported;
  std::vector<RecordInfo> instead;  ///< what could go already now and comes later than the next line
  std::string note;
  bool together = false;  ///< one step of several things
};
std::vector<Stage> stages_of(const std::vector<WorkStep>& steps);
/// "6", "1 to 5".
std::string numbers(const Stage& stage);
/// What goes in a line, in words.
std::string things_of(const Stage& stage);
/// "N-203.25 to N-203.34 cannot come away while N-204.61 Ivory tile 61 stays as evidence".
std::vector<std::string> blocked_lines(const WorkOrder& order);
/// It tells of what was done; the others tell what to look at first.
bool is_of_the_past(const WorkWarning& warning);
std::string circle_words(const WorkCircle& circle);
/// The rules of practice that the order follows, to stand under it.
std::string practice(const WorkOrder& order);
/// "N-203.25 to N-203.34, N-203.36": runs of three or more are drawn together.
std::string codes(const std::vector<RecordInfo>& records);

}  // namespace lathbook::takedown
