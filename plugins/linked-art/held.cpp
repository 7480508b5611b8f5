// Decides what is held.
#include "plugins/linked-art/held.hpp"

#include <map>
#include <set>
#include <utility>

#include "core/view/record_view.hpp"

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

bool trusted(Confidence confidence) {
  return confidence != Confidence::possible && confidence != Confidence::conjecture;
}

}  // namespace

std::vector<bool> decide_held(const Context& context, const std::vector<Statement>& statements) {
  const auto counts = [&](const Statement& statement) {
    return statement.current && context.ruled_aside.count(statement.id) == 0;
  };
  std::map<std::string, std::set<std::string>> answers;
  for (const Statement& statement : statements)
    if (const auto asked = question(statement); asked && counts(statement))
      answers[*asked].insert(std::string(edtf_of(statement.content)));
  std::vector<bool> held;
  for (const Statement& statement : statements) {
    const auto asked = question(statement);
    held.push_back(counts(statement) && trusted(statement.content.confidence) &&
                   (!asked || answers.at(*asked).size() == 1));
  }
  return held;
}

}  // namespace lathbook::linked_art
