// Gathers the triples of one record.
#include "plugins/crm/graph.hpp"

#include <algorithm>

#include "core/view/addresses.hpp"
#include "plugins/crm/terms.hpp"

namespace lathbook::crm {

namespace {

/// A repeated triple changes nothing in RDF, so a very long block is not searched for repetitions.
constexpr std::size_t kSearched = 128;

bool holds(const std::vector<Graph::Pair>& pairs, std::string_view predicate, const Term& object) {
  return std::any_of(pairs.begin(), pairs.end(), [&](const Graph::Pair& pair) {
    return pair.first == predicate && pair.second == object;
  });
}

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

bool Graph::said_by_default(const Term& subject, std::string_view predicate, const Term& object) const {
  const auto place = places_.find(subject.value);
  return place != places_.end() && holds(blocks_[place->second].pairs, predicate, object);
}

void Graph::add(const Term& subject, std::string_view predicate, Term object) {
  if (!open_.empty() && said_by_default(subject, predicate, object)) return;
  const auto [place, fresh] = places_.try_emplace(place_name(subject.value), blocks_.size());
  if (fresh) blocks_.push_back({subject, {}, open_});
  auto& pairs = blocks_[place->second].pairs;
  if (pairs.size() >= kSearched || !holds(pairs, predicate, object))
    pairs.emplace_back(predicate, std::move(object));
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
