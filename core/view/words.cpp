// Puts values, details and citations into words.
#include "core/view/words.hpp"

#include "core/view/views.hpp"

namespace lathbook {

std::string value_in_words(const StatementReader& reader, const Content& content) {
  const Property* property = Registry::standard().find(content.property);
  if (property == nullptr || property->type != ValueType::record) return content.value;
  const auto id = Uuid::parse(content.value);
  const auto record = id ? reader.record(*id) : std::nullopt;
  return record ? display(*record) : std::string();
}

std::string details_in_words(const Content& content) {
  std::string words;
  for (const Qualifier& one : content.qualifiers)
    words += (words.empty() ? "" : "; ") + one.name + ": " + one.value;
  return words;
}

std::string citation_in_words(const StatementReader& reader, const Citation& citation) {
  const auto record = reader.record(citation.source);
  if (!record) return "a source that is withheld";
  std::string words = SourceView(RecordView::read(reader, *record)).footnote(citation.locator);
  if (!citation.quote.empty()) words += " \xE2\x80\x9C" + citation.quote + "\xE2\x80\x9D";
  return words;
}

std::string citations_in_words(const StatementReader& reader, const Content& content) {
  std::string words;
  for (const Citation& one : content.citations)
    words += (words.empty() ? "" : "; ") + citation_in_words(reader, one);
  return words;
}

std::string agent_in_words(const StatementReader& reader, const Uuid& agent) {
  const auto record = reader.record(agent);
  if (!record) return {};
  return record->name.empty() ? record->code : record->name;
}

std::string archive_name(const StatementReader& reader) {
  std::string name;
  reader.each_record(Kind::archive, [&](const RecordInfo& info) {
    name = RecordView::read(reader, info).text("archive-name");
    return name.empty();
  });
  return name.empty() ? "Archive" : name;
}

}  // namespace lathbook
