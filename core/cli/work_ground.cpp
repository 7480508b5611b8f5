#include "core/cli/work_ground.hpp"

#include "core/base/text.hpp"
#include "core/view/hazards.hpp"

namespace lathbook::cli {

void fill_in(const Context& context, Ground& ground) {
  ground.on = day_that_came(context, ground.on);
  if (ground.evidence.empty()) ground.evidence = "physical";
  if (ground.confidence.empty()) ground.confidence = "certain";
}

std::string day_sheet(const Context& context, const Archive& archive, Writer& writer,
                      const StatementReader& reader, const Ground& ground) {
  const std::string title = "Work of " + ground.on;
  std::string known;
  reader.each_record(Kind::source, [&](const RecordInfo& source) {
    if (source.name == title) known = source.code;
    return known.empty();
  });
  if (!known.empty()) return known;
  const auto code = archive.free_code("INS");
  const auto id = writer.make_record(Kind::source, code, context.recorder(writer));
  Ground plain;
  writer.add(draft(context, archive, writer, id, "source-type", "physical inspection", plain));
  plain.evidence = "physical";
  plain.confidence = "certain";
  writer.add(draft(context, archive, writer, id, "title", title, plain));
  writer.add(draft(context, archive, writer, id, "source-date", ground.on, plain));
  return code;
}

void refuse_if_retained(const Snapshot& snapshot, const Uuid& thing) {
  const auto record = snapshot.find(thing);
  if (!record) return;
  if (const Statement* kept = record->best("retained-as-evidence"))
    fail(ErrorKind::denied, display(record->info) + " is kept as evidence (" + kept->name() + ": " +
                                quote(kept->content.value) +
                                "), so it stays; withdraw that statement first if this was decided");
  if (const auto element = record->record("piece-of")) refuse_if_retained(snapshot, *element);
}

void tell_hazards(Context& context, const Snapshot& snapshot, const std::vector<Uuid>& things) {
  if (context.json()) return;
  context.err() << "Before anything is touched:\n";
  for (const auto& line : hazard_lines(hazards_of(snapshot, things))) context.err() << "  " << line << '\n';
  context.err() << "  Local codes and licensed people decide what may be done here; this list does not.\n";
}

}  // namespace lathbook::cli
