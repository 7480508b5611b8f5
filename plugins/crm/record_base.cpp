// What is written of a record wherever it is named.
#include "core/view/record_view.hpp"
#include "plugins/crm/names.hpp"
#include "plugins/crm/record_writer.hpp"
#include "plugins/crm/terms.hpp"

namespace lathbook::crm {

void write_base(Context& context, const Entry& entry) {
  Graph& graph = context.graph;
  const Uuid& id = entry.info.id;
  const std::string name = record_name(id);
  for (const std::string_view class_name : entry.classes()) graph.type(name, class_name);
  graph.add(name, term::label, words(display(entry.info)));
  const std::string space = record_name(id, "space");
  const std::string sign = record_name(id, "sign");
  switch (entry.info.kind) {
    case Kind::place:
      graph.add(name, term::occupies, named(space));
      graph.type(space, "crm:E53_Place");
      break;
    case Kind::container:
      graph.add(name, term::has_section, named(space));
      graph.type(space, "crm:E53_Place");
      break;
    case Kind::mark:
      graph.add(name, term::shows, named(sign));
      graph.type(sign, "crm:E37_Mark");
      break;
    case Kind::label:
      graph.add(name, term::carries, named(sign));
      graph.type(sign, "crm:E34_Inscription");
      break;
    default:
      break;
  }
}

}  // namespace lathbook::crm
