// The nodes beside a record: the events of its life, its maker's act, the paper of a document.
#include "plugins/crm/names.hpp"
#include "plugins/crm/record_writer.hpp"
#include "plugins/crm/terms.hpp"

namespace lathbook::crm {

namespace {

bool in_place(Kind kind) {
  return kind == Kind::element || kind == Kind::finish;
}

/// The thing as made, apart from its standing in the building: a piece is its own.
std::string thing_of(Graph& graph, const Entry& entry) {
  const Uuid& id = entry.info.id;
  if (!in_place(entry.info.kind)) return record_name(id);
  const std::string thing = record_name(id, "thing");
  graph.type(thing, entry.info.kind == Kind::element ? "crm:E22_Human-Made_Object"
                                                     : "crm:E24_Physical_Human-Made_Thing");
  graph.add(record_name(id), term::remains_of, named(thing));
  return thing;
}

}  // namespace

std::string RecordWriter::whole() const {
  for (const auto* property : {"finish-on", "part-of"})
    if (const Held* found = held(property)) return found->value.value;
  for (const Held& one : held_)
    if (one.rule.property == "stands-in" && one.statement->content.qualifier("role") != "serves")
      return one.value.value;
  return {};
}

void RecordWriter::describe_installation(const std::string& node, bool begins) {
  graph_.type(node,
              begins ? "crmarchaeo:A4_Stratigraphic_Genesis" : "crmarchaeo:A5_Stratigraphic_Modification");
  graph_.add(node, begins ? term::produced_unit : term::disturbed_unit, named(name_));
  const std::string into = whole();
  if (into.empty()) return;
  graph_.type(node, begins ? "crm:E79_Part_Addition" : "crm:E80_Part_Removal");
  graph_.add(node, begins ? term::augmented : term::diminished, named(into));
  graph_.add(node, begins ? term::added : term::removed, named(name_));
}

void RecordWriter::describe_part(std::string_view part, const std::string& node) {
  const auto act = [&](const char* class_name, const char* predicate) {
    graph_.type(node, class_name);
    graph_.add(node, predicate, named(name_));
  };
  if (part == "installed#" || part == "removed#") {
    describe_installation(node, part == "installed#");
  } else if (part == "making") {
    graph_.type(node, "crm:E12_Production");
    graph_.add(node, term::has_produced, named(thing_of(graph_, entry_)));
  } else if (part == "began") {
    act("crm:E63_Beginning_of_Existence", term::brought_forth);
  } else if (part == "ended") {
    act("crm:E64_End_of_Existence", term::took_away);
  } else if (part == "creation") {
    act("crm:E65_Creation", term::created);
  } else if (part == "carrier") {
    graph_.type(node, "crm:E22_Human-Made_Object");
    graph_.add(node, term::carries, named(name_));
  } else if (part == "taking") {
    act("crmsci:S2_Sample_Taking", term::sample_removed);
  } else if (part == "birth") {
    graph_.type(node, "crm:E67_Birth");
    graph_.add(name_, term::was_born, named(node));
  } else if (part == "death") {
    graph_.type(node, "crm:E69_Death");
    graph_.add(name_, term::died_in, named(node));
  }
}

std::string RecordWriter::part(const Rule& rule, const Statement& statement) {
  if (rule.part.empty()) return name_;
  if (rule.part == "making" && entry_.is_surface()) return {};
  if ((rule.part == "birth" || rule.part == "death") && entry_.type != "person") return {};
  std::string suffix(rule.part);
  if (suffix.back() == '#') {
    const auto placement = statement.content.qualifier("placement");
    suffix.back() = '-';
    suffix += placement.empty() ? "1" : placement;
  }
  const std::string node = record_name(entry_.info.id, suffix);
  if (!graph_.has(node)) describe_part(rule.part, node);
  return node;
}

void RecordWriter::write_event() {
  const Held* type = held("event-type");
  const std::string_view sort =
      type != nullptr ? std::string_view(type->statement->content.value) : std::string_view();
  for (const Held& one : held_) {
    if (one.rule.property != "event-on") continue;
    const auto target = Uuid::parse(one.statement->content.value);
    const auto entry = target ? context_.look(*target) : std::nullopt;
    if (entry) write_event_on(*target, *entry, sort);
  }
}

void RecordWriter::write_event_on(const Uuid& target, const Entry& entry, std::string_view sort) {
  const std::string thing = record_name(target);
  const Held* destination = held("moved-to");
  const bool movable = entry.is_object() || (entry.info.kind == Kind::element && !entry.is_surface());
  if (sort == "moved" && destination != nullptr && movable) {
    graph_.type(name_, "crm:E9_Move");
    graph_.add(name_, term::moved, named(thing_of(graph_, entry)));
    graph_.add(name_, term::moved_to, named(destination->value.value + "-space"));
    return;
  }
  const bool puts = sort == "installed" || sort == "reset";
  const auto from = entry.info.kind == Kind::piece ? context_.only(target, "piece-of") : std::nullopt;
  if ((puts || sort == "removed") && from && context_.refer(*from)) {
    graph_.type(name_, puts ? "crm:E79_Part_Addition" : "crm:E80_Part_Removal");
    graph_.add(name_, puts ? term::augmented : term::diminished, named(record_name(*from)));
    graph_.add(name_, puts ? term::added : term::removed, named(thing));
    return;
  }
  const bool changes = puts || sort == "opened" || sort == "faced" || sort == "removed" ||
                       sort == "cleaned" || sort == "repaired" || sort == "replaced" || sort == "damaged" ||
                       sort == "sampled";
  if (changes) graph_.type(name_, "crm:E11_Modification");
  graph_.add(name_, changes ? term::modified : term::in_presence_of, named(thing));
}

}  // namespace lathbook::crm
