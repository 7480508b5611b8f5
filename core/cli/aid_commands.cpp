// Dating aids: listing and searching the table, and dating a piece or fixing by one of its rows.
#include <algorithm>
#include <cstdlib>
#include <iostream>

#include "core/base/json_writer.hpp"
#include "core/base/table.hpp"
#include "core/base/text.hpp"
#include "core/cli/drafting.hpp"
#include "core/evidence/dating_aids.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/plain_words.hpp"

namespace lathbook::cli {

namespace {

// The table as a source of the archive: made when a row is first cited.
constexpr const char* kTableCode = "DATING-AIDS";

const DatingAid& need_aid(const std::string& id) {
  if (const DatingAid* aid = dating_aid(id)) return *aid;
  std::vector<std::string> known;
  for (const DatingAid& aid : dating_aids()) known.push_back(aid.id);
  const auto near = nearest(id, known);
  fail(ErrorKind::not_found,
       "there is no dating aid " + quote(id) +
           (near.empty() ? "; see 'lathbook aids'" : "; did you mean " + join(near, " or ") + "?"));
}

std::string common_words(const DatingAid& aid) {
  if (aid.from.empty() && aid.to.empty()) return "-";
  const std::string from = date_in_words(aid.from), to = date_in_words(aid.to);
  if (aid.to.empty()) return "from " + from;
  return aid.from.empty() ? "until " + to : from + " to " + to;
}

void json_aid(JsonWriter& json, const DatingAid& aid) {
  json.begin_object().key("id").string(aid.id).key("group").string(aid.group);
  json.key("on").string(word(aid.on)).key("feature").string(aid.feature);
  if (!aid.first.empty()) json.key("first-possible").string(aid.first);
  if (!aid.from.empty()) json.key("common-from").string(aid.from);
  if (!aid.to.empty()) json.key("common-to").string(aid.to);
  if (!aid.region.empty()) json.key("region").string(aid.region);
  json.key("weight").string(word(aid.weight)).key("source").string(aid.source);
  if (!aid.note.empty()) json.key("note").string(aid.note);
  json.end_object();
}

int tell_panes(Context& context, const std::vector<double>& panes) {
  for (const double pane : panes)
    if (!(pane > 0.3 && pane < 12))
      fail(ErrorKind::invalid,
           "a window pane is between 0.3 and 12 mm thick; give thicknesses in millimetres");
  double sum = 0;
  for (const double pane : panes) sum += pane;
  const double mean = sum / static_cast<double>(panes.size());
  const double year = moir_year(mean);
  const bool in_range = year >= 1810 && year <= 1915;
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_object().key("panes").number(panes.size()).key("mean-millimetres").number(mean);
    json.key("year").number(year).key("in-range").boolean(in_range).end_object().finish();
    return kDone;
  }
  std::string text = std::to_string(year);
  text.erase(text.find('.'));
  tell_wrapped(context, "",
               std::to_string(panes.size()) + (panes.size() == 1 ? " pane" : " panes") +
                   ": the line of R. W. Moir "
                   "(1987, formula from memory) gives about " +
                   text + ".");
  if (!in_range)
    tell_wrapped(context, "", "That is outside 1810 to 1915, where the line was drawn: it says nothing.");
  if (panes.size() < 12)
    tell_wrapped(context, "",
                 "The line is for means of samples; fewer than a dozen panes say little, one pane nothing. "
                 "(A dozen is our own figure.)");
  tell_wrapped(context, "",
               "It is a mean and no first year: nothing can be entered from it as 'made not before'.");
  return kDone;
}

// Whole things are refused: an aid dates what it was read on.
void refuse_whole(const StatementReader& reader, const RecordInfo& subject, const DatingAid& aid,
                  const std::string& whole) {
  if (!whole.empty() || subject.kind == Kind::piece || subject.kind == Kind::find) return;
  if (subject.kind == Kind::finish && aid.on == AidOn::finish) return;
  if (subject.kind == Kind::element && aid.on == AidOn::fixing) {
    Query query;
    query.subject = subject.id;
    query.properties = {Registry::standard().named("element-class").id};
    bool fastening = false;
    reader.each_statement(query, [&](const Statement& statement) {
      fastening = statement.content.value == "fastening";
      return true;
    });
    if (fastening) return;
  }
  fail(ErrorKind::invalid, display(subject) + " is more than what the " + std::string(word(aid.on)) +
                               " was read on: one piece does not date the whole. Make a record of the piece "
                               "(lathbook new piece CODE), "
                               "date that, and say original-to with the grounds; or, when it is one thing "
                               "made at one time, say why with "
                               "--whole");
}

std::string table_code(const Context& context, const Archive& archive, Writer& writer) {
  if (writer.record_by_code(kTableCode)) return kTableCode;
  const auto id = writer.make_record(Kind::source, kTableCode, context.recorder(writer));
  Ground bare, ground;
  ground.evidence = "documentary";
  ground.confidence = "certain";
  writer.add(draft(context, archive, writer, id, "source-type", "table", bare));
  writer.add(draft(context, archive, writer, id, "title", "Dating aids, with their sources", ground));
  writer.add(draft(context, archive, writer, id, "creator", "Lathbook", ground));
  return kTableCode;
}

}  // namespace

