// Writes one record.
#include "plugins/dublin-core/record.hpp"

#include <algorithm>
#include <set>

#include "core/base/edtf.hpp"
#include "core/view/addresses.hpp"
#include "core/view/words.hpp"
#include "plugins/dublin-core/mapping.hpp"

namespace lathbook::dublin_core {

namespace {

class DcRecord {
public:
  DcRecord(XmlWriter& xml, const RecordView& record, const Ground& ground)
      : xml_(xml), record_(record), ground_(ground) {}

  void write() {
    xml_.start("oai_dc:dc").attribute("xmlns:oai_dc", "http://www.openarchives.org/OAI/2.0/oai_dc/");
    xml_.attribute("xmlns:dc", "http://purl.org/dc/elements/1.1/");
    xml_.attribute("xmlns:xsi", "http://www.w3.org/2001/XMLSchema-instance");
    xml_.attribute(
        "xsi:schemaLocation",
        "http://www.openarchives.org/OAI/2.0/oai_dc/ http://www.openarchives.org/OAI/2.0/oai_dc.xsd");
    titles();
    element("identifier", record_address(ground_.base, record_.info.id));
    element("identifier", record_.info.code);
    element("type", dcmi_type(record_.info.kind, record_.text("source-type")));
    for (const Statement& fact : record_.facts) say(fact);
    derived_date();
    xml_.end();
  }

private:
  void element(std::string_view name, std::string_view value, std::string_view language = {}) {
    if (value.empty()) return;
    // The same thing said by two people is told once.
    if (!told_.insert(std::string(name) + "\n" + std::string(value)).second) return;
    xml_.start("dc:" + std::string(name));
    if (!language.empty()) xml_.attribute("xml:lang", language);
    xml_.text(value).end();
  }

  /// The best title or name first; old names are titles too.
  void titles() {
    for (const char* property : {"title", "name"})
      for (const Statement* one : record_.all(property))
        element("title", one->content.value, one->content.language);
    if (told_.empty()) element("title", display(record_.info));
  }

  void say(const Statement& fact) {
    const Property* property = Registry::standard().find(fact.content.property);
    const Rule* rule = property == nullptr ? nullptr : rule_of(property->name);
    if (rule == nullptr) return ground_.uncarried.add(fact.content);
    if (rule->as == As::nothing) return;
    // Of rivals only the best founded is told: Dublin Core cannot say which is which.
    if (!property->many && &fact != record_.best(property->name))
      return ground_.uncarried.add("competing " + property->label);
    const std::string value = words(*rule, fact.content);
    if (!value.empty()) element(rule->element, std::string(rule->prefix) + value, fact.content.language);
  }

  std::string words(const Rule& rule, const Content& content) {
    switch (rule.as) {
      case As::date:
        has_date_ = true;
        return std::string(edtf_of(content));
      case As::record: {
        const std::string name = value_in_words(ground_.reader, content);
        const auto id = Uuid::parse(content.value);
        return name.empty() || !id ? "" : name + " <" + record_address(ground_.base, *id) + ">";
      }
      case As::agent: {
        const auto id = Uuid::parse(content.value);
        return id ? agent_in_words(ground_.reader, *id) : "";
      }
      case As::measure:
        return std::string(content.qualifier("of")) + " " + content.value;
      case As::words: {
        const std::string details = details_in_words(content);
        return details.empty() ? content.value : content.value + " (" + details + ")";
      }
      case As::bare:
      case As::nothing:
        break;
    }
    return content.value;
  }

  /// Where nobody says when it was put in, the bounds that the timeline concludes, as an EDTF interval.
  void derived_date() {
    if (has_date_) return;
    const auto& items = ground_.timeline.of(record_.info.id);
    if (items.empty()) return;
    // The first setting; of a piece, which has none, the making.
    const Span& span = items.front()->placement == 0 ? items.front()->made : items.front()->begins;
    const std::string from = span.earliest.known ? iso_day(span.earliest.day) : "";
    const std::string to = span.latest.known ? iso_day(span.latest.day) : "";
    if (!from.empty() || !to.empty()) element("date", from == to ? from : from + "/" + to);
  }

  XmlWriter& xml_;
  const RecordView& record_;
  const Ground& ground_;
  std::set<std::string> told_;
  bool has_date_ = false;
};

}  // namespace

void write_dc(XmlWriter& xml, const RecordView& record, const Ground& ground) {
  DcRecord(xml, record, ground).write();
}

std::string datestamp(const RecordView& record) {
  std::int64_t last = 0;
  for (const Statement& fact : record.facts) last = std::max(last, fact.header.entered.seconds);
  constexpr std::int64_t kDay = 86400;
  return iso_day(last >= 0 ? last / kDay : -((kDay - 1 - last) / kDay));
}

}  // namespace lathbook::dublin_core
