// One record at a time: its classes, its claims, and in plain triples what is held of it.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "plugins/crm/context.hpp"
#include "plugins/crm/mapping.hpp"

namespace lathbook::crm {

/// What is needed of a record wherever it is named: classes, label, and the nodes that always go with it.
void write_base(Context& context, const Entry& entry);

/// Our own properties for times that the timeline worked out, and the name of its logic.
inline constexpr char kReckonedStanding[] = "reckoned-standing";
inline constexpr char kReckonedTime[] = "reckoned-time";
inline constexpr char kTimelineLogic[] = "type:logic.temporal-network";

/// Fills the context's graph with one record. With `propositions`, what is claimed and not held is also said
/// plainly, in a named graph that is called as the claim.
class RecordWriter {
public:
  RecordWriter(Context& context, Entry entry, bool propositions);
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
  void write_role(const Held& held, const std::string& act);
  void write_measuring(const Held& held);
  void write_outline(const Held& held);
  void write_works_span();
  void count(const Held& held, const Property& property, bool holds);
  void write_propositions();
  void write_dates();
  bool has_reckoned_making() const;
  void write_making_date(const TimelineItem& item);
  void write_event_span(const std::string& node, const Span& when);
  void write_standing_time(const TimelineItem& item);
  void write_phases_of(const TimelineItem& item, const std::string& installed, const std::string& removed);
  void write_phase_time();
  /// The time-span with the bounds held, plainly and as a conclusion; and one with those that are only
  /// possible too, as a conclusion alone.
  void write_reckonings(const std::string& about, const char* property, const char* plain,
                        const std::vector<const Bound*>& bounds);
  /// A time-span as a conclusion from all the statements that fix its bounds.
  void write_reckoning(const std::string& about, const char* suffix, const std::string& span,
                       const char* property, const std::vector<const Bound*>& bounds);
  void write_sequence(const Held& held);
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
  const bool propositions_;
  std::vector<Statement> statements_;
  std::vector<Held> held_, claimed_;
  std::set<std::string> dated_;  ///< events that have their time-span
  bool claiming_ = false;        ///< a named graph is open
};

}  // namespace lathbook::crm
