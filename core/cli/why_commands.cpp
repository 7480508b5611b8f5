// Why a date or value stands: the chain from the dated end, what each link is worth, what else says so.
#include <algorithm>
#include <iostream>
#include <variant>

#include "core/analysis/result.hpp"
#include "core/base/json_writer.hpp"
#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/cli/scope_words.hpp"
#include "core/cli/statement_words.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::cli {

namespace {

// One date of a record, as it is asked for.
struct Asked {
  std::string key;    ///< "begins"
  std::string title;  ///< "in place"
  const Span* span;
};

// A record, or one of its placements, with its dates.
struct Dated {
  RecordInfo record;
  int placement = 0;
  int placements = 0;
  std::vector<Asked> dates;
  std::string last_seen;
  const std::vector<TimelineEither>* either = nullptr;
};

std::string doubt(Level level) {
  return level == Level::certain ? "" : level == Level::probable ? " (probable)" : " (possible)";
}

std::string day_words(bool earliest, bool known, Day day) {
  if (!known) return earliest ? "nothing would say how early" : "nothing would say how late";
  return (earliest ? "not before " : "not after ") + plain_day(day);
}

class Teller {
public:
  Teller(const Context& context, const StatementReader& reader,
         const std::vector<TimelineConflict>& conflicts)
      : context_(context), reader_(reader), conflicts_(conflicts) {}

  void tell(const Dated& dated) const {
    context_.out() << context_.strong(display(dated.record));
    if (dated.placements > 1)
      context_.out() << ", placement " << dated.placement << " of " << dated.placements;
    context_.out() << '\n';
    for (const Asked& asked : dated.dates)
      for (const bool earliest : {true, false})
        tell(asked, earliest ? asked.span->earliest : asked.span->latest, earliest);
    for (const Asked& asked : dated.dates) tell_gaps(asked);
    if (is_contested(dated))
      for (const TimelineConflict& conflict : conflicts_)
        tell_wrapped(context_, "  ", "Contested: " + conflict.words);
    if (!dated.last_seen.empty()) tell_wrapped(context_, "  ", capital(dated.last_seen) + ".");
    if (dated.either == nullptr) return;
    for (const TimelineEither& either : *dated.either)
      if (dated.dates.size() > 1 || bears_on(either, dated)) tell_wrapped(context_, "  ", either.words);
  }

private:
  // Would one of the dates asked for be another without the way in which contradictions are settled?
  static bool is_contested(const Dated& dated) {
    return std::any_of(dated.dates.begin(), dated.dates.end(), [](const Asked& asked) {
      const Bound &earliest = asked.span->earliest, &latest = asked.span->latest;
      return (earliest.known && earliest.leaned) || (latest.known && latest.leaned);
    });
  }

  // Where one date is asked for: an either-or that is settled is told when the date rests on it.
  static bool bears_on(const TimelineEither& either, const Dated& dated) {
    const auto left = std::count_if(either.cases.begin(), either.cases.end(),
                                    [](const TimelineCase& one) { return one.holds != Membership::no; });
    if (left != 1) return true;
    const auto names = [&](const Bound& bound) {
      return std::any_of(bound.reason.begin(), bound.reason.end(), [&](const ReasonStep& step) {
        return std::any_of(either.statements.begin(), either.statements.end(),
                           [&](const ReasonStep& said) { return said.statement == step.statement; });
      });
    };
    return std::any_of(dated.dates.begin(), dated.dates.end(), [&](const Asked& asked) {
      return names(asked.span->earliest) || names(asked.span->latest);
    });
  }

  void tell(const Asked& asked, const Bound& bound, bool earliest) const {
    if (!bound.known) {
      tell_wrapped(context_, "  ", asked.title + ": nothing says how " + (earliest ? "early" : "late") + ".");
      return;
    }
    std::string head = asked.title + ": " + day_words(earliest, true, bound.day) + doubt(bound.level);
    if (bound.perhaps_wide) head += ", may be wider than it need be";
    if (bound.leaned) head += ", contested (see below)";
    tell_wrapped(context_, "  ", head + ".");
    if (!bound.words.empty()) tell_wrapped(context_, "    ", bound.words);
    int number = 1;
    std::size_t link = 0;
    for (const ReasonStep& step : bound.reason) {
      const std::string mark = "[" + std::to_string(number++) + "] ";
      if (bound.words.empty()) tell_wrapped(context_, "    " + mark, step.words);
      const std::string gap = bound.words.empty() ? std::string(4 + mark.size(), ' ') : "    " + mark;
      cite(step, gap);
      if (step.statement == Digest{} || link >= bound.lacking.size()) continue;
      const Lacking& lacking = bound.lacking[link++];
      tell_wrapped(context_, std::string(4 + mark.size(), ' '), without(bound, lacking, earliest));
    }
    if (bound.otherwise) tell(*bound.otherwise, bound, earliest);
  }

