#include "core/cli/drafting.hpp"

#include <unistd.h>

#include <iostream>
#include <set>

#include "core/base/calendar.hpp"
#include "core/base/edtf.hpp"
#include "core/base/json_writer.hpp"
#include "core/base/text.hpp"
#include "core/base/typed_date.hpp"
#include "core/evidence/registry.hpp"

namespace lathbook::cli {

namespace {

std::vector<Qualifier> parted(const std::vector<std::string>& details) {
  std::vector<Qualifier> qualifiers;
  for (const auto& detail : details) {
    const auto equals = detail.find('=');
    if (equals == std::string::npos || equals == 0) {
      fail(ErrorKind::invalid, "a detail is written name=value; " + quote(detail) + " is not");
    }
    qualifiers.push_back(
        {std::string(trim(detail.substr(0, equals))), std::string(trim(detail.substr(equals + 1)))});
  }
  return qualifiers;
}

// What is said to be made, there or seen cannot have been so later than today; works, permits and other plans
// may lie ahead.
void refuse_time_to_come(const Property& property, const std::string& value, Day today) {
  static const std::set<std::string, std::less<>> past{"installed",  "made",        "made-not-before",
                                                       "seen-on",    "standing-by", "source-date",
                                                       "event-date", "uncovered-on"};
  if (past.count(property.name) == 0) return;
  if (lies_ahead(value, today))
    fail(ErrorKind::invalid, property.name + " " + quote(value) + " lies ahead of today, " + iso_day(today) +
                                 "; give the date that was meant");
}

bool at_terminal() {
  return ::isatty(STDIN_FILENO) != 0 && ::isatty(STDERR_FILENO) != 0;
}

}  // namespace

bool lies_ahead(std::string_view typed, Day today) {
  const auto first = read_typed_date(typed).edtf.earliest();
  return first && *first > today;
}

std::string day_that_came(const Context& context, std::string_view typed) {
  const Day today = context.clock().now().local_day();
  if (typed.empty()) return iso_day(today);
  if (lies_ahead(typed, today))
    fail(ErrorKind::invalid, quote(typed) + " lies ahead of today, " + iso_day(today) +
                                 "; say with --on the day on which it was done or said");
  return read_typed_date(typed).edtf.text();
}

void apply_ground(Content& content, const Archive& archive, const EntrySink& sink, const Ground& ground) {
  for (const auto& qualifier : parted(ground.details)) content.qualifiers.push_back(qualifier);
  if (!ground.source.empty()) {
    content.citations.push_back({need_record(sink, ground.source).id, ground.locator, ground.quote});
  } else if (!ground.locator.empty() || !ground.quote.empty()) {
    fail(ErrorKind::invalid, "--at and --quote belong to a source; name it with --source CODE");
  }
  if (!ground.by.empty()) content.author = need_record(sink, ground.by).id;
  content.said_on = ground.on;
  if (!ground.evidence.empty()) {
    const auto evidence = class_from_word(ground.evidence);
    if (!evidence || *evidence == EvidenceClass::none) {
      fail(ErrorKind::invalid, "a class of evidence is physical, documentary, oral or comparative, not " +
                                   quote(ground.evidence));
    }
    content.evidence = *evidence;
  }
  if (!ground.confidence.empty()) {
    const auto confidence = confidence_from_word(ground.confidence);
    if (!confidence || *confidence == Confidence::none) {
      fail(ErrorKind::invalid,
           "a confidence is certain, probable, possible or conjecture, not " + quote(ground.confidence));
    }
    content.confidence = *confidence;
  }
  for (const auto& name : ground.because) content.grounds.push_back(archive.statement_named(name));
  content.why = ground.why;
  if (!ground.private_reason.empty()) content.privacy = Privacy{ground.private_reason, ground.private_until};
}

Content draft(const Context& context, const Archive& archive, const EntrySink& sink, const Uuid& subject,
              const std::string& property, const std::string& value, const Ground& ground) {
  const Property& row = Registry::standard().named(property);
  Content content;
  content.subject = subject;
  content.property = row.id;
  content.value = value;
  switch (row.type) {
    case ValueType::record:
      content.value = need_record(sink, value).id.text();
      break;
    case ValueType::statement:
      content.value = archive.statement_named(value).hex();
      break;
    default:
      break;
  }
  if (row.type == ValueType::date) refuse_time_to_come(row, value, context.clock().now().local_day());
  content.recorder = context.recorder(sink);
  if (!ground.on.empty()) day_that_came(context, ground.on);
  apply_ground(content, archive, sink, ground);
  return content;
}

void tell_entered(const Context& context, const Writer& writer, const Digest& id) {
  const auto statement = writer.statement(id);
  if (!statement) return;
  const auto& content = statement->content;
  const Property* property = Registry::standard().find(content.property);
  const auto subject = writer.record(content.subject);
  std::string value = content.value;
  if (property != nullptr && property->type == ValueType::record) {
    if (const auto object = Uuid::parse(value)) {
      if (const auto record = writer.record(*object)) value = display(*record);
    }
  }
  std::string understood;
  if (property != nullptr && property->type == ValueType::date) {
    understood = describe(Edtf::parse(content.edtf.empty() ? content.value : content.edtf));
  }
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_object();
    json.key("statement").string(statement->name());
    json.key("id").string(id.hex());
    json.key("subject").string(subject ? subject->code : "");
    json.key("property").string(property == nullptr ? "" : property->name);
    json.key("value").string(content.value);
    if (!content.edtf.empty()) json.key("edtf").string(content.edtf);
    if (!understood.empty()) json.key("understood").string(understood);
    json.end_object().finish();
    return;
  }
  context.out() << context.strong(statement->name()) << "  " << (subject ? display(*subject) : std::string())
                << ' ' << (property == nullptr ? "" : property->label) << ' ' << safe_display(value) << '\n';
  if (!content.edtf.empty()) {
    context.out() << "  understood as " << content.edtf << ": " << understood << '\n';
  }
}

