#include "core/cli/statement_words.hpp"

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/plain_words.hpp"
#include "core/view/record_view.hpp"
#include "core/view/words.hpp"

namespace lathbook::cli {

namespace {

std::string record_words(const StatementReader& reader, const std::string& text) {
  const auto id = Uuid::parse(text);
  const auto record = id ? reader.record(*id) : std::nullopt;
  return record ? display(*record) : "a record that is withheld";
}

std::string agent_words(const StatementReader& reader, const Uuid& id) {
  const auto agent = reader.record(id);
  if (!agent) return "a person whose name is withheld";
  return agent->name.empty() ? agent->code : agent->name;
}

}  // namespace

std::string value_words(const StatementReader& reader, const Statement& statement) {
  const auto& content = statement.content;
  const Property* property = Registry::standard().find(content.property);
  std::string words = safe_display(content.value);
  if (property != nullptr && property->type == ValueType::record) {
    words = record_words(reader, content.value);
  } else if (property != nullptr && property->type == ValueType::date) {
    const auto date = Edtf::try_parse(edtf_of(content));
    if (!content.edtf.empty()) words += " = " + content.edtf;
    if (date) words += " (" + describe(*date) + ")";
  }
  for (const auto& qualifier : content.qualifiers) {
    words += "; " + qualifier.name + ": " + safe_display(qualifier.value);
  }
  return words;
}

std::string citation_words(const StatementReader& reader, const Citation& citation) {
  return safe_display(citation_in_words(reader, citation));
}

std::string ground_words(const StatementReader& reader, const Statement& statement) {
  const auto& content = statement.content;
  std::string words;
  const auto add = [&words](const std::string& part) {
    if (!part.empty()) words += (words.empty() ? "" : "; ") + part;
  };
  if (content.confidence != Confidence::none) {
    add(std::string(word(content.confidence)) + ", " + std::string(word(content.evidence)));
  }
  if (content.author) {
    add(agent_words(reader, *content.author) + (content.said_on.empty() ? "" : ", " + content.said_on));
  } else if (!content.said_on.empty()) {
    add(content.said_on);
  }
  for (const auto& citation : content.citations) add(citation_words(reader, citation));
  for (const auto& ground : content.grounds) {
    const auto from = reader.statement(ground);
    add("concluded from " + (from ? from->name() : ground.hex().substr(0, 16)));
  }
  if (!content.why.empty()) add("why: " + without_full_stop(safe_display(content.why)));
  if (content.privacy) add("private: " + safe_display(content.privacy->reason));
  if (!content.proposed_by.empty()) add("proposed by " + content.proposed_by);
  std::string entered = "entered " + statement.header.entered.text();
  if (content.recorder) entered += " by " + agent_words(reader, *content.recorder);
  add(entered);
  return words;
}

std::string superseded_words(const StatementReader& reader, const Statement& statement) {
  std::string words;
  Query query;
  query.current_only = false;
  reader.each_statement(query, [&](const Statement& other) {
    for (const auto& target : other.content.targets) {
      if (target != statement.id) continue;
      words += (words.empty() ? "" : ", ") +
               std::string(other.content.act == Act::withdraw ? "withdrawn by " : "replaced by ") +
               other.name() + " (" + safe_display(other.content.why) + ")";
    }
    return true;
  });
  return words.empty() ? "not current" : words;
}

void write_statement(JsonWriter& json, const StatementReader& reader, const Statement& statement) {
  const auto& content = statement.content;
  const Property* property = Registry::standard().find(content.property);
  const auto subject = reader.record(content.subject);
  json.begin_object();
  json.key("statement").string(statement.name()).key("id").string(statement.id.hex());
  json.key("current").boolean(statement.current);
  json.key("subject").string(subject ? subject->code : "");
  json.key("property").string(property == nullptr ? "" : property->name);
  json.key("value").string(content.value);
  if (property != nullptr && property->type == ValueType::record) {
    const auto id = Uuid::parse(content.value);
    const auto object = id ? reader.record(*id) : std::nullopt;
    json.key("record").string(object ? object->code : "");
  }
  if (!content.edtf.empty()) json.key("edtf").string(content.edtf);
  if (!content.qualifiers.empty()) {
    json.key("details").begin_object();
    for (const auto& qualifier : content.qualifiers) json.key(qualifier.name).string(qualifier.value);
    json.end_object();
  }
  json.key("class").string(word(content.evidence)).key("confidence").string(word(content.confidence));
  if (content.author) json.key("by").string(agent_words(reader, *content.author));
  json.key("said-on").string(content.said_on).key("entered").string(statement.header.entered.text());
  json.key("citations").begin_array();
  for (const auto& citation : content.citations) {
    const auto source = reader.record(citation.source);
    json.begin_object()
        .key("source")
        .string(source ? source->code : "")
        .key("locator")
        .string(citation.locator);
    json.key("quote")
        .string(citation.quote)
        .key("footnote")
        .string(citation_words(reader, citation))
        .end_object();
  }
  json.end_array();
  if (!content.grounds.empty()) {
    json.key("grounds").begin_array();
    for (const auto& ground : content.grounds) json.string(ground.hex());
    json.end_array();
  }
  if (!content.why.empty()) json.key("why").string(content.why);
  json.end_object();
}

}  // namespace lathbook::cli