  // Between the stretches that the cases of an either-or leave.
  void tell_gaps(const Asked& asked) const {
    const auto& parts = asked.span->parts;
    for (std::size_t at = 1; at < parts.size(); ++at)
      tell_wrapped(context_, "  ",
                   asked.title + ": not from " + plain_day(parts[at - 1].last + 1) + " to " +
                       plain_day(parts[at].first - 1) + ", whichever of the cases left open it was.");
  }

  std::string without(const Bound& bound, const Lacking& lacking, bool earliest) const {
    if (lacking.known && lacking.day == bound.day) return "Without this statement it would be the same day.";
    return "Without this statement " +
           (lacking.known ? "it would be " + day_words(earliest, true, lacking.day)
                          : day_words(earliest, false, 0)) +
           ".";
  }

  void cite(const ReasonStep& step, const std::string& indent) const {
    const auto statement = step.statement == Digest{} ? std::nullopt : reader_.statement(step.statement);
    if (!statement) return;
    tell_wrapped(context_, indent, statement->name() + "; " + ground_words(reader_, *statement));
  }

  void tell(const Otherwise& otherwise, const Bound& bound, bool earliest) const {
    if (!otherwise.known) {
      tell_wrapped(context_, "    ", std::string("Nothing else says how ") + (earliest ? "early." : "late."));
      return;
    }
    const std::string head =
        otherwise.day == bound.day
            ? "Confirmed independently, by statements that have no part in this reason"
            : "Without any of these it would be " + day_words(earliest, true, otherwise.day);
    tell_wrapped(context_, "    ", head + doubt(otherwise.level) + ":");
    for (const ReasonStep& step : otherwise.reason) {
      const auto statement = step.statement == Digest{} ? std::nullopt : reader_.statement(step.statement);
      tell_wrapped(context_, "      - ", step.words + (statement ? " (" + statement->name() + ")." : "."));
    }
  }

  const Context& context_;
  const StatementReader& reader_;
  const std::vector<TimelineConflict>& conflicts_;
};

class JsonTeller {
public:
  JsonTeller(JsonWriter& json, const StatementReader& reader) : json_(json), reader_(reader) {}

  void tell(const Dated& dated) {
    json_.begin_object().key("code").string(dated.record.code).key("placement").number(dated.placement);
    for (const Asked& asked : dated.dates) {
      json_.key(asked.key).begin_object().key("earliest");
      bound(asked.span->earliest);
      json_.key("latest");
      bound(asked.span->latest);
      parts(asked.span->parts);
      json_.end_object();
    }
    if (!dated.last_seen.empty()) json_.key("last-seen").string(dated.last_seen);
    if (dated.either != nullptr && !dated.either->empty()) eithers(*dated.either);
    json_.end_object();
  }

private:
  void parts(const std::vector<DayRange>& list) {
    if (list.empty()) return;
    json_.key("parts").begin_array();
    for (const DayRange& part : list)
      json_.begin_object()
          .key("first")
          .string(iso_day(part.first))
          .key("last")
          .string(iso_day(part.last))
          .end_object();
    json_.end_array();
  }

  void eithers(const std::vector<TimelineEither>& list) {
    json_.key("either").begin_array();
    for (const TimelineEither& either : list) {
      json_.begin_object().key("words").string(either.words);
      json_.key("statements");
      steps(either.statements, {});
      json_.key("cases").begin_array();
      for (const TimelineCase& one : either.cases) {
        json_.begin_object().key("words").string(one.words).key("holds").string(word_of(one.holds));
        json_.key("against");
        steps(one.against, {});
        json_.end_object();
      }
      json_.end_array().key("all-tried").boolean(either.all_tried).end_object();
    }
    json_.end_array();
  }

  void day(bool known, Day day) {
    json_.key("known").boolean(known);
    if (known) json_.key("day").string(iso_day(day));
  }

