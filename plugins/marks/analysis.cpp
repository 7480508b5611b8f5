#include "plugins/marks/analysis.hpp"

#include <set>

#include "core/base/text.hpp"
#include "core/view/scope.hpp"
#include "core/view/views.hpp"
#include "plugins/marks/reader.hpp"

namespace lathbook::marks {

namespace {

struct Wanted {
  std::string text;
  bool typed = false;
  TranscriptionOptions options;
  Uuid list;
};

Wanted wanted_from(const Snapshot& archive, const Settings& settings) {
  Wanted wanted;
  for (const auto& [name, value] : settings) {
    if (name == "text") {
      wanted.text = value;
      wanted.typed = true;
    } else if (name == "dots") {
      if (value != "counted") fail(ErrorKind::invalid, "setting 'dots' can only be 'counted'");
      wanted.options.dots_counted = true;
    } else if (name == "list") {
      const auto source = archive.statements().record_by_code(value);
      if (!source) fail(ErrorKind::not_found, "there is no source with the code " + quote(value));
      wanted.list = source->id;
    }
  }
  return wanted;
}

// The marks in question: one, those on a thing, those of a place, or all.
std::vector<RecordView> marks_of(const Snapshot& archive, const Uuid& scope, RecordInfo& about) {
  std::vector<RecordView> marks;
  if (scope != Uuid{}) {
    const auto record = archive.find(scope);
    if (!record) fail(ErrorKind::not_found, "the record asked about is not in this reading");
    about = record->info;
    if (about.kind == Kind::mark) return {*record};
  }
  std::set<Uuid> inside;
  if (about.kind == Kind::place) inside = belongings_of(archive, scope);
  archive.each(Kind::mark, [&](const RecordView& mark) {
    const bool of_it = scope == Uuid{} || inside.count(mark.info.id) != 0 || mark.record("mark-on") == scope;
    if (of_it) marks.push_back(mark);
  });
  return marks;
}

void read_record(const Snapshot& archive, const References& references, const RecordView& record,
                 TranscriptionOptions options, MarkReading& result) {
  const MarkView mark(record);
  for (const ReadingView& view : mark.transcriptions) {
    ReadMark read = read_mark(references, view.text, options);
    read.mark = record.info;
    if (mark.carrier) {
      if (const auto carrier = archive.statements().record(*mark.carrier)) read.carrier = *carrier;
    }
    if (view.reader) {
      if (const auto reader = archive.statements().record(*view.reader)) read.by = reader->name;
    }
    read.read_on = view.read_on;
    read.statement = view.statement;
    result.marks.push_back(std::move(read));
  }
}

}  // namespace

MarkReading reading_of(const Snapshot& archive, const AnalysisRequest& request, Services& services) {
  const Wanted wanted = wanted_from(archive, request.settings);
  const ArchiveFiles* files = nullptr;
  try {
    files = &services.files();
  } catch (const Error&) {
    services.note(Severity::note,
                  "lists that were taken in cannot be read here; marks are compared with this archive's own "
                  "firms only");
  }
  MarkReading result;
  result.reading = archive.reading();
  const References references(archive, files, wanted.list);
  result.lists = references.lists();
  if (wanted.typed) {
    result.marks.push_back(read_mark(references, wanted.text, wanted.options));
    return result;
  }
  const auto marks = marks_of(archive, request.scope, result.scope);
  std::uint64_t done = 0;
  for (const RecordView& mark : marks) {
    if (services.stop_requested()) return result;
    read_record(archive, references, mark, wanted.options, result);
    services.progress(++done, marks.size());
  }
  propose(archive, result);
  return result;
}

}  // namespace lathbook::marks
