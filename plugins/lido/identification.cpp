// Titles, inscriptions, places, states, descriptions, measures and materials of a record.
#include <algorithm>

#include "core/view/addresses.hpp"
#include "core/view/measure.hpp"
#include "core/view/words.hpp"
#include "plugins/lido/record.hpp"
#include "plugins/lido/terms.hpp"

namespace lathbook::lido {

void RecordWriter::identification() {
  xml_.start("lido:objectIdentificationWrap");
  titles();
  inscriptions();
  repository();
  const auto states = facts_of(record_, Part::state);
  if (!states.empty()) {
    xml_.start("lido:displayStateEditionWrap");
    xml_.element("lido:displayState", states.front()->content.value).end();
  }
  descriptions();
  measurements();
  materials();
  xml_.end();
}

void RecordWriter::titles() {
  xml_.start("lido:titleWrap");
  const auto names = record_.all("name");
  if (names.empty()) {
    xml_.start("lido:titleSet").start("lido:appellationValue").attribute("lido:pref", term::preferred);
    xml_.text(display(record_.info)).end().end();
  }
  for (std::size_t i = 0; i < names.size(); ++i) {
    const Content& said = names[i]->content;
    xml_.start("lido:titleSet").start("lido:appellationValue");
    xml_.attribute("lido:pref", i == 0 ? term::preferred : term::alternative);
    if (!said.language.empty()) xml_.attribute("xml:lang", said.language);
    xml_.text(said.value).end();
    const std::string sources = citations_in_words(reader_, said);
    if (!sources.empty()) xml_.element("lido:sourceAppellation", sources);
    xml_.end();
  }
  xml_.end();
}

void RecordWriter::inscriptions() {
  if (object_.inscriptions.empty()) return;
  xml_.start("lido:inscriptionsWrap");
  int order = 0;
  for (const RecordView& mark : object_.inscriptions) {
    xml_.start("lido:inscriptions");
    xml_.attribute("lido:type", mark.info.kind == Kind::mark ? "maker's mark" : "label");
    xml_.attribute("lido:sortorder", std::to_string(++order));
    inscription(mark);
    xml_.end();
  }
  xml_.end();
}

void RecordWriter::inscription_note(std::string_view type, const Statement& statement,
                                    const std::string& words) {
  if (words.empty()) return;
  xml_.start("lido:inscriptionDescription").attribute("lido:type", type);
  xml_.element("lido:descriptiveNoteValue", words);
  const std::string sources = citations_in_words(reader_, statement.content);
  if (!sources.empty()) xml_.element("lido:sourceDescriptiveNote", sources);
  xml_.end();
}

/// One transcription: LIDO repeats it for languages only, so further ones are told as descriptions.
void RecordWriter::inscription(const RecordView& mark) {
  const auto transcriptions = mark.all("transcription");
  if (!transcriptions.empty())
    xml_.element("lido:inscriptionTranscription", transcriptions.front()->content.value);
  xml_.start("lido:inscriptionDescription").attribute("lido:type", "record");
  xml_.start("lido:descriptiveNoteID").attribute("lido:type", term::uri_id);
  xml_.text(record_address(ground_.base, mark.info.id)).end();
  xml_.element("lido:descriptiveNoteValue",
               display(mark.info) +
                   (transcriptions.empty() ? "" : "; transcribed in the signs of the Leiden system"))
      .end();
  if (!transcriptions.empty())
    inscription_note("transcription", *transcriptions.front(),
                     ground_in_words(transcriptions.front()->content));
  for (std::size_t i = 1; i < transcriptions.size(); ++i)
    inscription_note("other transcription", *transcriptions[i], transcriptions[i]->content.value);
  for (const char* property : {"reading", "mark-method", "label-tool", "face", "orientation", "blank-maker",
                               "decorator", "register-number", "assembly-number", "intended-for", "note"}) {
    for (const Statement* one : mark.all(property)) {
      const std::string words = value_in_words(reader_, one->content);
      const std::string grounds = ground_in_words(one->content);
      if (!words.empty())
        inscription_note(Registry::standard().named(property).label, *one,
                         grounds.empty() ? words : words + " (" + grounds + ")");
    }
  }
}

void RecordWriter::repository() {
  xml_.start("lido:repositoryWrap").start("lido:repositorySet");
  xml_.attribute("lido:type", term::current_repository);
  const Statement* spot = record_.latest("whereabouts");
  std::string kept = spot == nullptr ? std::string() : spot->content.value;
  if (const auto container = record_.record("in-container"))
    if (const auto info = reader_.record(*container))
      kept = display(*info) + (kept.empty() ? "" : ", " + kept);
  if (!kept.empty()) xml_.element("lido:displayRepository", kept);
  xml_.start("lido:repositoryName");
  appellation("lido:legalBodyName", ground_.keeper);
  xml_.end();
  if (!record_.info.code.empty()) {
    xml_.start("lido:workID").attribute("lido:type", term::inventory_number).text(record_.info.code).end();
  }
  // A thing built in is where it stands; of several rooms the best founded is named, the rest in events.
  if (const auto room = record_.record("stands-in"))
    if (reader_.record(*room)) {
      xml_.start("lido:repositoryLocation");
      place(*room);
      xml_.end();
    }
  xml_.end().end();
}

void RecordWriter::description(std::string_view type, const std::string& words, const std::string& sources) {
  xml_.start("lido:objectDescriptionSet").attribute("lido:type", type);
  xml_.element("lido:descriptiveNoteValue", words);
  if (!sources.empty()) xml_.element("lido:sourceDescriptiveNote", sources);
  xml_.end();
}

void RecordWriter::descriptions() {
  const auto facts = facts_of(record_, Part::description);
  if (facts.empty() && object_.finishes.empty()) return;
  xml_.start("lido:objectDescriptionWrap");
  for (const Statement* one : facts) {
    const std::string grounds = ground_in_words(one->content);
    const Property* property = Registry::standard().find(one->content.property);
    const std::string words = value_in_words(reader_, one->content);
    if (!words.empty())
      description(property->label, grounds.empty() ? words : words + " (" + grounds + ")",
                  citations_in_words(reader_, one->content));
  }
  for (const RecordView& record : object_.finishes) {
    const FinishView finish(record);
    std::string words = finish.layer ? "Layer " + std::to_string(*finish.layer) + ": " : "";
    words += display(record.info);
    for (const auto& part : {finish.role, finish.colour, finish.munsell})
      if (!part.empty()) words += ", " + part;
    description("finish", words + " <" + record_address(ground_.base, record.info.id) + ">", "");
  }
  xml_.end();
}

void RecordWriter::measurements() {
  const auto facts = facts_of(record_, Part::measurement);
  if (facts.empty()) return;
  xml_.start("lido:objectMeasurementsWrap");
  for (const Statement* one : facts) {
    const std::string of(one->content.qualifier("of"));
    const std::string what = of.empty() ? Registry::standard().find(one->content.property)->label : of;
    xml_.start("lido:objectMeasurementsSet");
    xml_.element("lido:displayObjectMeasurements", what + " " + one->content.value);
    if (const auto measure = read_measure(one->content.value)) {
      xml_.start("lido:objectMeasurements").start("lido:measurementsSet");
      xml_.element("lido:measurementType", what).element("lido:measurementUnit", measure->unit);
      xml_.element("lido:measurementValue", measure->number).end().end();
    }
    xml_.end();
  }
  xml_.end();
}

void RecordWriter::materials() {
  const auto facts = facts_of(record_, Part::material);
  if (facts.empty()) return;
  xml_.start("lido:objectMaterialsTechWrap");
  for (const Statement* one : facts) {
    xml_.start("lido:objectMaterialsTechSet").element("lido:displayMaterialsTech", one->content.value);
    xml_.start("lido:materialsTech").start("lido:termMaterialsTech").attribute("lido:type", term::material);
    xml_.element("lido:term", one->content.value).end();
    const std::string sources = citations_in_words(reader_, one->content);
    if (!sources.empty()) xml_.element("lido:sourceMaterialsTech", sources);
    xml_.end().end();
  }
  xml_.end();
}

}  // namespace lathbook::lido