  void steps(const std::vector<ReasonStep>& list, const std::vector<Lacking>& lacking) {
    std::size_t link = 0;
    json_.begin_array();
    for (const ReasonStep& step : list) {
      json_.begin_object().key("words").string(step.words);
      const auto statement = step.statement == Digest{} ? std::nullopt : reader_.statement(step.statement);
      if (statement) {
        json_.key("statement").string(statement->name()).key("citations").begin_array();
        for (const auto& citation : statement->content.citations)
          json_.string(citation_words(reader_, citation));
        json_.end_array();
      }
      if (step.statement != Digest{} && link < lacking.size()) {
        json_.key("without").begin_object();
        day(lacking[link].known, lacking[link].day);
        json_.end_object();
        ++link;
      }
      json_.end_object();
    }
    json_.end_array();
  }

  void bound(const Bound& one) {
    json_.begin_object();
    day(one.known, one.day);
    if (one.known) {
      json_.key("level").string(word_of(one.level));
      json_.key("may-be-wider-than-need-be").boolean(one.perhaps_wide);
      json_.key("contested").boolean(one.leaned);
      if (!one.words.empty()) json_.key("words").string(one.words);
    }
    json_.key("reason");
    steps(one.known ? one.reason : std::vector<ReasonStep>{}, one.lacking);
    if (one.otherwise) {
      json_.key("otherwise").begin_object();
      day(one.otherwise->known, one.otherwise->day);
      json_.key("confirms").boolean(one.otherwise->known && one.otherwise->day == one.day);
      json_.key("reason");
      steps(one.otherwise->reason, {});
      json_.end_object();
    }
    json_.end_object();
  }

  static std::string_view word_of(Membership holds) {
    return holds == Membership::certain ? "in all" : holds == Membership::possible ? "in some" : "in none";
  }

  static std::string_view word_of(Level level) {
    return level == Level::certain ? "certain" : level == Level::probable ? "probable" : "possible";
  }

  JsonWriter& json_;
  const StatementReader& reader_;
};

// A value's chain: the statement, what it cites, and the statements it was concluded from, to the sources.
void tell_value(const Context& context, const StatementReader& reader, const Statement& statement,
                int depth) {
  const std::string indent(static_cast<std::size_t>(2 + 4 * depth), ' ');
  const auto* property = Registry::standard().find(statement.content.property);
  const auto subject = reader.record(statement.content.subject);
  context.out() << indent << (subject ? display(*subject) : "a withheld record") << ' '
                << (property == nullptr ? "" : property->label) << ' ' << value_words(reader, statement)
                << '\n'
                << indent << "  " << statement.name() << ": " << ground_words(reader, statement) << '\n';
  if (depth > 20) return;
  for (const auto& ground : statement.content.grounds) {
    if (const auto from = reader.statement(ground)) tell_value(context, reader, *from, depth + 1);
  }
}

// A property by its name, or by the words that 'show' prints for it.
const Property& property_meant(const std::string& what, Kind kind) {
  const Registry& registry = Registry::standard();
  if (const Property* named = registry.find(what)) return *named;
  const std::string words = fold(what);
  for (const Property& property : registry.properties())
    if (property.said_of(kind) && fold(property.label) == words) return property;
  return registry.named(what);
}

// One statement, by its short name.
int why_statement(const Context& context, const Archive& archive, const StatementReader& reader,
                  const std::string& name) {
  const auto statement = reader.statement(archive.statement_named(name));
  if (!statement || statement->presence != Presence::present)
    fail(ErrorKind::not_found, "the statement " + quote(name) + " is withheld, or not held by this copy");
  if (context.json()) {
    JsonWriter json(context.out());
    write_statement(json, reader, *statement);
    json.finish();
    return kDone;
  }
  tell_value(context, reader, *statement, 0);
  return kDone;
}

int why_value(const Context& context, const StatementReader& reader, const RecordInfo& record,
              const std::string& what) {
  const Property& property = property_meant(what, record.kind);
  Query query;
  query.subject = record.id;
  query.properties = {property.id};
  std::vector<Statement> statements;
  reader.each_statement(query, [&](const Statement& statement) {
    statements.push_back(statement);
    return true;
  });
  if (statements.empty()) {
    fail(ErrorKind::not_found, "nothing is said of " + display(record) + " under " + quote(property.label));
  }
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_array();
    for (const auto& statement : statements) {
      write_statement(json, reader, statement);
      for (const auto& ground : statement.content.grounds) {
        if (const auto from = reader.statement(ground)) write_statement(json, reader, *from);
      }
    }
    json.end_array().finish();
    return kDone;
  }
  for (const auto& statement : statements) tell_value(context, reader, statement, 0);
  return kDone;
}

