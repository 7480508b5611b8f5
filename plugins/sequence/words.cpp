// Sentences that several forms share.
#include <set>

#include "core/base/text.hpp"
#include "core/view/record_view.hpp"
#include "plugins/sequence/ink.hpp"
#include "plugins/sequence/write.hpp"

namespace lathbook::sequence {

namespace {

std::string counted(std::size_t number, const std::string& one, const std::string& many) {
  return (number == 0 ? "no" : std::to_string(number)) + " " + (number == 1 ? one : many);
}

std::string thing_words(const SequenceThing& thing) {
  return codes_of(thing) + " " + name_of(thing);
}

}  // namespace

std::string title_of(const Sequence& sequence) {
  if (sequence.scope.id == Uuid{}) return "Sequence of the whole archive";
  return "Sequence of " + display(sequence.scope);
}

std::string summary_of(const Sequence& sequence) {
  std::size_t orders = 0, redundant = 0, aside = 0;
  for (const SequenceRelation& relation : sequence.relations) {
    orders += relation.bond == SequenceBond::order && relation.kept ? 1 : 0;
    redundant += relation.redundant ? 1 : 0;
    aside += relation.kept ? 0 : 1;
  }
  const std::size_t lonely = alone(sequence).size();
  std::string words = counted(sequence.things.size(), "thing", "things") + ", " +
                      counted(orders, "relation of order", "relations of order");
  if (redundant > 0) words += " (" + std::to_string(redundant) + " of them said by the others already)";
  if (aside > 0) words += ", " + std::to_string(aside) + " more set aside";
  words += "; " + counted(sequence.loops.size(), "loop", "loops");
  if (lonely > 0) words += "; " + counted(lonely, "thing stands", "things stand") + " in no recorded order";
  words[0] = words[0] == 'n' ? 'N' : words[0];
  return words + ".";
}

std::vector<std::uint32_t> alone(const Sequence& sequence) {
  std::vector<std::size_t> size(sequence.chains, 0);
  for (const SequenceThing& thing : sequence.things) ++size[thing.chain];
  std::vector<std::uint32_t> lonely;
  for (std::uint32_t at = 0; at < sequence.things.size(); ++at)
    if (size[sequence.things[at].chain] == 1) lonely.push_back(at);
  return lonely;
}

std::vector<std::uint32_t> loop_statements(const Sequence& sequence, std::size_t number) {
  const SequenceLoop& loop = sequence.loops[number];
  std::vector<std::uint32_t> all = loop.shortest;
  const std::set<std::uint32_t> told(all.begin(), all.end());
  for (const std::uint32_t at : loop.relations)
    if (told.count(at) == 0) all.push_back(at);
  return all;
}

std::string loop_words(const Sequence& sequence, std::size_t number) {
  const SequenceLoop& loop = sequence.loops[number];
  std::string circle, others, things;
  std::size_t told = 0;
  for (const std::uint32_t at : loop_statements(sequence, number)) {
    const SequenceRelation& relation = sequence.relations[at];
    std::string& list = told++ < loop.shortest.size() ? circle : others;
    list += (list.empty() ? "" : "; ") + relation.words + (relation.kept ? "" : " (set aside)");
  }
  for (const std::uint32_t at : loop.things)
    things += (things.empty() ? "" : ", ") + thing_words(sequence.things[at]);
  return "These go round in a circle, so they cannot all be right: " + circle + "." +
         (others.empty() ? "" : " On a circle with them: " + others + ".") + " It takes in " + things + ".";
}

}  // namespace lathbook::sequence