int aids(Context& context, const Aids& wanted) {
  if (!wanted.panes.empty()) return tell_panes(context, wanted.panes);
  std::vector<const DatingAid*> found = find_aids(wanted.words);
  if (found.empty()) {
    fail(ErrorKind::not_found,
         "no dating aid has " + quote(join(wanted.words, " ")) +
             "; 'lathbook aids' lists them all, and nothing found says nothing of the piece");
  }
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_array();
    for (const DatingAid* aid : found) json_aid(json, *aid);
    json.end_array().finish();
    return kDone;
  }
  if (found.size() <= 3) {
    for (const DatingAid* aid : found) {
      context.out() << context.strong(aid->id) << "  (" << aid->group << ", read on a " << word(aid->on)
                    << ")\n";
      tell_wrapped(context, "  ", aid->feature + ".");
      tell_wrapped(context, "  ",
                   (aid->first.empty() ? std::string("gives no first year")
                                       : "first possible " + date_in_words(aid->first)) +
                       "; common " + (common_words(*aid) == "-" ? "use not told" : common_words(*aid)) +
                       (aid->region.empty() ? "" : "; " + aid->region) + ".");
      tell_wrapped(context, "  ",
                   "Weight: " + std::string(word(aid->weight)) + ". Source: " + aid->source + ".");
      if (!aid->note.empty()) tell_wrapped(context, "  ", aid->note);
    }
    return kDone;
  }
  Table table({"aid", "what is seen", "first possible", "common", "region", "weight"});
  for (const DatingAid* aid : found)
    table.add({aid->id, aid->feature, aid->first.empty() ? "-" : date_in_words(aid->first),
               common_words(*aid), aid->region, std::string(word(aid->weight))});
  table.print(context.out());
  context.out() << "A first possible year dates the piece or fixing and nothing else; common use is for "
                   "judging only.\n";
  return kDone;
}

int date_by(Context& context, const DateBy& wanted) {
  const DatingAid& aid = need_aid(wanted.aid);
  if (aid.first.empty()) {
    fail(ErrorKind::invalid, aid.id + " (" + aid.feature +
                                 ") gives no first year, so nothing can be entered from it; " + "common " +
                                 common_words(aid));
  }
  Ground ground = wanted.ground;
  if (ground.source.empty() && ground.by.empty()) {
    fail(ErrorKind::invalid,
         "say who read it on the piece (--by CODE), or where that is written down or shown (--source CODE "
         "--at SPOT)");
  }
  auto archive = context.open(true);
  RecordInfo subject;
  {
    const auto reader = archive.read(context.read_options());
    subject = need_record(*reader, wanted.subject);
    refuse_whole(*reader, subject, aid, wanted.whole);
  }
  auto writer = session(context, archive);
  ground.evidence = "comparative";
  if (ground.confidence.empty()) ground.confidence = word(aid.confidence());
  ground.details.push_back("basis=" + aid.feature +
                           (wanted.whole.empty() ? "" : "; one thing: " + wanted.whole));
  Content content = draft(context, archive, *writer, subject.id, "made-not-before", aid.first, ground);
  content.citations.push_back({need_record(*writer, table_code(context, archive, *writer)).id,
                               "row " + aid.id + ", after " + aid.source,
                               aid.feature + ": first possible " + aid.first});
  const auto id = writer->add(std::move(content));
  tell_entered(context, *writer, id);
  writer->commit();
  if (context.json()) return kDone;
  tell_wrapped(context, "  ",
               "It dates " + display(subject) + " itself, with the weight of its row (" +
                   std::string(word(aid.weight)) + "), and nothing it is part of.");
  if (subject.kind == Kind::piece)
    context.out() << "  When it is judged original to a laying or setting, that is a statement of its own:\n"
                  << "  lathbook say " << subject.code
                  << " original-to ELEMENT --with grounds=\"same bed, same joint\" ...\n";
  return kDone;
}

}  // namespace lathbook::cli
