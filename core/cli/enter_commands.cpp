// Entering: new records, statements, amendments, withdrawals, expunging.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/cli/drafting.hpp"
#include "core/cli/statement_words.hpp"
#include "core/cli/work_ground.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/english.hpp"

namespace lathbook::cli {

namespace {

std::shared_ptr<StatementReader> reading_of_all(const Archive& archive) {
  ReadOptions all;
  all.with_private = true;
  return archive.read(all);
}

/// A record that something else leans on is not taken back under it.
void refuse_if_named(const StatementReader& reader, const RecordInfo& record) {
  std::vector<std::string> names;
  const auto gather = [&](const Query& query) {
    reader.each_statement(query, [&](const Statement& statement) {
      if (statement.content.subject == record.id) return true;
      const auto subject = reader.record(statement.content.subject);
      names.push_back(statement.name() + (subject ? " of " + display(*subject) : std::string()));
      return names.size() < 4;
    });
  };
  Query naming;
  naming.object = record.id;
  gather(naming);
  Query citing;
  citing.source = record.id;
  if (names.empty()) gather(citing);
  if (names.empty()) return;
  if (names.size() == 4) names.back() = "others";
  fail(ErrorKind::denied,
       display(record) + " is named by " + listed(names, "and") + "; withdraw those first, then the record");
}

/// Everything that is currently said of a record: what takes it back as a whole.
std::vector<Digest> all_said_of(const StatementReader& reader, const RecordInfo& record) {
  refuse_if_named(reader, record);
  Query query;
  query.subject = record.id;
  std::vector<Digest> said;
  reader.each_statement(query, [&](const Statement& statement) {
    said.push_back(statement.id);
    return true;
  });
  return said;
}

Digest one_to_withdraw(const Archive& archive, const StatementReader& reader, const std::string& name) {
  const Digest id = archive.statement_named(name);
  const auto statement = reader.statement(id);
  if (!statement || statement->presence != Presence::present) return id;
  if (!statement->current)
    fail(ErrorKind::invalid, quote(name) + " does not count any more: it was " +
                                 superseded_words(reader, *statement) + "; withdraw that one instead");
  if (statement->content.act == Act::state && statement->content.property == property::kind) {
    const auto record = reader.record(statement->content.subject);
    const std::string code = record ? record->code : std::string("its code");
    fail(ErrorKind::denied, quote(name) + " says what " + code +
                                " is; to take back the whole record, with all that is said of it, write " +
                                "withdraw " + code);
  }
  return id;
}

/// Whoever enters a thing and does not see it afterwards would think it lost.
void tell_if_hidden(const Context& context, const Archive& archive, const Digest& id) {
  if (context.json() || archive.read({})->statement(id)) return;
  context.out() << "  not shown in public: it is private, or rests on an interview whose consent is not "
                   "recorded; --with-private shows it\n";
}

/// A name given on the spot, without a source, is one of today's work: the people there call it so.
void ground_of_a_name(const Context& context, const Archive& archive, Writer& writer, Kind kind,
                      Ground& ground) {
  const bool is_told = !ground.source.empty() || !ground.evidence.empty() || !ground.confidence.empty();
  if (is_told) return;
  fill_in(context, ground);
  if (kind == Kind::agent) ground.evidence = "documentary";
  ground.source = day_sheet(context, archive, writer, *reading_of_all(archive), ground);
  ground.on.clear();
}

}  // namespace

int make_new(Context& context, const New& wanted) {
  const auto kind = kind_from_word(wanted.kind);
  if (!kind) {
    std::vector<std::string> words;
    for (const auto one : all_kinds()) words.emplace_back(word(one));
    fail(ErrorKind::invalid,
         quote(wanted.kind) + " is no kind of record; the kinds are " + join(words, ", "));
  }
  auto archive = context.open(true);
  auto writer = session(context, archive);
  const auto id = writer->make_record(*kind, wanted.code, context.recorder(*writer));
  if (!wanted.name.empty()) {
    Ground ground = wanted.ground;
    if (*kind != Kind::source) ground_of_a_name(context, archive, *writer, *kind, ground);
    const std::string property = *kind == Kind::source ? "title" : "name";
    writer->add(draft(context, archive, *writer, id, property, wanted.name, ground));
  }
  writer->commit();
  if (context.json()) {
    tell_pairs(context, {{"code", wanted.code}, {"id", id.text()}});
  } else {
    context.out() << "made " << word(*kind) << ' ' << context.strong(wanted.code) << '\n';
  }
  return kDone;
}

int say(Context& context, const Say& wanted) {
  auto archive = context.open(true);
  auto writer = session(context, archive);
  const auto subject = need_record(*writer, wanted.subject);
  const Property& property = Registry::standard().named(wanted.property);
  std::string value = wanted.value;
  Ground ground = wanted.ground;
  // A relation dates only by a contact that was read, so the one question is asked here.
  const auto* contact = property.qualifier("contact");
  const bool told = std::any_of(ground.details.begin(), ground.details.end(), [](const std::string& detail) {
    return trim(detail).rfind("contact", 0) == 0;
  });
  if (contact != nullptr && contact->required && !told)
    ground.details.push_back("contact=" + ask_contact(context, "--with contact=..."));
  if (property.type == ValueType::media) value = writer->add_media(value).digest.hex();
  const auto id = writer->add(draft(context, archive, *writer, subject.id, wanted.property, value, ground));
  tell_entered(context, *writer, id);
  writer->commit();
  tell_if_hidden(context, archive, id);
  return kDone;
}

int amend(Context& context, const Amend& wanted) {
  if (wanted.ground.why.empty()) {
    fail(ErrorKind::invalid,
         "an amendment says why (slip of the pen, better reading, changed mind); add --why");
  }
  auto archive = context.open(true);
  auto writer = session(context, archive);
  const auto old_id = archive.statement_named(wanted.statement);
  const auto old = writer->statement(old_id);
  if (!old || old->presence != Presence::present || old->content.act != Act::state) {
    fail(ErrorKind::invalid,
         quote(wanted.statement) + " cannot be amended: it is no statement that is here to read");
  }
  if (!old->current) {
    fail(ErrorKind::invalid, quote(wanted.statement) + " does not count any more: it was " +
                                 superseded_words(*reading_of_all(archive), *old) +
                                 "; amend that one, or withdraw it first");
  }
  const Property* property = Registry::standard().find(old->content.property);
  Content content =
      draft(context, archive, *writer, old->content.subject, property->name, wanted.value, wanted.ground);
  // What is not said anew stays as it was: the ground of a corrected slip is the ground of the slip.
  const Content& before = old->content;
  if (wanted.ground.source.empty()) content.citations = before.citations;
  if (wanted.ground.details.empty()) content.qualifiers = before.qualifiers;
  if (!content.author) content.author = before.author;
  if (content.said_on.empty()) content.said_on = before.said_on;
  if (content.evidence == EvidenceClass::none) content.evidence = before.evidence;
  if (content.confidence == Confidence::none) content.confidence = before.confidence;
  if (content.grounds.empty()) content.grounds = before.grounds;
  if (!content.privacy) content.privacy = before.privacy;
  content.targets = {old_id};
  const auto id = writer->add(content);
  tell_entered(context, *writer, id);
  writer->commit();
  tell_if_hidden(context, archive, id);
  return kDone;
}

int withdraw(Context& context, const Withdraw& wanted) {
  auto archive = context.open(true);
  auto writer = session(context, archive);
  const auto reader = reading_of_all(archive);
  Content content;
  content.act = Act::withdraw;
  content.why = wanted.why;
  content.recorder = context.recorder(*writer);
  for (const auto& name : wanted.statements) {
    if (const auto record = writer->record_by_code(name)) {
      for (const auto& id : all_said_of(*reader, *record)) content.targets.push_back(id);
    } else {
      content.targets.push_back(one_to_withdraw(archive, *reader, name));
    }
  }
  const auto id = writer->add(content);
  const auto name = writer->statement(id)->name();
  writer->commit();
  if (context.json()) {
    tell_pairs(context, {{"statement", name}, {"id", id.hex()}});
  } else {
    context.out() << context.strong(name) << "  withdraws " << join(wanted.statements, ", ")
                  << "; both stay in the record, and withdrawing " << name << " revives what it took back\n";
  }
  return kDone;
}

int expunge(Context& context, const Expunge& wanted) {
  auto archive = context.open(true);
  auto writer = session(context, archive);
  std::vector<Digest> targets;
  for (const auto& name : wanted.statements) targets.push_back(archive.statement_named(name));
  if (!wanted.sure && !agrees(context, "The words of " + join(wanted.statements, ", ") +
                                           " will be destroyed and cannot be brought back. Go on?")) {
    fail(ErrorKind::denied, "nothing was destroyed; add --i-am-sure to expunge without being asked");
  }
  const auto id = writer->expunge(targets, wanted.why, context.recorder(*writer));
  const auto name = writer->statement(id)->name();
  writer->commit();
  if (context.json()) {
    tell_pairs(context, {{"statement", name}, {"id", id.hex()}});
  } else {
    context.out() << context.strong(name) << "  the words of " << join(wanted.statements, ", ")
                  << " are destroyed in this copy.\n"
                  << "Other copies still hold them until they are merged with this one; written-out files "
                     "and backups hold\n"
                  << "them until they are destroyed.\n";
  }
  return kDone;
}

}  // namespace lathbook::cli
