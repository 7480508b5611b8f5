// The sheet as JSON: the same tree, sentence by sentence, with days as numbers beside the words.
#include "core/base/json_writer.hpp"

#include "core/base/calendar.hpp"
#include "plugins/sheet/phrases.hpp"
#include "plugins/sheet/write.hpp"

namespace lathbook::sheet {

namespace {

class Json {
public:
  explicit Json(JsonWriter& out) : out_(out) {}

  void write(const Sheet& sheet) {
    out_.begin_object();
    text("code", sheet.code);
    text("title", sheet.title);
    text("as-known-on", sheet.known);
    text("fingerprint", sheet.fingerprint);
    text("evidence-used", sheet.trusted);
    text("withheld", sheet.withheld);
    text("private-copy", sheet.private_copy);
    each("stopped", sheet.stopped);
    each("left-out", sheet.what_if);
    each("names", sheet.names);
    each("uses", sheet.uses);
    each("phases", sheet.phases);
    each("outside-phases", sheet.outside);
    each("not-dated", sheet.undated);
    each("pieces", sheet.pieces);
    each("works", sheet.works);
    each("contradictions", sheet.contradictions);
    each("rulings", sheet.rulings);
    each("looked-at", sheet.examined);
    each("would-help", sheet.tasks);
    each("cautions", sheet.cautions);
    each("settings", sheet.settings);
    each("things", sheet.things);
    each("bars", sheet.drawing.bars);
    each("dated-sources", sheet.drawing.ticks);
    each("reasons", sheet.whys);
    each("notes", sheet.notes);
    each("sources", sheet.sources);
    out_.end_object();
  }

private:
  void text(std::string_view key, const std::string& words) {
    if (!words.empty()) out_.key(key).string(words);
  }
  void day(std::string_view key, std::optional<Day> value) {
    if (value) out_.key(key).string(iso_day(*value));
  }
  void place(std::string_view key, std::optional<std::size_t> value) {
    if (value) out_.key(key).number(*value);
  }
  template <typename List>
  void each(std::string_view key, const List& list) {
    out_.key(key).begin_array();
    for (const auto& one : list) put(one);
    out_.end_array();
  }

  void put(int number) { out_.number(number); }
  void put(const Sentence& one) {
    out_.begin_object();
    text("words", one.words());
    out_.key("why").begin_array();
    for (const Part& part : one.parts)
      if (part.why) out_.number(*part.why);
    out_.end_array();
    each("notes", one.notes);
    out_.end_object();
  }
  void put(const Step& one) {
    out_.begin_object();
    text("words", one.words);
    text("basis", one.basis);
    text("remark", one.remark);
    text("statement", one.statement);
    each("notes", one.notes);
    if (!one.grounds.empty()) each("concluded-from", one.grounds);
    out_.end_object();
  }
  void put(const Chain& one) {
    out_.begin_object();
    text("words", one.words);
    day("day", one.day);
    each("steps", one.steps);
    out_.end_object();
  }
  void put(const Why& one) {
    out_.begin_object();
    text("of", one.label);
    text("words", one.words);
    out_.key("earliest");
    put(one.earliest);
    out_.key("latest");
    put(one.latest);
    out_.end_object();
  }
  void put(const Entry& one) {
    out_.begin_object();
    out_.key("thing").number(one.thing);
    out_.key("said");
    put(one.head);
    each("more", one.more);
    out_.end_object();
  }
  void put(const Group& one) {
    out_.begin_object();
    text("sort", one.sort);
    out_.key("surely").boolean(one.surely);
    each("members", one.entries);
    out_.end_object();
  }
  void put(const Chapter& one) {
    out_.begin_object();
    out_.key("number").number(one.number);
    text("heading", one.heading);
    each("opening", one.opening);
    each("groups", one.groups);
    out_.end_object();
  }
  void put(const Contradiction& one) {
    out_.begin_object();
    out_.key("said");
    put(one.head);
    text("clash", one.clash);
    each("one-side", one.one_side);
    each("set-aside", one.set_aside);
    text("proposal", one.proposal);
    each("ways-out", one.ways_out);
    each("fallen-with", one.fallen_with);
    each("no-part-of-it", one.beside);
    out_.end_object();
  }
  void put(const Task& one) {
    out_.begin_object();
    out_.key("task");
    put(one.task);
    text("gain", one.gain);
    each("known", one.known);
    out_.end_object();
  }
  void put(const Thing& one) {
    out_.begin_object();
    text("code", one.code);
    text("name", one.name);
    text("type", one.type);
    text("material", one.material);
    text("begins", one.begins);
    place("begins-why", one.begins_why);
    text("ends", one.ends);
    place("ends-why", one.ends_why);
    each("notes", one.notes);
    out_.end_object();
  }
  void put(const Bar& one) {
    out_.begin_object();
    out_.key("thing").number(one.thing);
    day("begins-not-before", one.begin_earliest);
    day("begins-by", one.begin_latest);
    day("ends-not-before", one.end_earliest);
    day("ends-by", one.end_latest);
    out_.end_object();
  }
  void put(const Tick& one) {
    out_.begin_object();
    text("letter", one.letter);
    day("day", one.day);
    out_.key("said");
    put(one.sentence);
    out_.end_object();
  }
  void put(const Note& one) {
    out_.begin_object();
    out_.key("number").number(one.number);
    text("words", one.words);
    text("quote", one.quote);
    if (one.full_in) out_.key("in-full-in").number(*one.full_in);
    out_.end_object();
  }
  void put(const SourceLine& one) {
    out_.begin_object();
    text("code", one.code);
    text("words", one.words);
    out_.end_object();
  }

  JsonWriter& out_;
};

}  // namespace

void write_json(const Sheet& sheet, std::ostream& out) {
  JsonWriter writer(out);
  Json(writer).write(sheet);
  writer.finish();
}

}  // namespace lathbook::sheet
