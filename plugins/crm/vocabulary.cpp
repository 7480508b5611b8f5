// Writes the head.
#include "plugins/crm/vocabulary.hpp"

#include <string>

#include "plugins/crm/mapping.hpp"
#include "plugins/crm/names.hpp"
#include "plugins/crm/terms.hpp"
#include "plugins/crm/values.hpp"

namespace lathbook::crm {

namespace {

/// The property of the published models that says less than ours of the same two nodes; empty when none does.
std::string_view wider_property(const Rule& rule) {
  if (rule.how == How::relation || rule.how == How::mutual) return term::physical_relation;
  if ((rule.how == How::link || rule.how == How::special) && rule.part.empty()) return rule.predicate;
  return {};
}

}  // namespace

void write_vocabulary(Context& context) {
  Graph& graph = context.graph;
  for (const Property& property : Registry::standard().properties()) {
    const std::string name = property_name(property.name);
    graph.type(name, "crm:E55_Type");
    graph.type(name, "rdf:Property");
    graph.add(name, term::label, words(property.label, "en"));
    graph.add(name, term::comment, words(property.help, "en"));
    const auto wider = wider_property(rule_of(property));
    if (!wider.empty()) graph.add(name, term::sub_property, named(std::string(wider)));
  }
  for (const Property& property : Registry::standard().properties()) {
    if (property.type != ValueType::choice) continue;
    for (const std::string& word : Registry::standard().choices(property.choices))
      type_node(context, property.choices, word);
  }
}

void write_state(Context& context, const Reading& reading) {
  Graph& graph = context.graph;
  const std::string name = "set:" + reading.fingerprint.hex();
  graph.type(name, "crm:E73_Information_Object");
  graph.type(name, "prov:Entity");
  graph.add(name, term::label,
            words("an archive of historical building fabric, in the state of this fingerprint", "en"));
  graph.add(name, term::note,
            words("fingerprint of the archive's state: " + reading.fingerprint.hex(), "en"));
  if (reading.with_private)
    graph.add(name, term::note, words("holds private statements: not for publication", "en"));
  if (reading.withheld != 0)
    graph.add(name, term::note, words(std::to_string(reading.withheld) + " statements are withheld", "en"));
}

}  // namespace lathbook::crm
