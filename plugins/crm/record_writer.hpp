// One record at a time: its classes, its claims, and in plain triples what is held of it.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "plugins/crm/context.hpp"
#include "plugins/crm/mapping.hpp"

namespace lathbook::crm {

/// What is needed of a record wherever it is named: classes, label, and the nodes that always go with it.
void write_base(Context& context, const Entry& entry);

/// Fills the context's graph with one record.
class RecordWriter {
public:
  RecordWriter(Context& context, Entry entry);
  void write();

private:
  struct Held {
    const Statement* statement;
    Rule rule;
    Term value;
  };

  void read();
  void write_plainly(const Held& held, const Property& property);
  void write_note(const Held& held, const Property& property);
  void write_relation(const Held& held, const Property& property);
  void write_specially(const Held& held);
  void write_name(const Held& held);
  void write_within(const Held& held);
  void write_standing(const Held& held);
  void write_condition(const Held& held);
  void write_piece_of(const Held& held);
  void write_carrier(const Held& held);
  void write_works_span();
  void write_event();
  void write_event_on(const Uuid& target, const Entry& entry, std::string_view sort);
  /// The node that a rule's triples start from, described when it is new; empty when this record cannot
  /// have one.
  std::string part(const Rule& rule, const Statement& statement);
  void describe_part(std::string_view part, const std::string& node);
  void describe_installation(const std::string& node, bool begins);
  /// What the record was put into, as far as it is held: element, larger element, or place.
  std::string whole() const;
  const Held* held(std::string_view property) const;

  Context& context_;
  Graph& graph_;
  const Entry entry_;
  const std::string name_;
  std::vector<Statement> statements_;
  std::vector<Held> held_;
};

}  // namespace lathbook::crm
