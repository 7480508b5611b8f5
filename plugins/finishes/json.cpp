// Everything the analysis found, for machines.
#include <cmath>

#include "core/analysis/proposals.hpp"
#include "core/base/json_writer.hpp"
#include "plugins/finishes/schedule.hpp"
#include "plugins/finishes/write.hpp"

namespace lathbook::finishes {

namespace {

// Four decimals are more than a probability by eye can bear.
double rounded(double value) {
  return std::round(value * 10000) / 10000;
}

class Json {
public:
  Json(const FinishLayers& layers, std::ostream& out) : layers_(layers), json_(out) {}

  void write() {
    json_.begin_object().key("fingerprint").string(layers_.reading.fingerprint.hex());
    json_.key("withheld").number(layers_.reading.withheld);
    json_.key("method").string(layers_.method);
    json_.key("sequences").begin_array();
    for (const FinishSequence& sequence : layers_.sequences) sequence_json(sequence);
    json_.end_array().key("groups").begin_array();
    for (const FinishGroup& group : layers_.groups) group_json(group);
    json_.end_array().key("proposals").begin_array();
    for (const Draft& draft : layers_.proposals) {
      json_.begin_object().key("key").string(proposal_key(draft)).key("words").string(draft.words);
      json_.key("property").string(Registry::standard().find(draft.content.property)->name);
      json_.key("confidence").string(lathbook::word(draft.content.confidence)).end_object();
    }
    json_.end_array().end_object().finish();
  }

private:
  void record(const char* key, const RecordInfo& info) {
    json_.key(key);
    if (info.id == Uuid{}) {
      json_.null();
      return;
    }
    json_.begin_object().key("code").string(info.code).key("name").string(info.name);
    json_.key("id").string(info.id.text()).end_object();
  }

  void steps(const char* key, const std::vector<ReasonStep>& reasons) {
    json_.key(key).begin_array();
    for (const ReasonStep& step : reasons) {
      json_.begin_object().key("words").string(step.words);
      json_.key("statement").string(step.statement == Digest{} ? "" : step.statement.hex()).end_object();
    }
    json_.end_array();
  }

  void sequence_json(const FinishSequence& sequence) {
    json_.begin_object();
    record("element", sequence.element);
    record("sample", sequence.sample);
    json_.key("family").string(sequence.family).key("read-by").string(sequence.read_by);
    json_.key("at-most").string(lathbook::word(sequence.most));
    json_.key("refusal").string(word(sequence.refusal)).key("refusal-words").string(sequence.refusal_words);
    steps("substrate", sequence.substrate);
    json_.key("layers").begin_array();
    for (const FinishCoat& coat : sequence.coats) coat_json(coat);
    json_.end_array().end_object();
  }

  void coat_json(const FinishCoat& coat) {
    json_.begin_object();
    record("finish", coat.record);
    json_.key("layer").number(coat.layer).key("role").string(coat.role);
    json_.key("colour").string(coat.colour).key("munsell").string(coat.munsell);
    json_.key("measured").string(coat.measured);
    if (!coat.colour_fault.empty()) json_.key("colour-fault").string(coat.colour_fault);
    json_.key("srgb").string(coat.chip.srgb).key("srgb-trust").string(coat.chip.trust);
    json_.key("compared").boolean(coat.compared).key("white").boolean(coat.white);
    json_.key("marker").boolean(coat.marker).key("dirt-below").boolean(coat.dirt_below).end_object();
  }

  void group_json(const FinishGroup& group) {
    json_.begin_object();
    record("place", group.place);
    json_.key("family").string(group.family).key("reference").number(group.reference);
    json_.key("sequences").begin_array();
    for (const std::size_t at : group.sequences) json_.number(at);
    json_.end_array().key("alignments").begin_array();
    for (const FinishAlignment& one : group.alignments) alignment_json(one);
    json_.end_array().key("remarks").begin_array();
    for (const std::string& remark : group.remarks) json_.string(remark);
    json_.end_array().end_object();
  }

  void difference(const char* formula, double value) {
    json_.key(formula);
    value < 0 ? json_.null() : json_.number(rounded(value));
  }

  void alignment_json(const FinishAlignment& one) {
    json_.begin_object().key("reference").number(one.reference).key("sequence").number(one.sequence);
    json_.key("after").begin_array();
    for (const double probability : one.after) json_.number(rounded(probability));
    json_.end_array().key("k").number(one.k).key("probability").number(rounded(one.probability));
    json_.key("reference-later").number(rounded(one.reference_later));
    json_.key("concluded").boolean(one.concluded);
    json_.key("confidence").string(lathbook::word(one.confidence));
    json_.key("refusal").string(word(one.refusal)).key("words").string(one.words);
    json_.key("matches").begin_array();
    for (const CoatMatch& match : one.matches) {
      json_.begin_object().key("reference").number(match.reference).key("coat").number(match.coat);
      difference("godlove", match.godlove);
      difference("nickerson", match.nickerson);
      difference("ciede2000", match.ciede2000);
      json_.key("probability").number(rounded(match.probability)).end_object();
    }
    json_.end_array();
    steps("reasons", one.reasons);
    json_.end_object();
  }

  const FinishLayers& layers_;
  JsonWriter json_;
};

}  // namespace

void write_json(const FinishLayers& layers, std::ostream& out) {
  Json(layers, out).write();
}

}  // namespace lathbook::finishes
