// One record as Dublin Core.
#pragma once

#include <string>

#include "core/analysis/timeline_index.hpp"
#include "core/base/xml_writer.hpp"
#include "core/view/snapshot.hpp"
#include "core/view/uncarried.hpp"

namespace lathbook::dublin_core {

/// What the records of one export share.
struct Ground {
  const StatementReader& reader;
  const std::string base;
  const TimelineIndex timeline;  ///< empty when it could not be had
  Uncarried& uncarried;
};

/// Writes the element oai_dc:dc with its namespaces. Nothing that XML cannot hold comes from an archive.
void write_dc(XmlWriter& xml, const RecordView& record, const Ground& ground);
/// Day (UTC) of the last entry about the record: "2025-02-03".
std::string datestamp(const RecordView& record);

}  // namespace lathbook::dublin_core
