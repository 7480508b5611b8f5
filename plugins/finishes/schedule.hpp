// The finish schedule: layers of one group side by side, coats that are one in one row.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/analysis/finish_layers.hpp"

namespace lathbook::finishes {

struct ScheduleColumn {
  std::size_t sequence = 0;  ///< index into FinishLayers::sequences
  bool lined_up = false;     ///< stands by its matches; otherwise from the bottom row, which says nothing
  const FinishAlignment* alignment = nullptr;  ///< null for the reference
};

struct ScheduleRow {
  std::vector<std::optional<std::size_t>> coats;  ///< by column: index into the sequence's coats
};

/// Rows from the substrate outward; the first column is the reference.
struct Schedule {
  std::vector<ScheduleColumn> columns;
  std::vector<ScheduleRow> rows;
};

/// The result must outlive the schedule.
Schedule schedule_of(const FinishLayers& layers, const FinishGroup& group);

/// The coat of a cell; null when the column has none in that row.
const FinishCoat* coat_at(const FinishLayers& layers, const Schedule& schedule, std::size_t row,
                          std::size_t column);

/// The first coat of a row, from the reference when it has one.
const FinishCoat& coat_of_row(const FinishLayers& layers, const Schedule& schedule, std::size_t row);

/// "Woodwork in Dining Room (105)".
std::string title_of(const FinishGroup& group);
/// How layers were read: "read in the laboratory", "read by loupe", "read on site".
std::string read_words(const FinishSequence& sequence);
/// The finding about a column; of the reference, why it is the reference and what forbids conclusions from
/// it.
std::string finding_of(const FinishLayers& layers, const Schedule& schedule, const ScheduleColumn& column);
/// Word of a refusal for machines: "unexamined".
std::string word(FinishRefusal refusal);

}  // namespace lathbook::finishes
