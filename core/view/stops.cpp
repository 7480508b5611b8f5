#include "core/view/stops.hpp"

#include <algorithm>
#include <map>

#include "core/base/text.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/plain_words.hpp"
#include "core/view/scope.hpp"
#include "core/view/words.hpp"

namespace lathbook {

namespace {

std::vector<RecordInfo> records_of(const Snapshot& archive, const RecordView& event, const char* property) {
  std::vector<RecordInfo> records;
  for (const Statement* statement : event.all(property)) {
    const auto id = Uuid::parse(statement->content.value);
    if (auto record = id ? archive.statements().record(*id) : std::nullopt)
      records.push_back(std::move(*record));
  }
  return records;
}

std::string people_of(const Snapshot& archive, const RecordView& event) {
  std::vector<std::string> names;
  for (const auto& agent : records_of(archive, event, "done-by"))
    names.push_back(agent_in_words(archive.statements(), agent.id));
  return join(names, " and ");
}

// Events of which this is said. Named as events, they are found without a pass over all statements.
std::vector<Uuid> subjects_of(const Snapshot& archive, const char* property, const std::string& value) {
  std::vector<Uuid> subjects;
  Query query;
  query.kind = Kind::event;
  query.properties = {Registry::standard().named(property).id};
  archive.statements().each_statement(query, [&](const Statement& statement) {
    if (value.empty() || statement.content.value == value) subjects.push_back(statement.content.subject);
    return true;
  });
  return subjects;
}

WorkStop stop_of(const Snapshot& archive, const RecordView& event) {
  WorkStop stop;
  stop.event = event.info;
  stop.at = records_of(archive, event, "event-on");
  stop.day = event.edtf("event-date");
  stop.by = people_of(archive, event);
  stop.alarm = event.text("alarm");
  for (const Statement* met : event.all("hazard-met")) stop.hazards.push_back(met->content.value);
  stop.words = event.text("outcome");
  stop.statement = event.best("event-type")->id;
  return stop;
}

void lift(const Snapshot& archive, const RecordView& event, WorkStop& stop) {
  stop.lifted = event.info;
  stop.lifted_on = event.edtf("event-date");
  stop.lifted_by = people_of(archive, event);
  stop.ground = event.text("outcome");
  stop.lifting = event.best("lifts-stop")->id;
}

template <typename Bears>
std::vector<WorkStop> standing(const Snapshot& archive, const Bears& bears) {
  std::vector<WorkStop> stops;
  for (auto& stop : every_stop(archive))
    if (!stop.lifted &&
        std::any_of(stop.at.begin(), stop.at.end(), [&](const RecordInfo& at) { return bears(at.id); }))
      stops.push_back(std::move(stop));
  return stops;
}

std::string what_for(const WorkStop& stop) {
  std::vector<std::string> words = stop.hazards;
  const bool says_more = stop.alarm != "suspected hazard" || words.empty();
  if (says_more && !stop.alarm.empty()) words.insert(words.begin(), stop.alarm);
  if (!stop.words.empty()) words.push_back(quote(stop.words));
  return join(words, ", ");
}

}  // namespace

std::vector<WorkStop> every_stop(const Snapshot& archive) {
  std::map<Uuid, Uuid> lifted;  // by the stop: the event that lifts it
  for (const Uuid& id : subjects_of(archive, "lifts-stop", {}))
    if (const auto event = archive.find(id))
      if (const auto stop = event->record("lifts-stop")) lifted.emplace(*stop, id);
  std::vector<WorkStop> stops;
  for (const Uuid& id : subjects_of(archive, "event-type", "stopped")) {
    const auto event = archive.find(id);
    if (!event || event->text("event-type") != "stopped") continue;
    stops.push_back(stop_of(archive, *event));
    const auto by = lifted.find(id);
    if (by == lifted.end()) continue;
    if (const auto lifting = archive.find(by->second)) lift(archive, *lifting, stops.back());
  }
  std::sort(stops.begin(), stops.end(), [](const WorkStop& a, const WorkStop& b) {
    return compare_for_people(a.event.code, b.event.code) < 0;
  });
  return stops;
}

std::vector<WorkStop> stops_over(const Snapshot& archive, const std::vector<Uuid>& records) {
  const auto above = bearing_on(archive, records);
  return standing(archive, [&](const Uuid& at) { return above.count(at) != 0; });
}

std::vector<WorkStop> stops_around(const Snapshot& archive, const std::vector<Uuid>& records) {
  if (records.empty()) return standing(archive, [](const Uuid&) { return true; });
  const auto above = bearing_on(archive, records);
  return standing(archive, [&](const Uuid& at) {
    if (above.count(at) != 0) return true;
    const auto round = bearing_on(archive, {at});
    return std::any_of(records.begin(), records.end(),
                       [&](const Uuid& record) { return round.count(record) != 0; });
  });
}

std::string stop_in_words(const WorkStop& stop) {
  std::vector<std::string> where;
  for (const auto& at : stop.at) where.push_back(display(at));
  std::string words = "WORK STOPPED";
  if (!where.empty()) words += " at " + join(where, "; ");
  if (!stop.day.empty()) words += " on " + date_in_words(stop.day);
  if (!stop.by.empty()) words += " by " + stop.by;
  const std::string what = what_for(stop);
  if (!what.empty()) words += ": " + what;
  return words + " (" + stop.event.code + ")";
}

std::vector<std::string> stop_lines(const std::vector<WorkStop>& stops) {
  std::vector<std::string> lines;
  for (const auto& stop : stops) lines.push_back(stop_in_words(stop) + ".");
  if (stops.empty()) return lines;
  lines.push_back(
      "Keep out and leave everything as it is. Only whoever is licensed or qualified for this danger under "
      "local code clears it; then it is entered: lathbook lift " +
      (stops.size() == 1 ? stops.front().event.code : std::string("STOP")) +
      " --by CODE --words \"on what ground\".");
  return lines;
}

}  // namespace lathbook
