// Says which statements compete in Linked Art.
#include "plugins/linked-art/held.hpp"

#include "core/view/held.hpp"

namespace lathbook::linked_art {

namespace {

/// The question that a statement answers, when it can have one answer only; else nothing.
std::optional<std::string> question(const Statement& statement) {
  const Content& said = statement.content;
  const Property* property = Registry::standard().find(said.property);
  if (property == nullptr) return std::nullopt;
  if (property->type == ValueType::date)
    return property->name + "#" + std::string(said.qualifier("placement"));
  if (property->type == ValueType::quantity) return property->name + "#" + std::string(said.qualifier("of"));
  // What was read is one text; several readings of it compete.
  if (!property->many || property->type == ValueType::transcription) return property->name;
  return std::nullopt;
}

}  // namespace

std::vector<bool> decide_held(const Context& context, const std::vector<Statement>& statements) {
  const auto counts = [&](const Statement& statement) {
    return context.ruled_aside.count(statement.id) == 0;
  };
  return held_among(statements, {counts, question, true});
}

}  // namespace lathbook::linked_art
