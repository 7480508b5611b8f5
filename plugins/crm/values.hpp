// The node that a statement's value becomes: a date a time-span, a measure a dimension, words a text.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "plugins/crm/context.hpp"
#include "plugins/crm/mapping.hpp"

namespace lathbook::crm {

/// Writes the node into the graph and gives its name; nothing when the value names a record or statement
/// that this reading does not show, or cannot be read (the registry's rules exclude the latter).
std::optional<Term> value_node(Context& context, const Statement& statement, const Property& property,
                               Form form);

/// A term of a list or of free words, shared by all that use it, with its class and label.
Term type_node(Context& context, std::string_view list, std::string_view text,
               std::string_view class_name = "crm:E55_Type");

/// Which bounds of a date a time-span is given.
enum class Ends { both, lower, upper };
/// Describes `name` as an E52: outer bounds of the EDTF text, its doubts, and the words it came from.
void describe_span(Graph& graph, const std::string& name, std::string_view edtf, std::string_view as_typed,
                   Ends ends);
/// The days between which something began and ended, each as far as it is known.
struct Days {
  std::optional<Day> first_begin, last_begin, first_end, last_end;
};
/// Describes `name` as an E52: P82 from the outer bounds; P81 from the inner ones, when both are known and
/// leave a time of which it is sure that the thing went on.
void describe_days(Graph& graph, const std::string& name, const Days& days);
/// Describes `name` as the E52 of something that went on from one date to another: outer and inner bounds.
void describe_period(Graph& graph, const std::string& name, std::string_view from, std::string_view to);

/// "1924-06-12T00:00:00Z", or the last second of the day; xsd:dateTime.
Term first_moment(Day day);
Term last_moment(Day day);

}  // namespace lathbook::crm
