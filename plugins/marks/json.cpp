#include "core/base/json_writer.hpp"
#include "plugins/marks/write.hpp"

namespace lathbook::marks {

namespace {

void write_candidate(JsonWriter& json, const MarkCandidate& candidate) {
  json.begin_object().key("maker").string(candidate.maker).key("mark").string(candidate.form);
  json.key("place").string(candidate.place).key("role").string(candidate.role);
  json.key("from").string(candidate.from).key("to").string(candidate.to);
  json.key("list").string(candidate.list).key("entry").string(candidate.entry);
  if (candidate.agent != Uuid{}) json.key("agent").string(candidate.agent.text());
  json.key("share").number(candidate.share).key("cost").number(candidate.cost);
  json.key("words").string(candidate.words).key("letters").begin_array();
  for (const MarkLetters& pair : candidate.letters) {
    json.begin_object().key("read").string(pair.read).key("list").string(pair.reference);
    json.key("fit").string(pair.fit).end_object();
  }
  json.end_array().end_object();
}

void write_code(JsonWriter& json, const DatedCode& code) {
  json.begin_object().key("kind").string(code.kind).key("text").string(code.text);
  json.key("hint").boolean(code.hint).key("not_before").string(code.not_before);
  json.key("readings").begin_array();
  for (const CodeReading& reading : code.readings) {
    json.begin_object().key("date").string(reading.date).key("words").string(reading.words).end_object();
  }
  json.end_array().key("remarks").begin_array();
  for (const auto& remark : code.remarks) json.string(remark);
  json.end_array();
  json.key("table").string(code.table).key("source").string(code.source);
  json.key("weakness").string(code.weakness).end_object();
}

void write_mark(JsonWriter& json, const ReadMark& mark) {
  json.begin_object();
  if (mark.mark.id != Uuid{}) json.key("mark").string(mark.mark.code).key("on").string(mark.carrier.code);
  json.key("text").string(mark.raw);
  if (!mark.fault.empty()) {
    json.key("fault").string(mark.fault).end_object();
    return;
  }
  json.key("shown").string(mark.shown).key("by").string(mark.by).key("read_on").string(mark.read_on);
  json.key("too_little").boolean(mark.too_little).key("not_in_the_lists").number(mark.unlisted);
  json.key("variant").string(mark.variant).key("candidates").begin_array();
  for (const auto& candidate : mark.candidates) write_candidate(json, candidate);
  json.end_array().key("codes").begin_array();
  for (const auto& code : mark.codes) write_code(json, code);
  json.end_array().key("remarks").begin_array();
  for (const auto& remark : mark.remarks) json.string(remark);
  json.end_array().end_object();
}

}  // namespace

void write_json(const MarkReading& reading, std::ostream& out) {
  JsonWriter json(out);
  json.begin_object().key("fingerprint").string(reading.reading.fingerprint.hex());
  json.key("withheld").number(reading.reading.withheld).key("lists").begin_array();
  for (const MarkListInfo& list : reading.lists) {
    json.begin_object().key("title").string(list.title).key("source").string(list.source.code);
    json.key("rights")
        .string(list.rights)
        .key("marks")
        .number(list.marks)
        .key("trouble")
        .string(list.trouble);
    json.end_object();
  }
  json.end_array().key("marks").begin_array();
  for (const ReadMark& mark : reading.marks) write_mark(json, mark);
  json.end_array().end_object().finish();
}

}  // namespace lathbook::marks
