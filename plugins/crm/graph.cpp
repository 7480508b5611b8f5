// Gathers the triples of one record.
#include "plugins/crm/graph.hpp"

#include <algorithm>

#include "core/view/addresses.hpp"
#include "plugins/crm/terms.hpp"

namespace lathbook::crm {

namespace {

/// A repeated triple changes nothing in RDF, so a very long block is not searched for repetitions.
constexpr std::size_t kSearched = 128;

}  // namespace

Term named(std::string curie) {
  return {Term::Sort::curie, std::move(curie), {}, {}};
}

Term address(std::string_view iri) {
  return {Term::Sort::iri, encode_address(iri), {}, {}};
}

Term words(std::string text, std::string language) {
  return {Term::Sort::literal, std::move(text), {}, std::move(language)};
}

Term typed(std::string text, std::string datatype) {
  return {Term::Sort::literal, std::move(text), std::move(datatype), {}};
}

void Graph::add(const Term& subject, std::string_view predicate, Term object) {
  const auto [place, fresh] = places_.try_emplace(subject.value, blocks_.size());
  if (fresh) blocks_.push_back({subject, {}});
  auto& pairs = blocks_[place->second].pairs;
  const bool known =
      pairs.size() < kSearched && std::any_of(pairs.begin(), pairs.end(), [&](const Pair& pair) {
        return pair.first == predicate && pair.second == object;
      });
  if (!known) pairs.emplace_back(predicate, std::move(object));
}

void Graph::add(const std::string& subject, std::string_view predicate, Term object) {
  add(named(subject), predicate, std::move(object));
}

void Graph::type(const std::string& subject, std::string_view class_name) {
  add(named(subject), term::type, named(std::string(class_name)));
}

void Graph::clear() {
  blocks_.clear();
  places_.clear();
}

}  // namespace lathbook::crm
