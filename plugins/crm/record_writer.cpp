// Writes one record: claims of all its statements, plain triples of those held.
#include "plugins/crm/record_writer.hpp"

#include <algorithm>

#include "core/view/record_view.hpp"
#include "core/view/words.hpp"
#include "plugins/crm/claims.hpp"
#include "plugins/crm/held.hpp"
#include "plugins/crm/names.hpp"
#include "plugins/crm/terms.hpp"
#include "plugins/crm/values.hpp"

namespace lathbook::crm {

RecordWriter::RecordWriter(Context& context, Entry entry, bool propositions)
    : context_(context),
      graph_(context.graph),
      entry_(std::move(entry)),
      name_(record_name(entry_.info.id)),
      propositions_(propositions) {}

void RecordWriter::read() {
  Query query;
  query.subject = entry_.info.id;
  query.current_only = false;
  context_.reader.each_statement(query, [&](const Statement& statement) {
    if (statement.presence == Presence::present && statement.content.act == Act::state)
      statements_.push_back(statement);
    return true;
  });
}

void RecordWriter::write() {
  const Registry& registry = Registry::standard();
  read();
  write_base(context_, entry_);
  const std::vector<bool> holds = decide_held(context_, statements_);
  for (std::size_t at = 0; at < statements_.size(); ++at) {
    const Statement& statement = statements_[at];
    const Property* property = registry.find(statement.content.property);
    if (property == nullptr) {
      ++context_.tally.dropped;
      continue;
    }
    const Rule rule = rule_of(*property);
    auto value = value_node(context_, statement, *property, rule.form);
    if (!value) {
      ++context_.tally.dropped;
      continue;
    }
    write_claim(context_, statement, *property, *value);
    context_.used.insert(property->id);
    Held one{&statement, rule, std::move(*value)};
    count(one, *property, holds[at]);
    (holds[at] ? held_ : claimed_).push_back(std::move(one));
  }
  // Only when everything held is known can a part say what it is a part of.
  for (const Held& one : held_) write_plainly(one, *registry.find(one.statement->content.property));
  if (entry_.info.kind == Kind::campaign) write_works_span();
  if (entry_.info.kind == Kind::event) write_event();
  write_dates();
  if (propositions_) write_propositions();
}

void RecordWriter::count(const Held& held, const Property& property, bool holds) {
  Tally& tally = context_.tally;
  if (!held.statement->current) {
    ++tally.superseded;
    context_.taken_back = true;
  } else if (holds && held.rule.how == How::claim) {
    ++tally.without_form[property.label];
  } else if (!holds) {
    ++tally.doubtful;
  }
  if (property.type == ValueType::media) ++tally.files;
}

void RecordWriter::write_propositions() {
  claiming_ = true;
  for (const Held& one : claimed_) {
    const std::string before = graph_.open(statement_name(one.statement->id));
    write_plainly(one, *Registry::standard().find(one.statement->content.property));
    graph_.open(before);
  }
  claiming_ = false;
}

const RecordWriter::Held* RecordWriter::held(std::string_view property) const {
  for (const Held& one : held_)
    if (one.rule.property == property) return &one;
  return nullptr;
}

void RecordWriter::write_plainly(const Held& one, const Property& property) {
  const Content& said = one.statement->content;
  switch (one.rule.how) {
    case How::claim:
      return;
    case How::bare_note:
      graph_.add(name_, term::note, words(said.value, said.language));
      return;
    case How::note:
      return write_note(one, property);
    case How::relation:
    case How::mutual:
      return write_relation(one, property);
    case How::special:
      return write_specially(one);
    case How::text:
    case How::link:
    case How::role:
    case How::measured:
      break;
  }
  const std::string from = part(one.rule, *one.statement);
  if (from.empty()) return;
  if (!claiming_ && one.rule.predicate == term::time_span) dated_.insert(from);
  if (one.rule.how == How::role) write_role(one, from);
  if (one.rule.how == How::measured) write_measuring(one);
  const bool literal = one.rule.how == How::text;
  const bool counted = property.type == ValueType::integer;
  graph_.add(from, one.rule.predicate,
             !literal  ? one.value
             : counted ? typed(said.value, "xsd:integer")
                       : words(said.value, said.language));
}

void RecordWriter::write_note(const Held& one, const Property& property) {
  const Content& said = one.statement->content;
  std::string text = property.label + ": ";
  const auto other = property.type == ValueType::record ? Uuid::parse(said.value) : std::nullopt;
  const auto entry = other ? context_.look(*other) : std::nullopt;
  text += entry ? display(entry->info) : said.value;
  if (const auto details = details_in_words(said); !details.empty()) text += " (" + details + ")";
  const std::string from = part(one.rule, *one.statement);
  if (!from.empty()) graph_.add(from, term::note, words(text, said.language));
}

void RecordWriter::write_relation(const Held& one, const Property& property) {
  const std::string own = property_name(property.name);
  const bool mutual = one.rule.how == How::mutual;
  graph_.add(name_, own, one.value);
  if (mutual) graph_.add(one.value, own, named(name_));
  // AP11 follows from the declaration. What is only claimed leaves it out: the other record may well stand
  // in some relation that is held.
  if (claiming_) return;
  graph_.add(name_, term::physical_relation, one.value);
  if (mutual) graph_.add(one.value, term::physical_relation, named(name_));
  write_sequence(one);
}

void RecordWriter::write_specially(const Held& one) {
  const std::string_view property = one.rule.property;
  if (property == "name") return write_name(one);
  if (property == "within") return write_within(one);
  if (property == "footprint") return write_outline(one);
  if (property == "stands-in") return write_standing(one);
  if (property == "condition") return write_condition(one);
  if (property == "piece-of") return write_piece_of(one);
  if (property == "mark-on" || property == "label-on") return write_carrier(one);
  if (property == "made-not-before") {
    if (held("made") != nullptr || (!claiming_ && has_reckoned_making())) return;
    if (const auto from = part(one.rule, *one.statement); !from.empty())
      graph_.add(from, term::time_span, one.value);
    return;
  }
  if (property == "opened-by") {
    // Each starts no later than the other: they start together.
    graph_.add(name_, term::starts_no_later, one.value);
    graph_.add(name_, term::starts_no_sooner, one.value);
    return;
  }
  if (property == "pictured-in" || property == "seen-in" || property == "uncovered-in" ||
      property == "as-built-in") {
    const auto source = Uuid::parse(one.statement->content.value);
    const auto entry = source ? context_.look(*source) : std::nullopt;
    if (entry) graph_.add(name_, entry->is_picture() ? term::represented_by : term::documented_in, one.value);
  }
}

void RecordWriter::write_role(const Held& one, const std::string& act) {
  const std::string node = statement_name(one.statement->id, "role");
  graph_.type(node, "crm:PC14_carried_out_by");
  graph_.add(node, term::typed_domain, named(act));
  graph_.add(node, term::typed_range, one.value);
  graph_.add(node, term::in_role, type_node(context_, "act-role", one.rule.property));
}

/// An E16 holds its dimension true, as a measure that nobody contests is held.
void RecordWriter::write_measuring(const Held& one) {
  const Content& said = one.statement->content;
  const std::string node = statement_name(one.statement->id, "measuring");
  graph_.type(node, "crm:E16_Measurement");
  graph_.add(node, term::measured, named(name_));
  graph_.add(node, term::observed_dimension, one.value);
  if (said.author && context_.refer(*said.author))
    graph_.add(node, term::carried_out_by, named(record_name(*said.author)));
  if (!said.said_on.empty())
    graph_.add(node, term::time_span, named(statement_name(one.statement->id, "said")));
}

/// An outline of some years is the shape of the room in those years; one without years that of the space.
void RecordWriter::write_outline(const Held& one) {
  const Content& said = one.statement->content;
  const auto from = said.qualifier("from");
  const auto to = said.qualifier("to");
  if (from.empty() && to.empty()) return graph_.add(one.value, term::approximates, named(name_ + "-space"));
  const std::string shape = statement_name(one.statement->id, "shape");
  const std::string period = statement_name(one.statement->id, "period");
  graph_.type(shape, "crm:E93_Presence");
  graph_.add(shape, term::presence_of, named(name_));
  graph_.add(shape, term::spatial_projection, one.value);
  graph_.add(shape, term::temporally_specified, named(period));
  describe_period(graph_, period, from, to);
}

void RecordWriter::write_name(const Held& one) {
  graph_.add(name_, term::identified_by, one.value);
  const Content& said = one.statement->content;
  const auto from = said.qualifier("from");
  const auto to = said.qualifier("to");
  if (from.empty() && to.empty()) return;
  const std::string situation = statement_name(one.statement->id, "use");
  const std::string period = statement_name(one.statement->id, "period");
  graph_.type(situation, "crminf:I11_Situation");
  graph_.add(situation, term::situation_entity, named(name_));
  graph_.add(situation, term::situation_entity, one.value);
  graph_.add(situation, term::situation_property, named(property_name("name")));
  graph_.add(situation, term::held_for, named(period));
  if (const auto user = said.qualifier("used-by"); !user.empty())
    graph_.add(situation, term::note, words("used by " + std::string(user), "en"));
  describe_period(graph_, period, from, to);
}

void RecordWriter::write_within(const Held& one) {
  const auto outer = Uuid::parse(one.statement->content.value);
  const auto entry = outer ? context_.look(*outer) : std::nullopt;
  if (!entry || *outer == entry_.info.id) return;
  const bool section = entry_.is_section() && entry->is_built();
  graph_.add(name_, section ? term::section_of : term::forms_part_of, one.value);
  graph_.add(name_ + "-space", term::place_within, named(record_name(*outer, "space")));
}

void RecordWriter::write_standing(const Held& one) {
  const Content& said = one.statement->content;
  const auto place = Uuid::parse(said.value);
  const auto entry = place ? context_.look(*place) : std::nullopt;
  const auto role = said.qualifier("role");
  if (!entry || role == "serves") return;
  const bool constituent = !entry_.is_surface() && entry->is_built() && role != "passes through";
  if (constituent) graph_.add(name_, term::constituent_of, one.value);
  if (!constituent || role.empty() || role == "stands in")
    graph_.add(name_, term::location, named(record_name(*place, "space")));
}

void RecordWriter::write_condition(const Held& one) {
  const std::string assessment = statement_name(one.statement->id, "assessment");
  graph_.add(name_, term::condition, one.value);
  graph_.type(assessment, "crm:E14_Condition_Assessment");
  graph_.add(assessment, term::concerned, named(name_));
  graph_.add(assessment, term::identified_state, one.value);
  const auto on = one.statement->content.qualifier("on");
  if (on.empty()) return;
  const std::string span = statement_name(one.statement->id, "period");
  describe_span(graph_, span, on, on, Ends::both);
  graph_.add(assessment, term::time_span, named(span));
}

void RecordWriter::write_piece_of(const Held& one) {
  graph_.add(name_, term::forms_part_of, one.value);
  // P46i has no time. Where the last state known is not 'in place', a removal says that it no longer holds.
  const Statement* latest = nullptr;
  for (const Held& other : held_) {
    if (other.rule.property != "piece-state") continue;
    const bool later =
        latest == nullptr || other.statement->content.qualifier("on") >= latest->content.qualifier("on");
    if (later) latest = other.statement;
  }
  if (latest == nullptr || latest->content.value == "in place" ||
      latest->content.value == "not accounted for")
    return;
  const std::string removal = name_ + "-removal";
  graph_.type(removal, "crm:E80_Part_Removal");
  graph_.add(removal, term::diminished, one.value);
  graph_.add(removal, term::removed, named(name_));
}

void RecordWriter::write_carrier(const Held& one) {
  const auto carrier = Uuid::parse(one.statement->content.value);
  const auto entry = carrier ? context_.look(*carrier) : std::nullopt;
  if (entry) graph_.add(name_, entry->is_object() ? term::found_on : term::forms_part_of, one.value);
}

void RecordWriter::write_works_span() {
  const Held* began = held("works-began");
  const Held* ended = held("works-ended");
  if (began == nullptr && ended == nullptr) return;
  const std::string span = name_ + "-span";
  describe_period(graph_, span, began != nullptr ? edtf_of(began->statement->content) : std::string_view(),
                  ended != nullptr ? edtf_of(ended->statement->content) : std::string_view());
  graph_.add(name_, term::time_span, named(span));
}

}  // namespace lathbook::crm
