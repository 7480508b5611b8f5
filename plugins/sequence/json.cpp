// The sequence as JSON: every thing, every relation, redundant and set aside ones too.
#include "core/base/calendar.hpp"
#include "core/base/json_writer.hpp"
#include "plugins/sequence/basis.hpp"
#include "plugins/sequence/ink.hpp"
#include "plugins/sequence/write.hpp"

namespace lathbook::sequence {

namespace {

std::string_view word(SequenceSort sort) {
  constexpr std::string_view words[] = {"fabric", "finish", "cut", "removal", "ghost"};
  return words[static_cast<std::size_t>(sort)];
}

std::string_view word(SequenceBond bond) {
  constexpr std::string_view words[] = {"order", "same", "together", "either-order", "coat"};
  return words[static_cast<std::size_t>(bond)];
}

std::string_view word(Level level) {
  return level == Level::certain ? "certain" : level == Level::probable ? "probable" : "possible";
}

void put_list(JsonWriter& json, std::string_view key, const std::vector<std::uint32_t>& list) {
  json.key(key).begin_array();
  for (const std::uint32_t one : list) json.number(one);
  json.end_array();
}

void put_thing(JsonWriter& json, const SequenceThing& thing) {
  json.begin_object().key("members").begin_array();
  for (const SequenceMember& member : thing.members) {
    json.begin_object().key("id").string(member.record.id.text()).key("code").string(member.record.code);
    json.key("name").string(member.record.name);
    json.key("placement").number(member.placement).key("placements").number(member.placements).end_object();
  }
  json.end_array();
  if (!thing.joined_by.empty()) put_list(json, "one-by", thing.joined_by);
  json.key("sort").string(word(thing.sort)).key("elsewhere").boolean(thing.elsewhere);
  json.key("level-from-base").number(thing.from_base).key("level-from-top").number(thing.from_top);
  json.key("chain").number(thing.chain);
  if (thing.first_phase)
    json.key("phases").begin_array().number(*thing.first_phase + 1).number(*thing.last_phase + 1).end_array();
  if (thing.not_before) json.key("not-before").string(iso_day(*thing.not_before));
  if (thing.not_after) json.key("not-after").string(iso_day(*thing.not_after));
  json.end_object();
}

void put_relation(JsonWriter& json, const Snapshot& archive, const SequenceRelation& relation) {
  json.begin_object().key("bond").string(word(relation.bond)).key("relation").string(relation.relation);
  json.key("later").number(relation.later).key("earlier").number(relation.earlier);
  json.key("strict").boolean(relation.strict).key("kept").boolean(relation.kept);
  json.key("redundant").boolean(relation.redundant).key("level").string(word(relation.level));
  json.key("words").string(relation.words).key("basis").string(basis_of(archive, relation));
  json.key("statements").begin_array();
  for (const Digest& statement : relation.statements) json.string(statement.hex());
  json.end_array().end_object();
}

}  // namespace

void write_json(const Sequence& sequence, const Snapshot& archive, std::ostream& out) {
  JsonWriter json(out);
  json.begin_object().key("code").string(sequence.scope.code).key("title").string(title_of(sequence));
  json.key("as-known-on").string(iso_day(sequence.reading.known_day));
  json.key("fingerprint").string(sequence.reading.fingerprint.hex());
  json.key("withheld").number(sequence.reading.withheld).key("level").string(word(sequence.level));
  json.key("levels").number(sequence.levels).key("chains").number(sequence.chains);
  json.key("phases").begin_array();
  for (const RecordInfo& phase : sequence.phases) json.string(phase.name);
  json.end_array().key("things").begin_array();
  for (const SequenceThing& thing : sequence.things) put_thing(json, thing);
  json.end_array().key("relations").begin_array();
  for (const SequenceRelation& relation : sequence.relations) put_relation(json, archive, relation);
  json.end_array().key("loops").begin_array();
  for (std::size_t at = 0; at < sequence.loops.size(); ++at) {
    const SequenceLoop& loop = sequence.loops[at];
    json.begin_object().key("letter").string(loop_letter(at));
    put_list(json, "things", loop.things);
    put_list(json, "relations", loop.relations);
    put_list(json, "shortest", loop.shortest);
    json.key("words").string(loop_words(sequence, at)).end_object();
  }
  json.end_array().key("of-one-time").begin_array();
  for (const auto& group : sequence.of_one_time) {
    json.begin_array();
    for (const std::uint32_t thing : group) json.number(thing);
    json.end_array();
  }
  json.end_array().key("no-order").begin_array();
  for (const ReasonStep& step : sequence.no_order)
    json.begin_object()
        .key("words")
        .string(step.words)
        .key("statement")
        .string(step.statement.hex())
        .end_object();
  json.end_array().end_object();
  json.finish();
}

}  // namespace lathbook::sequence
