// Writes the frame of a record: identifiers, work type, record information, pictures.
#include "plugins/lido/record.hpp"

#include <algorithm>

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "core/view/addresses.hpp"
#include "core/view/words.hpp"
#include "plugins/lido/terms.hpp"

namespace lathbook::lido {

namespace {

/// Records that name this one with a property, by code.
std::vector<RecordView> naming(const StatementReader& reader, const Uuid& object,
                               std::initializer_list<std::string_view> properties) {
  Query query;
  query.object = object;
  for (const auto property : properties) query.properties.push_back(Registry::standard().named(property).id);
  std::vector<Uuid> ids;
  reader.each_statement(query, [&](const Statement& statement) {
    const Uuid& id = statement.content.subject;
    if (statement.presence == Presence::present && std::find(ids.begin(), ids.end(), id) == ids.end())
      ids.push_back(id);
    return true;
  });
  std::vector<RecordView> records;
  for (const Uuid& id : ids)
    if (const auto info = reader.record(id)) records.push_back(RecordView::read(reader, *info));
  std::sort(records.begin(), records.end(), [](const RecordView& a, const RecordView& b) {
    const int order = compare_for_people(a.info.code, b.info.code);
    return order != 0 ? order < 0 : a.info.id < b.info.id;
  });
  return records;
}

/// Media type of a picture by the ending of its name; empty when it tells nothing.
std::string picture_type(const Content& content) {
  const std::string stated(content.qualifier("media-type"));
  if (!stated.empty()) return stated;
  const std::string name = to_lower_ascii(content.qualifier("file-name"));
  const auto dot = name.rfind('.');
  const std::string ending = dot == std::string::npos ? "" : name.substr(dot + 1);
  if (ending == "jpg" || ending == "jpeg") return "image/jpeg";
  if (ending == "svg") return "image/svg+xml";
  if (ending == "tif" || ending == "tiff") return "image/tiff";
  if (ending == "png" || ending == "gif" || ending == "webp") return "image/" + ending;
  return {};
}

}  // namespace

Object object_of(const Ground& ground, const RecordView& record) {
  Object object;
  object.record = record;
  const Uuid& id = record.info.id;
  object.inscriptions = naming(ground.reader, id, {"mark-on", "label-on"});
  object.finishes = naming(ground.reader, id, {"finish-on"});
  std::stable_sort(object.finishes.begin(), object.finishes.end(), [](const auto& a, const auto& b) {
    return FinishView(a).layer.value_or(0) < FinishView(b).layer.value_or(0);
  });
  object.events = naming(ground.reader, id, {"event-on"});
  object.items = ground.timeline.of(id);
  return object;
}

std::vector<const Statement*> facts_of(const RecordView& record, Part part) {
  std::vector<const Statement*> facts;
  for (const Rule* rule = begin_rules(); rule != end_rules(); ++rule) {
    if (rule->part != part) continue;
    const auto some = record.all(rule->property);
    facts.insert(facts.end(), some.begin(), some.end());
  }
  return facts;
}

std::string ground_in_words(const Content& content) {
  std::string words;
  const auto add = [&](std::string_view part) {
    if (!part.empty()) words += (words.empty() ? "" : "; ") + std::string(part);
  };
  add(word(content.confidence));
  add(word(content.evidence));
  add(details_in_words(content));
  return words;
}

void RecordWriter::identifier(std::string_view element, std::string_view type, std::string_view value) {
  if (value.empty()) return;
  xml_.start(element).attribute("lido:type", type).text(value).end();
}

void RecordWriter::concept_of(std::string_view element, std::string_view id, std::string_view label) {
  xml_.start(element);
  if (!id.empty()) identifier("lido:conceptID", term::uri_id, id);
  xml_.element("lido:term", label).end();
}

void RecordWriter::appellation(std::string_view element, std::string_view value) {
  xml_.start(element).element("lido:appellationValue", value).end();
}

void RecordWriter::write() {
  const std::string address = record_address(ground_.base, record_.info.id);
  xml_.start("lido:lido");
  xml_.start("lido:lidoRecID").attribute("lido:type", term::uri_id).attribute("lido:source", ground_.keeper);
  xml_.text(address).end();
  identifier("lido:objectPublishedID", term::uri_id, address);
  concept_of("lido:category", "http://www.cidoc-crm.org/cidoc-crm/E22_Human-Made_Object",
             "Human-Made Object");
  xml_.start("lido:descriptiveMetadata").attribute("xml:lang", "en");
  classification();
  identification();
  events();
  relations();
  xml_.end();
  administrative();
  xml_.end();
  count_the_rest();
}

void RecordWriter::classification() {
  xml_.start("lido:objectClassificationWrap").start("lido:objectWorkTypeWrap");
  const auto concepts = record_.all("concept");
  std::string type = record_.text("element-type");
  if (type.empty()) type = record_.text("piece-type");
  if (type.empty()) type = record_.text("element-class");
  if (type.empty()) type = std::string(word(record_.info.kind));
  xml_.start("lido:objectWorkType");
  for (const Statement* one : concepts) identifier("lido:conceptID", term::uri_id, one->content.value);
  xml_.element("lido:term", type).end().end();
  const std::string broad = record_.text("element-class");
  if (!broad.empty() && broad != type) {
    xml_.start("lido:classificationWrap").start("lido:classification").attribute("lido:type", "class");
    xml_.element("lido:term", broad).end().end();
  }
  xml_.end();
}

void RecordWriter::administrative() {
  xml_.start("lido:administrativeMetadata").attribute("xml:lang", "en").start("lido:recordWrap");
  identifier("lido:recordID", term::local_id, record_.info.id.text());
  concept_of("lido:recordType", term::item_record, "item-level record");
  xml_.start("lido:recordSource");
  appellation("lido:legalBodyName", ground_.keeper);
  xml_.end();
  std::int64_t last = 0;
  for (const Statement& fact : record_.facts) last = std::max(last, fact.header.entered.seconds);
  if (last > 0) {
    Moment moment;
    moment.seconds = last;
    xml_.start("lido:recordInfoSet").element("lido:recordMetadataDate", moment.text()).end();
  }
  xml_.end();
  pictures();
  xml_.end();
}

void RecordWriter::pictures() {
  bool any = false;
  for (const Statement* statement : facts_of(record_, Part::picture)) {
    const auto id = Uuid::parse(statement->content.value);
    const auto info = id ? reader_.record(*id) : std::nullopt;
    if (!info) continue;
    const SourceView source(RecordView::read(reader_, *info));
    for (const Statement* file : source.record.all("media")) {
      const auto digest = Digest::from_hex(file->content.value);
      if (!digest) continue;
      if (!any) xml_.start("lido:resourceWrap");
      any = true;
      xml_.start("lido:resourceSet");
      identifier("lido:resourceID", term::local_id, info->code);
      xml_.start("lido:resourceRepresentation").attribute("lido:type", term::provided_image);
      xml_.start("lido:linkResource");
      if (const auto type = picture_type(file->content); !type.empty())
        xml_.attribute("lido:formatResource", type);
      xml_.text(media_address(ground_.base, *digest)).end().end();
      picture(source, *statement, *digest);
      xml_.end();
    }
  }
  if (any) xml_.end();
}

void RecordWriter::picture(const SourceView& source, const Statement& statement, const Digest&) {
  if (!source.type.empty()) concept_of("lido:resourceType", "", source.type);
  const Property* property = Registry::standard().find(statement.content.property);
  const std::string grounds = ground_in_words(statement.content);
  xml_.start("lido:resourceDescription");
  xml_.text(property->label + ": " + source.footnote("") + (grounds.empty() ? "" : " (" + grounds + ")"))
      .end();
  if (!source.date.empty()) {
    xml_.start("lido:resourceDateTaken");
    date(source.date, source.date_typed);
    xml_.end();
  }
  if (!source.repository.empty()) {
    xml_.start("lido:resourceSource");
    appellation("lido:legalBodyName", source.repository);
    xml_.end();
  }
  if (source.rights.empty()) return;
  xml_.start("lido:rightsResource").start("lido:rightsType");
  identifier("lido:conceptID", term::uri_id, source.rights);
  xml_.end().end();
}

void RecordWriter::count_the_rest() {
  for (const Statement& fact : record_.facts) {
    const Property* property = Registry::standard().find(fact.content.property);
    const Rule* rule = property == nullptr ? nullptr : rule_of(property->name);
    if (rule == nullptr) {
      ground_.uncarried.add(fact.content);
    } else if (!property->many && &fact != record_.best(property->name)) {
      ground_.uncarried.add("competing " + property->label);
    }
  }
}

}  // namespace lathbook::lido
