// Statements as attribute assignments: who said it, when, how sure, and by which sources.
#include "core/view/addresses.hpp"
#include "core/view/record_view.hpp"
#include "core/view/words.hpp"
#include "plugins/linked-art/record_maker.hpp"
#include "plugins/linked-art/terms.hpp"

namespace lathbook::linked_art {

namespace {

std::string passage_in_words(const Context& context, const Citation& citation) {
  const auto source = context.reader.record(citation.source);
  if (!source) return {};
  std::string text = display(*source);
  if (!citation.locator.empty()) text += ", " + citation.locator;
  if (!citation.quote.empty()) text += ": \u201c" + citation.quote + "\u201d";
  return text;
}

}  // namespace

std::vector<Node> RecordMaker::assigned(const Content& said, const Property& property, const Rule& rule) {
  if (property.type == ValueType::record) {
    const auto id = Uuid::parse(said.value);
    const bool place = rule.how == How::venue || rule.how == How::found;
    auto thing = id ? context_.reference(*id, place) : std::nullopt;
    if (thing) return {std::move(*thing)};
    return {};
  }
  if (property.type == ValueType::date) return {time_span(edtf_of(said), said.value)};
  if (property.type == ValueType::quantity) {
    if (auto measure = measure_of(said, property)) return {std::move(*measure)};
    return {};
  }
  if (rule.how == How::type)
    return {
        context_.own_type(property.type == ValueType::choice ? property.choices : property.name, said.value)};
  if (rule.how == How::material) return {context_.own_type("material", said.value, "Material")};
  if (rule.how == How::name) {
    Node name;
    name.set("type", "Name");
    name.set("content", said.value);
    return {std::move(name)};
  }
  if (rule.how == How::file) {
    add_file_document(said);
    Node file;
    file.set("id", context_.base + "media/" + said.value);
    file.set("type", "DigitalObject");
    return {std::move(file)};
  }
  if (property.type == ValueType::statement) return {};
  return {context_.prose(said.value, aat::note, "note", said.language)};
}

void RecordMaker::attribute(const Statement& statement, const Property& property, const Rule& rule) {
  const Content& said = statement.content;
  auto values = assigned(said, property, rule);
  // A value that names what may not be shown, or has no form here, leaves its words.
  if (values.empty()) {
    const auto other = property.type == ValueType::record ? Uuid::parse(said.value) : std::nullopt;
    const auto entry = other ? context_.look(*other) : std::nullopt;
    if (!entry) return;
    values.push_back(context_.prose(display(entry->info), aat::note, "note"));
  }
  Node node;
  node.set("type", "AttributeAssignment");
  node.set("_label", property.label);
  if (!rule.assigned.empty()) node.set("assigned_property", rule.assigned);
  node.set("assigned", Node::list(std::move(values)));
  node.add("classified_as", context_.own_type("confidence", word(said.confidence)));
  if (said.evidence != EvidenceClass::none)
    node.add("classified_as", context_.own_type("evidence", word(said.evidence)));
  if (!statement.current)
    node.add("classified_as", context_.own_type("standing", "replaced or withdrawn"));
  else if (context_.ruled_aside.count(statement.id) != 0)
    node.add("classified_as", context_.own_type("standing", "set aside by a ruling"));
  if (said.author)
    if (auto author = context_.reference(*said.author)) node.add("carried_out_by", std::move(*author));
  if (!said.said_on.empty()) node.set("timespan", time_span(said.said_on, said.said_on));
  for (const Citation& citation : said.citations) {
    auto source = context_.reference(citation.source);
    if (!source) continue;
    node.add("influenced_by", std::move(*source));
    if (!citation.locator.empty() || !citation.quote.empty())
      node.add("referred_to_by", context_.prose(passage_in_words(context_, citation), aat::note, "note"));
  }
  if (const auto details = details_in_words(said); !details.empty())
    node.add("referred_to_by", context_.prose(details, aat::note, "note"));
  if (!said.why.empty()) node.add("referred_to_by", context_.prose(said.why, aat::note, "note"));
  Node name;
  name.set("type", "Identifier");
  name.set("content", statement_address(context_.base, statement.id));
  node.add("identified_by", std::move(name));
  node_.add("attributed_by", std::move(node));
}

}  // namespace lathbook::linked_art
