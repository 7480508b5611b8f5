// What must stop, whom to ring, and how the work may go on.
#include <algorithm>

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "core/cli/work_ground.hpp"
#include "core/evidence/registry.hpp"
#include "core/evidence/validation.hpp"
#include "core/view/hazards.hpp"
#include "core/view/plain_words.hpp"
#include "core/view/stops.hpp"

namespace lathbook::cli {

namespace {

// Numbers on record for just this, then those for anything.
std::vector<std::string> whom_to_ring(const StatementReader& reader, const std::string& hazard,
                                      const std::string& alarm) {
  std::vector<std::string> meant, any;
  Query query;
  query.properties = {Registry::standard().named("ring-first").id};
  reader.each_statement(query, [&](const Statement& statement) {
    const auto of = statement.content.qualifier("hazard");
    const auto when = statement.content.qualifier("alarm");
    if (of.empty() && when.empty())
      any.push_back(statement.content.value);
    else if ((!of.empty() && of == hazard) || (!when.empty() && when == alarm))
      meant.push_back(statement.content.value);
    return true;
  });
  meant.insert(meant.end(), any.begin(), any.end());
  return meant;
}

struct Alarm {
  std::string hazard, alarm;
};

Alarm alarm_of(const std::string& what) {
  if (is_choice("alarm", what))
    return {what == "smell of gas" ? "gas" : what == "movement" ? "structure and chimney" : "", what};
  if (is_choice("hazard", what)) return {what, "suspected hazard"};
  fail(ErrorKind::invalid, quote(what) + " is neither an alarm (" +
                               join(Registry::standard().choices("alarm"), ", ") + ") nor a hazard (" +
                               join(Registry::standard().choices("hazard"), ", ") + ")");
}

void tell_stop(Context& context, const RecordInfo& where, const std::string& event, const Alarm& alarm,
               const std::vector<std::string>& ring) {
  auto& out = context.out();
  out << "Work stopped at " << display(where) << " (event " << event << "). Keep everybody out.\n";
  for (const auto& line : ring) out << "Ring: " << safe_display(line) << '\n';
  if (ring.empty())
    out << "Nobody is on record to ring. Ring the emergency number if life is in danger, then the person "
           "responsible. Enter numbers beforehand: lathbook say PLACE ring-first \"NAME, NUMBER\"\n";
  for (const auto& caution : cautions())
    if (caution.jurisdiction == "any" && (caution.hazard == alarm.hazard || caution.hazard == alarm.alarm))
      for (const auto& line : wrap(caution.advice, 96)) out << line << '\n';
}

// The stop of this code, or the only one that stands at the place or thing of this code.
WorkStop need_stop(const Snapshot& snapshot, const std::string& code) {
  const auto record = need_record(snapshot.statements(), code);
  std::vector<WorkStop> meant;
  if (record.kind != Kind::event) {
    meant = stops_around(snapshot, {record.id});
    if (meant.empty()) fail(ErrorKind::invalid, "work is not stopped at " + display(record));
  } else {
    for (auto& stop : every_stop(snapshot))
      if (stop.event.id == record.id) meant.push_back(std::move(stop));
    if (meant.empty()) fail(ErrorKind::invalid, display(record) + " is no stop of work");
  }
  std::vector<std::string> codes;
  for (const auto& stop : meant) codes.push_back(stop.event.code);
  if (meant.size() > 1)
    fail(ErrorKind::invalid,
         "work is stopped there more than once; name the stop that is lifted: " + join(codes, ", "));
  if (meant.front().lifted)
    fail(ErrorKind::invalid,
         meant.front().event.code + " was lifted already, by " + meant.front().lifted->code +
             (meant.front().lifted_on.empty() ? std::string()
                                              : " of " + date_in_words(meant.front().lifted_on)));
  return meant.front();
}

void refuse_lift_without(const LiftStop& wanted) {
  if (wanted.ground.by.empty() || trim(wanted.words).empty())
    fail(ErrorKind::invalid,
         "a stop is lifted by somebody who is licensed or qualified to clear it, and on a ground (a "
         "laboratory's "
         "result, a clearance in writing); say both with --by CODE and --words GROUND");
  if (std::string why; !wanted.status.empty() && !well_formed(ValueType::choice, "hazard-status",
                                                              wanted.status, Registry::standard(), why))
    fail(ErrorKind::invalid, "--hazard-is: " + why);
}

// A hazard is said of places, elements and containers; of a piece, where it belongs.
std::vector<std::string> where_the_hazard_is(const Snapshot& snapshot, const WorkStop& stop) {
  std::vector<std::string> codes;
  for (const auto& at : stop.at) {
    if (at.kind == Kind::place || at.kind == Kind::element) codes.push_back(at.code);
    if (at.kind != Kind::piece) continue;
    const auto piece = snapshot.find(at.id);
    const auto element = piece ? piece->record("piece-of") : std::nullopt;
    if (const auto record = element ? snapshot.statements().record(*element) : std::nullopt)
      codes.push_back(record->code);
  }
  return codes;
}

void tell_lifted(const Context& context, const WorkStop& stop, const std::string& event,
                 const std::string& day, const LiftStop& wanted) {
  if (context.json()) return tell_pairs(context, {{"event", event}, {"lifts", stop.event.code}, {"on", day}});
  std::vector<std::string> where;
  for (const auto& at : stop.at) where.push_back(display(at));
  context.out() << "The stop " << stop.event.code << " at " << join(where, "; ") << " is lifted, since "
                << day << " (event " << event << ").\n";
  if (wanted.status.empty() && !stop.hazards.empty())
    context.out() << join(stop.hazards, ", ")
                  << ": counts as presumed until somebody says otherwise; enter a test with --hazard-is, or "
                     "lathbook say PLACE hazard.\n";
  context.out() << "This enters what was decided; it clears nothing itself. Local codes and licensed people "
                   "decide.\n";
}

}  // namespace

int stop_work(Context& context, const StopWork& wanted) {
  const Alarm alarm = alarm_of(wanted.what);
  auto archive = context.open(true);
  auto writer = session(context, archive);
  const auto where = need_record(*writer, wanted.where);
  Ground ground = wanted.ground;
  fill_in(context, ground);
  const auto reader =
      archive.read({.with_private = true, .known_on = {}, .by_entry_day = false, .fingerprint = {}});
  if (ground.source.empty()) ground.source = day_sheet(context, archive, *writer, *reader, ground);
  const auto code = archive.free_code("V");
  const auto event = writer->make_record(Kind::event, code, context.recorder(*writer));
  const auto enter = [&](const std::string& property, const std::string& value) {
    if (!value.empty()) writer->add(draft(context, archive, *writer, event, property, value, ground));
  };
  enter("event-type", "stopped");
  enter("event-date", ground.on);
  enter("event-on", where.code);
  enter("done-by", ground.by);
  enter("hazard-met", alarm.hazard);
  enter("alarm", alarm.alarm);
  enter("outcome", wanted.words);
  writer->commit();
  const auto ring = whom_to_ring(*reader, alarm.hazard, alarm.alarm);
  if (context.json())
    tell_pairs(context,
               {{"event", code}, {"at", where.code}, {"alarm", alarm.alarm}, {"ring", join(ring, "; ")}});
  else
    tell_stop(context, where, code, alarm, ring);
  return kDone;
}

int lift_stop(Context& context, const LiftStop& wanted) {
  refuse_lift_without(wanted);
  auto archive = context.open(true);
  auto writer = session(context, archive);
  const auto reader =
      archive.read({.with_private = true, .known_on = {}, .by_entry_day = false, .fingerprint = {}});
  const Snapshot snapshot(*reader);
  const WorkStop stop = need_stop(snapshot, wanted.stop);
  Ground ground = wanted.ground;
  fill_in(context, ground);
  const auto stopped = earliest_day(stop.day), lifted = earliest_day(ground.on);
  if (stopped && lifted && *lifted < *stopped)
    fail(ErrorKind::invalid, "work was stopped on " + date_in_words(stop.day) + ", so " + stop.event.code +
                                 " cannot have been lifted on " + date_in_words(ground.on) +
                                 "; nothing was entered");
  if (!wanted.status.empty() && stop.hazards.empty())
    fail(ErrorKind::invalid,
         stop.event.code + " names no hazard, so --hazard-is has nothing to say; leave it out");
  if (ground.source.empty()) ground.source = day_sheet(context, archive, *writer, *reader, ground);
  const auto code = archive.free_code("V");
  const auto event = writer->make_record(Kind::event, code, context.recorder(*writer));
  const auto enter = [&](const Uuid& subject, const std::string& property, const std::string& value) {
    if (!value.empty()) writer->add(draft(context, archive, *writer, subject, property, value, ground));
  };
  enter(event, "event-type", "stop lifted");
  enter(event, "event-date", ground.on);
  for (const auto& at : stop.at) enter(event, "event-on", at.code);
  enter(event, "done-by", ground.by);
  enter(event, "outcome", wanted.words);
  enter(event, "lifts-stop", stop.event.code);
  if (!wanted.status.empty()) {
    ground.details.push_back("status=" + wanted.status);
    ground.why = wanted.words;
    for (const auto& where : where_the_hazard_is(snapshot, stop))
      for (const auto& hazard : stop.hazards) enter(need_record(*writer, where).id, "hazard", hazard);
  }
  writer->commit();
  tell_lifted(context, stop, code, ground.on, wanted);
  return kDone;
}

}  // namespace lathbook::cli
