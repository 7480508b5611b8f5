#include "core/cli/work_ground.hpp"

#include <algorithm>
#include <set>

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "core/evidence/registry.hpp"
#include "core/evidence/validation.hpp"
#include "core/view/hazards.hpp"
#include "core/view/stops.hpp"

namespace lathbook::cli {

bool is_choice(const std::string& list, const std::string& word) {
  const auto& choices = Registry::standard().choices(list);
  return std::find(choices.begin(), choices.end(), word) != choices.end();
}

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

void enter_of_day(const Context& context, const Archive& archive, Writer& writer, const RecordView& thing,
                  const std::string& property, const std::string& value, const Ground& ground,
                  std::vector<std::string> details) {
  Ground of_day = ground;
  details.push_back("on=" + ground.on);
  of_day.details = std::move(details);
  Content content = draft(context, archive, writer, thing.info.id, property, value, of_day);
  for (const Statement* before : thing.history(property)) {
    if (before->content.qualifier("on") != ground.on) continue;
    content.targets.push_back(before->id);
    if (content.why.empty()) content.why = "said again on the same day";
  }
  writer.add(std::move(content));
}

void refuse_condition(const Handling& wanted) {
  const Registry& registry = Registry::standard();
  if (std::string why; !wanted.condition.empty() &&
                       !well_formed(ValueType::choice, "piece-condition", wanted.condition, registry, why))
    fail(ErrorKind::invalid, "--condition: " + why);
  if (wanted.condition.empty() && wanted.event == "damaged")
    fail(ErrorKind::invalid, "say how it is since the damage, so that the counts agree, with --condition: " +
                                 join(registry.choices("piece-condition"), ", ") + "; nothing was entered");
}

void tell_stops(const Context& context, const Snapshot& snapshot, const std::vector<Uuid>& records) {
  if (context.json()) return;
  for (const auto& line : stop_lines(stops_around(snapshot, records)))
    for (const auto& part : wrap(safe_display(line), 96)) context.err() << context.strong(part) << '\n';
}

std::string heed_stops(const Context& context, const Snapshot& snapshot, const std::vector<Uuid>& things,
                       const Handling& wanted, bool refused) {
  const auto stops = stops_over(snapshot, things);
  if (stops.empty()) return {};
  Ground ground = wanted.ground;
  fill_in(context, ground);
  std::vector<std::string> meant;
  for (const auto& stop : stops) {
    const auto stopped = earliest_day(stop.day), done = latest_day(ground.on);
    if (stopped && done && *done < *stopped) continue;  // it was done before
    meant.push_back(stop.event.code);
    if (!refused || !wanted.although.empty()) continue;
    fail(ErrorKind::denied,
         stop_in_words(stop) +
             ", so nothing is touched there until whoever is licensed or qualified has cleared "
             "it (lathbook lift " +
             stop.event.code +
             "); what was done all the same is entered with --although-stopped REASON; nothing "
             "was entered");
  }
  tell_stops(context, snapshot, things);
  if (!refused || meant.empty()) return {};
  return "although work was stopped (" + join(meant, ", ") + "): " + wanted.although;
}

namespace {

std::set<Uuid> elements_of(const Snapshot& snapshot, const std::vector<Uuid>& things) {
  std::set<Uuid> elements;
  for (const Uuid& id : things) {
    const auto record = snapshot.find(id);
    const auto element = record ? record->record("piece-of") : std::nullopt;
    elements.insert(element ? *element : id);
  }
  return elements;
}

// The work of that day before which the dangers of all these elements were told; empty when there was none.
std::string told_before(const Snapshot& snapshot, const std::vector<Uuid>& things, const std::string& day) {
  static const std::set<std::string, std::less<>> works{"removed", "cleaned", "opened", "faced", "repaired"};
  std::set<Uuid> left = elements_of(snapshot, things);
  std::string code;
  snapshot.each(Kind::event, {"event-type", "event-date", "event-on"}, [&](const RecordView& event) {
    if (left.empty() || event.edtf("event-date") != day || works.count(event.text("event-type")) == 0) return;
    std::vector<Uuid> done;
    for (const Statement* on : event.all("event-on"))
      if (const auto id = Uuid::parse(on->content.value)) done.push_back(*id);
    for (const Uuid& element : elements_of(snapshot, done))
      if (left.erase(element) != 0) code = event.info.code;
  });
  return left.empty() ? code : std::string();
}

std::string in_one_line(const std::vector<HazardStatus>& hazards) {
  std::vector<std::string> words;
  for (const auto& one : hazards)
    if (one.status == "found" || one.status == "presumed") words.push_back(one.hazard + " " + one.status);
  return words.empty() ? "none found" : join(words, ", ");
}

}  // namespace

void tell_hazards(Context& context, const Snapshot& snapshot, const std::vector<Uuid>& things,
                  const std::string& day) {
  if (context.json()) return;
  if (const auto before = told_before(snapshot, things, day); !before.empty()) {
    context.err() << "Hazards as told for " << before << ": " << in_one_line(hazards_of(snapshot, things))
                  << "; what was not tested counts as present. Local codes and licensed people decide.\n";
    return;
  }
  context.err() << "Before anything is touched:\n";
  for (const auto& line : hazard_lines(hazards_of(snapshot, things))) context.err() << "  " << line << '\n';
  context.err() << "  Local codes and licensed people decide what may be done here; this list does not.\n";
}

}  // namespace lathbook::cli
