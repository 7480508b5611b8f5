// At the bench: a mark with its photograph, the trade's own words.
#include <algorithm>

#include "core/base/calendar.hpp"
#include "core/base/json_writer.hpp"
#include "core/base/table.hpp"
#include "core/base/text.hpp"
#include "core/cli/drafting.hpp"
#include "core/cli/trade_words.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/record_view.hpp"

namespace lathbook::cli {

namespace {

// The source that a mark rests on: the named one, else the photograph (noticed by content when it is here
// already), else the looking itself.
std::string source_of_mark(const Context& context, const Archive& archive, Writer& writer, const Mark& wanted,
                           const RecordInfo& carrier, const std::string& today) {
  if (!wanted.ground.source.empty()) return wanted.ground.source;
  Ground bare;
  if (!wanted.photo.empty()) {
    const auto file = writer.add_media(wanted.photo);
    for (const auto& source : archive.sources_of(file.digest)) {
      if (const auto known = writer.record(source)) {
        context.err() << "this photograph is already in the archive as " << display(*known)
                      << "; it is used again\n";
        return known->code;
      }
    }
    const auto code = archive.free_code("PH");
    const auto id = writer.make_record(Kind::source, code, context.recorder(writer));
    const auto enter = [&](const std::string& property, const std::string& value) {
      Ground ground;
      ground.evidence = "documentary";
      ground.confidence = "certain";
      const bool clerical = Registry::standard().named(property).cites == Cites::none;
      writer.add(draft(context, archive, writer, id, property, value, clerical ? bare : ground));
    };
    enter("source-type", "photograph");
    enter("title", "Mark on " + display(carrier));
    enter("source-date", today);
    enter("media", file.digest.hex());
    return code;
  }
  const auto code = archive.free_code("INS");
  const auto id = writer.make_record(Kind::source, code, context.recorder(writer));
  writer.add(draft(context, archive, writer, id, "source-type", "physical inspection", bare));
  Ground ground;
  ground.evidence = "physical";
  ground.confidence = "certain";
  writer.add(draft(context, archive, writer, id, "title", "Inspection of " + display(carrier), ground));
  writer.add(draft(context, archive, writer, id, "source-date", today, ground));
  return code;
}

// The same letters on the same face were most likely entered before.
void refuse_second_entry(const StatementReader& reader, const RecordInfo& carrier, const std::string& letters,
                         const std::string& face) {
  Query query;
  query.object = carrier.id;
  query.properties = {Registry::standard().named("mark-on").id};
  reader.each_statement(query, [&](const Statement& statement) {
    const auto info = reader.record(statement.content.subject);
    if (!info) return true;
    const auto known = RecordView::read(reader, *info);
    const auto readings = known.all("transcription");
    const bool same = fold(known.text("face")) == fold(face) &&
                      std::any_of(readings.begin(), readings.end(), [&](const Statement* one) {
                        return trim(one->content.value) == trim(letters);
                      });
    if (same)
      fail(ErrorKind::invalid,
           display(*info) + " on " + display(carrier) + " reads the same; if it stands there twice, tell " +
               "the two apart with --face, else say what is new of " + info->code + " itself");
    return true;
  });
}

}  // namespace

int mark(Context& context, const Mark& wanted) {
  const std::string letters =
      wanted.transcription.empty() ? join(wanted.numbers, " / ") : wanted.transcription;
  if (letters.empty())
    fail(ErrorKind::invalid,
         "a mark needs its reading; write what is to be read, with + for each letter of which only traces "
         "are left");
  auto archive = context.open(true);
  auto writer = session(context, archive);
  const auto carrier = need_record(*writer, wanted.carrier);
  const std::string today = iso_day(context.clock().now().local_day());
  Ground ground = wanted.ground;
  ground.on = day_that_came(context, ground.on);
  refuse_second_entry(
      *archive.read({.with_private = true, .known_on = {}, .by_entry_day = false, .fingerprint = {}}),
      carrier, letters, wanted.face);
  if (ground.evidence.empty()) ground.evidence = "physical";
  if (ground.confidence.empty()) ground.confidence = "certain";
  ground.source = source_of_mark(context, archive, *writer, wanted, carrier, today);
  const auto code = wanted.code.empty() ? archive.free_code("M") : wanted.code;
  const auto id = writer->make_record(Kind::mark, code, context.recorder(*writer));
  std::vector<Digest> entered;
  const auto enter = [&](const std::string& property, const std::string& value,
                         std::vector<std::string> details = {}) {
    if (value.empty()) return;
    Ground one = ground;
    if (property != "transcription") one.quote.clear();
    one.details = std::move(details);
    entered.push_back(writer->add(draft(context, archive, *writer, id, property, value, one)));
  };
  enter("mark-on", carrier.code);
  enter("transcription", letters);
  enter("mark-method", wanted.method);
  enter("face", wanted.face);
  enter("orientation", wanted.orientation);
  for (const auto& number : wanted.numbers) enter("register-number", number);
  const auto transcription = writer->statement(entered[1])->name();
  writer->commit();
  if (context.json()) {
    tell_pairs(
        context,
        {{"mark", code}, {"on", carrier.code}, {"source", ground.source}, {"transcription", transcription}});
    return kDone;
  }
  context.out() << "recorded mark " << context.strong(code) << " on " << display(carrier) << ", resting on "
                << ground.source << '\n'
                << "  " << safe_display(letters) << "   (" << transcription << ")\n"
                << "The mark dates nothing yet. When it gives the piece itself an earliest year, and when "
                   "the piece is judged\n"
                << "original to the laying, these are two statements of their own:\n"
                << "  lathbook say " << carrier.code << " made-not-before YEAR --because " << transcription
                << " --source TABLE --at ENTRY ...\n"
                << "  lathbook say " << carrier.code
                << " original-to ELEMENT --with grounds=\"same bed, same joint\" ...\n";
  return kDone;
}

int work(Context& context, const Work& wanted) {
  const auto& words = trade_words();
  if (wanted.list || wanted.word.empty()) {
    Table table({"word", "entered as", "of which things", "note"});
    for (const auto& one : words) table.add({one.word, one.relation, one.roles, one.note});
    table.print(context.out());
    return kDone;
  }
  const TradeWord& word = trade_word(wanted.word);
  auto archive = context.open(true);
  auto writer = session(context, archive);
  const auto subject = need_record(*writer, wanted.subject);
  need_record(*writer, wanted.object);
  Ground ground = wanted.ground;
  if (ground.evidence.empty()) ground.evidence = "physical";
  if (!word.how.empty()) ground.details.push_back("how=" + word.how);
  if (word.asks_contact) {
    const std::string contact = wanted.contact.empty() ? ask_contact(context, "--contact") : wanted.contact;
    ground.details.push_back("contact=" + contact);
  }
  const auto id =
      writer->add(draft(context, archive, *writer, subject.id, word.relation, wanted.object, ground));
  tell_entered(context, *writer, id);
  writer->commit();
  if (!context.json()) context.out() << "  " << word.note << '\n';
  return kDone;
}

}  // namespace lathbook::cli
