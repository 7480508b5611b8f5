// Decides what is held.
#include "core/view/held.hpp"

#include <map>

#include "core/view/record_view.hpp"

namespace lathbook {

namespace {

bool suffices(Confidence confidence, bool probable_suffices) {
  switch (confidence) {
    case Confidence::none:
    case Confidence::certain:
      return true;
    case Confidence::probable:
      return probable_suffices;
    case Confidence::possible:
    case Confidence::conjecture:
      break;
  }
  return false;
}

}  // namespace

std::vector<bool> held_among(const std::vector<Statement>& statements, const HeldRules& rules) {
  struct Voice {
    bool counts = false;
    std::optional<std::string> question;
  };
  std::vector<Voice> voices;
  std::map<std::string, std::set<std::string>> answers;
  for (const Statement& statement : statements) {
    Voice voice;
    voice.counts = statement.current && statement.presence == Presence::present && rules.counts(statement);
    if (voice.counts) voice.question = rules.question(statement);
    if (voice.question) answers[*voice.question].emplace(edtf_of(statement.content));
    voices.push_back(std::move(voice));
  }
  std::vector<bool> held;
  for (std::size_t at = 0; at < statements.size(); ++at) {
    const Voice& voice = voices[at];
    held.push_back(voice.counts && suffices(statements[at].content.confidence, rules.probable_suffices) &&
                   (!voice.question || answers.at(*voice.question).size() == 1));
  }
  return held;
}

std::set<Digest> ruled_aside(const StatementReader& reader) {
  Query query;
  query.properties = {Registry::standard().named("set-aside").id};
  std::set<Digest> aside;
  reader.each_statement(query, [&](const Statement& ruling) {
    if (ruling.presence == Presence::present)
      if (const auto id = Digest::from_hex(ruling.content.value)) aside.insert(*id);
    return true;
  });
  return aside;
}

}  // namespace lathbook