// The dates of the record in the timeline that was made of it alone.
std::vector<Dated> dates_of(const Timeline& timeline, const RecordInfo& record) {
  std::vector<Dated> found;
  for (const auto& item : timeline.items) {
    if (item.record.id != record.id) continue;
    Dated dated{item.record,    item.placement, item.placements, {{"made", "made", &item.made}},
                item.last_seen, &item.either};
    if (item.placement > 0) {
      dated.dates.push_back({"begins", "in place", &item.begins});
      dated.dates.push_back({"ends", "gone", &item.ends});
    }
    found.push_back(std::move(dated));
  }
  for (const auto& works : timeline.works)
    if (works.record.id == record.id)
      found.push_back(
          {record, 0, 0, {{"begins", "begun", &works.begins}, {"ends", "over", &works.ends}}, {}, nullptr});
  for (const auto& phase : timeline.phases)
    if (phase.record.id == record.id)
      found.push_back({record, 0, 0, {{"begins", "opened", &phase.opens}}, {}, nullptr});
  for (const auto& source : timeline.sources)
    if (source.source == record.id)
      found.push_back({record, 0, 0, {{"made", "made", &source.when}}, {}, nullptr});
  return found;
}

int why_date(Context& context, const StatementReader& reader, const RecordInfo& record, const Why& wanted,
             const std::vector<Digest>& without) {
  const Snapshot snapshot(reader);
  AnalysisRequest request;
  request.scope = record.id;
  request.level = level_of(wanted.level);
  request.leave_out = without;
  request.settings.emplace_back("links", "yes");
  if (!wanted.answer.empty()) request.settings.emplace_back("answer", wanted.answer);
  const auto& result = context.plugins().run_analysis("timeline", snapshot, request);
  const auto* timeline = std::get_if<Timeline>(&result);
  if (timeline == nullptr) fail(ErrorKind::unsupported, "the timeline plugin gave no timeline");
  std::vector<Dated> found = dates_of(*timeline, record);
  for (Dated& dated : found) {
    if (wanted.what.empty()) continue;
    std::vector<Asked> kept;
    for (const Asked& asked : dated.dates)
      if (asked.key == wanted.what) kept.push_back(asked);
    dated.dates = std::move(kept);
  }
  const auto is_empty = [](const Dated& dated) { return dated.dates.empty(); };
  found.erase(std::remove_if(found.begin(), found.end(), is_empty), found.end());
  if (found.empty()) {
    fail(ErrorKind::not_found, display(record) +
                                   " has no such date of its own; ask for one of its properties, for the "
                                   "thing it belongs to, or for "
                                   "the record it is the same as");
  }
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_array();
    JsonTeller teller(json, reader);
    for (const Dated& dated : found) teller.tell(dated);
    json.end_array().finish();
    return kDone;
  }
  const Teller teller(context, reader, timeline->conflicts);
  for (const Dated& dated : found) teller.tell(dated);
  tell_withheld(context, reader.reading());
  return kDone;
}

bool is_date(std::string_view what) {
  return what == "made" || what == "begins" || what == "ends";
}

// "3fa9c2d1-12", as it is printed behind every value.
bool is_statement_name(std::string_view text) {
  const auto hyphen = text.find('-');
  return hyphen == 8 && text.size() > 9 &&
         text.substr(0, 8).find_first_not_of("0123456789abcdef") == std::string_view::npos &&
         text.substr(9).find_first_not_of("0123456789") == std::string_view::npos;
}

bool has_dates(Kind kind) {
  switch (kind) {
    case Kind::element:
    case Kind::finish:
    case Kind::piece:
    case Kind::find:
    case Kind::source:
    case Kind::campaign:
    case Kind::phase:
      return true;
    default:
      return false;
  }
}

}  // namespace

int why(Context& context, const Why& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  if (is_statement_name(wanted.code)) return why_statement(context, archive, *reader, wanted.code);
  if (is_statement_name(wanted.what)) return why_statement(context, archive, *reader, wanted.what);
  const auto record = need_record(*reader, wanted.code);
  const std::vector<Digest> without = statements_named(archive, wanted.without);
  const bool date = wanted.what.empty() || is_date(wanted.what);
  if (date && has_dates(record.kind)) return why_date(context, *reader, record, wanted, without);
  if (wanted.what.empty()) {
    fail(ErrorKind::invalid, "say which value is meant: lathbook why " + record.code +
                                 " PROPERTY ('lathbook properties --of " + std::string(word(record.kind)) +
                                 "' lists them)");
  }
  return why_value(context, *reader, record, wanted.what);
}

}  // namespace lathbook::cli