void tell_pairs(const Context& context, const std::vector<std::pair<std::string, std::string>>& pairs) {
  JsonWriter json(context.out());
  json.begin_object();
  for (const auto& [key, value] : pairs) json.key(key).string(value);
  json.end_object().finish();
}

std::string ask(const Context& context, const std::string& question, const std::vector<std::string>& answers,
                const std::string& option) {
  std::string offered;
  for (std::size_t i = 0; i < answers.size(); ++i) {
    offered += (i == 0 ? "" : ", ") + answers[i];
  }
  if (!at_terminal()) fail(ErrorKind::invalid, question + " Say it with " + option + ": " + offered);
  while (true) {
    context.err() << question << "\n  (" << offered << ")\n> " << std::flush;
    std::string answer;
    if (!std::getline(std::cin, answer)) fail(ErrorKind::invalid, "no answer was given; nothing was entered");
    answer = trim(answer);
    for (const auto& known : answers) {
      if (fold(known) == fold(answer)) return known;
    }
    const auto near = nearest(answer, answers, 1);
    if (!near.empty()) context.err() << "did you mean " << near.front() << "?\n";
  }
}

std::string ask_contact(const Context& context, const std::string& option) {
  return ask(context,
             "Which contact between them was read with your own eyes? 'not read' is an answer, and orders "
             "nothing.",
             Registry::standard().choices("contact"), option);
}

bool agrees(const Context& context, const std::string& question) {
  if (!at_terminal()) return false;
  context.err() << question << " (yes/no) " << std::flush;
  std::string answer;
  return std::getline(std::cin, answer) && (fold(answer) == "yes" || fold(answer) == "y");
}

std::unique_ptr<Writer> session(const Context& context, Archive& archive) {
  auto writer = archive.write();
  if (context.common().clock_is_right) {
    writer->accept_clock();
  } else if (const auto last = archive.last_entry()) {
    const auto now = context.clock().now();
    const bool strange = now.seconds < last->seconds || now.seconds - last->seconds > 30 * 86400;
    if (strange && agrees(context, "The last entry is of " + last->text() + " and the clock says " +
                                       now.text() + ". Is the clock right?")) {
      writer->accept_clock();
    }
  }
  return writer;
}

}  // namespace lathbook::cli
