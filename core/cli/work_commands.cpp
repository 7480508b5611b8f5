// Other work on things, and what was tried before.
#include <algorithm>
#include <optional>
#include <set>

#include "core/base/json_writer.hpp"
#include "core/base/text.hpp"
#include "core/cli/piece_words.hpp"
#include "core/cli/work_ground.hpp"
#include "core/evidence/registry.hpp"
#include "core/evidence/validation.hpp"

namespace lathbook::cli {

namespace {

// Leaves the last undisturbed example as it is.
bool touches_nothing(const std::string& work) {
  static const std::set<std::string, std::less<>> looking{"photographed", "propped", "prop taken away",
                                                          "planned", "damaged"};
  return looking.count(work) != 0;
}

// What makes safe, or finds out how things are, is what a stop calls for.
bool is_safe_while_stopped(const std::string& work) {
  return touches_nothing(work) || work == "sampled";
}

std::string no_work(const std::string& word) {
  std::string why = quote(word) + " is entered by a command of its own";
  well_formed(ValueType::choice, "event-type", word, Registry::standard(), why);
  return why;
}

void refuse_moves(const RecordInfo& thing, const std::string& work) {
  static const std::set<std::string, std::less<>> moves{"removed", "packed", "put back"};
  if ((thing.kind == Kind::piece || thing.kind == Kind::find) && moves.count(work) != 0)
    fail(ErrorKind::invalid, display(thing) + " is a piece, and its place must change with the work: use " +
                                 (work == "removed"  ? "take-down"
                                  : work == "packed" ? "pack"
                                                     : "put-back"));
}

// --- what was tried before

// What was typed without the small words of a question.
std::vector<std::string> words_in(const std::string& text) {
  static const std::set<std::string, std::less<>> small{
      "a",  "an", "and",  "at",  "did",  "do", "for", "how",  "in",   "is",    "it",  "of",
      "on", "or", "that", "the", "this", "to", "was", "were", "what", "which", "with"};
  std::vector<std::string> words;
  std::string word;
  for (const char c : fold(text) + " ") {
    const auto byte = static_cast<unsigned char>(c);
    if (byte >= 0x80 || (byte >= 'a' && byte <= 'z') || (byte >= '0' && byte <= '9')) {
      word += c;
      continue;
    }
    if (!word.empty() && small.count(word) == 0) words.push_back(word);
    word.clear();
  }
  return words;
}

// "rusted" is rust and rusty, "slotted" is slot: they begin alike for all but three letters of the longer.
bool alike(const std::string& a, const std::string& b) {
  const std::string& longer = a.size() >= b.size() ? a : b;
  const std::string& shorter = a.size() >= b.size() ? b : a;
  if (shorter.size() < 3) return a == b;
  if (longer.compare(0, shorter.size(), shorter) == 0) return true;
  const std::size_t stem = longer.size() < 7 ? 4 : longer.size() - 3;
  return shorter.size() >= stem && longer.compare(0, stem, shorter, 0, stem) == 0;
}

struct Attempt {
  RecordInfo event;
  std::string work, day, worked, outcome, hours;
  std::vector<std::string> things, people, tools, lessons;
  std::size_t matched = 0;
};

std::vector<std::string> names_of(const Snapshot& snapshot, const RecordView& event, const char* property) {
  std::vector<std::string> names;
  for (const Statement* statement : event.all(property)) {
    const auto id = Uuid::parse(statement->content.value);
    if (const auto record = id ? snapshot.statements().record(*id) : std::nullopt)
      names.push_back(display(*record));
  }
  return names;
}

std::vector<std::string> texts_of(const RecordView& event, const char* property) {
  std::vector<std::string> texts;
  for (const Statement* statement : event.all(property)) texts.push_back(statement->content.value);
  return texts;
}

// All that is said of the event, and what the things are that it was done to.
std::string whole_text(const Snapshot& snapshot, const RecordView& event, const Attempt& attempt) {
  std::string text = event.info.name + ' ' + join(attempt.things, " ");
  for (const Statement& fact : event.facts)
    if (!Uuid::parse(fact.content.value)) text += ' ' + fact.content.value;
  for (const Statement* on : event.all("event-on")) {
    const auto id = Uuid::parse(on->content.value);
    const auto thing = id ? snapshot.find(*id) : std::nullopt;
    if (!thing) continue;
    for (const char* property : {"description", "element-type", "piece-type", "material", "condition"})
      for (const Statement* said : thing->all(property)) text += ' ' + said->content.value;
  }
  return text;
}

std::optional<Attempt> attempt_of(const Snapshot& snapshot, const RecordView& event,
                                  const std::vector<std::string>& wanted) {
  Attempt attempt;
  attempt.event = event.info;
  attempt.tools = texts_of(event, "tools");
  attempt.lessons = texts_of(event, "lesson");
  attempt.worked = event.text("worked");
  attempt.outcome = event.text("outcome");
  if (attempt.tools.empty() && attempt.lessons.empty() && attempt.worked.empty()) return std::nullopt;
  attempt.things = names_of(snapshot, event, "event-on");
  const auto there = words_in(whole_text(snapshot, event, attempt));
  attempt.matched =
      static_cast<std::size_t>(std::count_if(wanted.begin(), wanted.end(), [&](const std::string& word) {
        return std::any_of(there.begin(), there.end(),
                           [&](const std::string& one) { return alike(word, one); });
      }));
  if (attempt.matched == 0 || attempt.matched * 2 < wanted.size()) return std::nullopt;
  attempt.work = event.text("event-type");
  attempt.day = event.edtf("event-date");
  attempt.hours = event.text("hours");
  attempt.people = names_of(snapshot, event, "done-by");
  return attempt;
}

int rank_of(const std::string& worked) {
  if (worked == "worked") return 0;
  if (worked == "worked in part") return 1;
  return worked.empty() ? 3 : 2;
}

void write(std::ostream& out, const Attempt& attempt) {
  const auto line = [&](const std::string& label, const std::string& text) {
    if (text.empty()) return;
    bool first = true;
    for (const auto& part : wrap(safe_display(text), 84)) {
      out << "    " << (first ? label : std::string(label.size(), ' ')) << part << '\n';
      first = false;
    }
  };
  const std::string worked = attempt.worked.empty() ? "whether it worked was not said" : attempt.worked;
  out << safe_display(join(attempt.things, "; ")) << ", " << attempt.day << ": " << attempt.work << "; "
      << worked << "  (" << attempt.event.code << ")\n";
  line("with    ", join(attempt.tools, "; "));
  line("outcome ", attempt.outcome);
  line("learnt  ", join(attempt.lessons, "; "));
  line("by      ", join(attempt.people, "; ") + (attempt.hours.empty() ? "" : ", " + attempt.hours + " h"));
}

void write(JsonWriter& json, const Attempt& attempt) {
  const auto list = [&](const char* name, const std::vector<std::string>& values) {
    json.key(name).begin_array();
    for (const auto& value : values) json.string(value);
    json.end_array();
  };
  json.begin_object().key("event").string(attempt.event.code).key("work").string(attempt.work);
  json.key("on").string(attempt.day).key("worked").string(attempt.worked);
  list("things", attempt.things);
  list("tools", attempt.tools);
  json.key("outcome").string(attempt.outcome).key("hours").string(attempt.hours);
  list("learnt", attempt.lessons);
  list("by", attempt.people);
  json.end_object();
}

}  // namespace

int did(Context& context, const Handling& wanted) {
  if (!is_choice("event-type", wanted.event) || wanted.event == "stopped" || wanted.event == "stop lifted")
    fail(ErrorKind::invalid,
         no_work(wanted.event) + " (work that must stop is entered with 'stop', and goes on with 'lift')");
  auto archive = context.open(true);
  auto writer = session(context, archive);
  const auto reader =
      archive.read({.with_private = true, .known_on = {}, .by_entry_day = false, .fingerprint = {}});
  const Snapshot snapshot(*reader);
  Ground ground = wanted.ground;
  fill_in(context, ground);
  std::vector<Uuid> things;
  std::vector<RecordView> pieces;
  const auto codes = piece_codes(*reader, wanted.pieces);
  for (const auto& code : codes) {
    const auto thing = need_record(*reader, code);
    if (thing.kind == Kind::piece || thing.kind == Kind::find)
      pieces.push_back(RecordView::read(*reader, thing));
    refuse_moves(thing, wanted.event);
    if (!touches_nothing(wanted.event)) refuse_if_retained(snapshot, thing.id);
    things.push_back(thing.id);
  }
  if (!pieces.empty() || !wanted.condition.empty()) refuse_condition(wanted);
  const std::string although =
      heed_stops(context, snapshot, things, wanted, !is_safe_while_stopped(wanted.event));
  if (!touches_nothing(wanted.event)) tell_hazards(context, snapshot, things, ground.on);
  if (ground.source.empty()) ground.source = day_sheet(context, archive, *writer, *reader, ground);
  const auto code = archive.free_code("V");
  const auto event = writer->make_record(Kind::event, code, context.recorder(*writer));
  const auto say = [&](const std::string& property, const std::string& value,
                       std::vector<std::string> details = {}) {
    if (value.empty()) return;
    Ground detailed = ground;
    detailed.details.insert(detailed.details.end(), details.begin(), details.end());
    if (property == "event-type" && !although.empty()) detailed.why = although;
    writer->add(draft(context, archive, *writer, event, property, value, detailed));
  };
  say("event-type", wanted.event);
  say("event-date", ground.on);
  int turn = 0;
  for (const auto& thing : codes) say("event-on", thing, {"order=" + std::to_string(++turn)});
  say("done-by", ground.by);
  say("tools", wanted.tools);
  say("outcome", wanted.outcome);
  say("worked", wanted.worked);
  say("hours", wanted.hours);
  say("lesson", wanted.lesson);
  if (wanted.event == "removed") say("to-return", "yes");
  say("product", wanted.product,
      wanted.batch.empty() ? std::vector<std::string>{} : std::vector<std::string>{"batch=" + wanted.batch});
  if (!wanted.condition.empty())
    for (const auto& piece : pieces)
      enter_of_day(context, archive, *writer, piece, "piece-condition", wanted.condition, ground);
  writer->commit();
  if (context.json())
    tell_pairs(context,
               {{"event", code}, {"work", wanted.event}, {"condition", wanted.condition}, {"on", ground.on}});
  else
    context.out() << join(codes, ", ") << ": " << wanted.event << " on " << ground.on
                  << (wanted.condition.empty() ? "" : ", now " + wanted.condition) << " (event " << code
                  << ")\n";
  return kDone;
}

int tried(Context& context, const Tried& wanted) {
  const auto words = words_in(join(wanted.words, " "));
  if (words.empty()) fail(ErrorKind::invalid, "say what is stuck: lathbook tried rusted slotted screw");
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  std::vector<Attempt> found;
  snapshot.each(Kind::event, [&](const RecordView& event) {
    if (auto attempt = attempt_of(snapshot, event, words)) found.push_back(std::move(*attempt));
  });
  std::stable_sort(found.begin(), found.end(), [](const Attempt& a, const Attempt& b) {
    if (a.matched != b.matched) return a.matched > b.matched;
    if (rank_of(a.worked) != rank_of(b.worked)) return rank_of(a.worked) < rank_of(b.worked);
    return a.day > b.day;
  });
  if (found.size() > wanted.most) found.resize(wanted.most);
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_array();
    for (const auto& attempt : found) write(json, attempt);
    json.end_array().finish();
    return kDone;
  }
  if (found.empty()) context.out() << "nothing like it was tried before, or nobody wrote it down\n";
  for (const auto& attempt : found) write(context.out(), attempt);
  return kDone;
}

}  // namespace lathbook::cli
