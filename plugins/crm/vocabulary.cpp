// Writes the head.
#include "plugins/crm/vocabulary.hpp"

#include <string>

#include "plugins/crm/mapping.hpp"
#include "plugins/crm/names.hpp"
#include "plugins/crm/record_writer.hpp"
#include "plugins/crm/terms.hpp"

namespace lathbook::crm {

namespace {

/// The property of the published models that says less than ours of the same two nodes; empty when none does.
std::string_view wider_property(const Rule& rule) {
  if (rule.how == How::relation || rule.how == How::mutual) return term::physical_relation;
  const bool plain = rule.how == How::link || rule.how == How::special || rule.how == How::measured;
  if (plain && rule.part.empty()) return rule.predicate;
  return {};
}

}  // namespace

void write_vocabulary(Context& context) {
  Graph& graph = context.graph;
  const auto declare = [&](const std::string& name, const std::string& label, const std::string& help,
                           std::string_view wider) {
    graph.type(name, "crm:E55_Type");
    graph.type(name, "rdf:Property");
    graph.add(name, term::label, words(label, "en"));
    graph.add(name, term::comment, words(help, "en"));
    if (!wider.empty()) graph.add(name, term::sub_property, named(std::string(wider)));
  };
  for (const Property& property : Registry::standard().properties())
    if (context.used.count(property.id) != 0)
      declare(property_name(property.name), property.label, property.help, wider_property(rule_of(property)));
  if (!context.reckoned) return;
  declare(property_name(kReckonedStanding), "stood in this time",
          "Worked out from all statements that bear on it; the conclusion names them.",
          term::temporally_specified);
  declare(property_name(kReckonedTime), "took place in this time",
          "Worked out from all statements that bear on it; the conclusion names them.", term::time_span);
  graph.type(kTimelineLogic, "crminf:I3_Inference_Logic");
  graph.add(kTimelineLogic, term::label,
            words("shortest paths in a simple temporal problem (Dechter, Meiri and Pearl, Artificial "
                  "Intelligence 49, 1991, 61-95)",
                  "en"));
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
