#include <algorithm>
#include <sstream>

#include "core/base/xml_writer.hpp"
#include "core/exchange/exchange_form.hpp"
#include "core/exchange/schema.hpp"

namespace lathbook {

namespace {

struct Pattern {
  std::string_view name;
  std::string_view pattern;
};

constexpr std::array<Pattern, 9> kPatterns{
    {{"format", "1"},
     {"uuid", "[0-9A-Fa-f]{8}-([0-9A-Fa-f]{4}-){3}[0-9A-Fa-f]{12}"},
     {"digest", "[0-9A-Fa-f]{64}"},
     {"chain", "[0-9a-f]{32}"},
     {"count", "[0-9]{1,20}"},
     {"number", "[1-9][0-9]{0,19}"},
     {"moment", "[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(Z|[+\\-][0-9]{2}:[0-9]{2})"},
     {"words", ""},
     {"base64", "([A-Za-z0-9+/]{4})*([A-Za-z0-9+/]{3}=|[A-Za-z0-9+/]{2}==)?"}}};

struct WordList {
  std::string_view name;
  std::vector<std::string_view> words;
};

class SchemaWriter {
public:
  SchemaWriter(std::ostream& out, const Registry& registry) : xml_(out), registry_(registry) {}

  void write() {
    xml_.start("xs:schema").attribute("xmlns:xs", "http://www.w3.org/2001/XMLSchema");
    xml_.attribute("xmlns", kExchangeNamespace).attribute("targetNamespace", kExchangeNamespace);
    xml_.attribute("elementFormDefault", "qualified");
    documentation(
        "The exchange document of Lathbook, format 1. Made from the registry of properties; a test compares. "
        "docs/exchange.md explains it. Digests, the order of statements and references are not checked "
        "here.");
    for (const auto& pattern : kPatterns) restricted(pattern.name, pattern.pattern);
    for (const auto& list : lists()) words(list);
    properties();
    xml_.start("xs:element").attribute("name", form_of(Part::document).name);
    type(Part::document);
    xml_.end();
    xml_.end();
    xml_.finish();
  }

private:
  static std::vector<WordList> lists() {
    return {{"presence", {"present", "withheld", "expunged"}},
            {"act", {"state", "withdraw", "expunge"}},
            {"evidence", {"physical", "documentary", "oral", "comparative"}},
            {"confidence", {"certain", "probable", "possible", "conjecture"}}};
  }

  void documentation(std::string_view text) {
    xml_.start("xs:annotation").element("xs:documentation", text).end();
  }

  void begin_simple(std::string_view name, std::string_view base) {
    xml_.start("xs:simpleType").attribute("name", name);
    xml_.start("xs:restriction").attribute("base", base);
  }

  void restricted(std::string_view name, std::string_view pattern) {
    begin_simple(name, "xs:string");
    if (!pattern.empty()) xml_.start("xs:pattern").attribute("value", pattern).end();
    xml_.end().end();
  }

  void words(const WordList& list) {
    begin_simple(list.name, "xs:string");
    for (const auto word : list.words) xml_.start("xs:enumeration").attribute("value", word).end();
    xml_.end().end();
  }

  // Two lists, because a schema of version 1.0 cannot tie a name to its id; the id decides.
  void properties() {
    begin_simple("property-name", "xs:string");
    for (const auto& property : registry_.properties()) {
      xml_.start("xs:enumeration").attribute("value", property.name);
      documentation(property.help);
      xml_.end();
    }
    xml_.end().end();
    begin_simple("property-id", "xs:string");
    for (const auto& property : registry_.properties()) {
      xml_.start("xs:enumeration").attribute("value", std::to_string(property.id));
      documentation(property.name);
      xml_.end();
    }
    xml_.end().end();
  }

  static std::vector<const PartForm*> children(Part parent) {
    std::vector<const PartForm*> found;
    for (const auto& form : part_forms()) {
      if (form.part != Part::document && form.parent == parent) found.push_back(&form);
    }
    return found;
  }

  void attributes(const PartForm& form) {
    for (const auto& attribute : form.attributes) {
      xml_.start("xs:attribute").attribute("name", attribute.name).attribute("type", attribute.type);
      if (attribute.required) xml_.attribute("use", "required");
      xml_.end();
    }
  }

  void element(const PartForm& form, bool in_choice) {
    xml_.start("xs:element").attribute("name", form.name);
    if (!in_choice) xml_.attribute("minOccurs", "0");
    if (form.repeats) xml_.attribute("maxOccurs", "unbounded");
    type(form.part);
    xml_.end();
  }

  // Parts of one stage exclude each other; stages follow each other.
  void sequence(const std::vector<const PartForm*>& parts) {
    xml_.start("xs:sequence");
    for (std::size_t i = 0; i < parts.size();) {
      std::size_t end = i + 1;
      while (end < parts.size() && parts[end]->stage == parts[i]->stage) ++end;
      if (end == i + 1) {
        element(*parts[i], false);
      } else {
        xml_.start("xs:choice").attribute("minOccurs", "0");
        for (auto k = i; k < end; ++k) element(*parts[k], true);
        xml_.end();
      }
      i = end;
    }
    xml_.end();
  }

  void type(Part part) {
    const auto& form = form_of(part);
    xml_.start("xs:complexType");
    if (form.text) {
      xml_.start("xs:simpleContent").start("xs:extension");
      xml_.attribute("base", part == Part::bytes ? "base64" : "words");
      attributes(form);
      xml_.end().end();
    } else {
      const auto parts = children(part);
      if (!parts.empty()) sequence(parts);
      attributes(form);
    }
    xml_.end();
  }

  XmlWriter xml_;
  const Registry& registry_;
};

}  // namespace

std::string exchange_schema(const Registry& registry) {
  std::ostringstream out;
  SchemaWriter(out, registry).write();
  return out.str();
}

}  // namespace lathbook
