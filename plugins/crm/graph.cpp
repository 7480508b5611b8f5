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

bool Graph::said_by_default(const std::string& subject, std::string_view predicate,
                            const Term& object) const {
  const auto place = places_.find(subject);
  return place != places_.end() && holds(blocks_[place->second].pairs, predicate, object);
}

std::string Graph::place_in_open(const std::string& subject) const {
  return open_ + '\n' + subject;
}

bool Graph::has(const std::string& subject) const {
  return places_.count(open_.empty() ? subject : place_in_open(subject)) != 0;
}

Graph::Block& Graph::block_of(Term::Sort sort, const std::string& subject) {
  constexpr std::size_t usual = 8;
  const std::string own = open_.empty() ? std::string() : place_in_open(subject);
  const std::string& place = open_.empty() ? subject : own;
  if (const auto found = places_.find(place); found != places_.end()) return blocks_[found->second];
  places_.emplace(place, blocks_.size());
  blocks_.push_back({{sort, subject, {}, {}}, {}, open_});
  blocks_.back().pairs.reserve(usual);
  return blocks_.back();
}

void Graph::add_to(Term::Sort sort, const std::string& subject, std::string_view predicate, Term object) {
  if (!open_.empty() && said_by_default(subject, predicate, object)) return;
  auto& pairs = block_of(sort, subject).pairs;
  if (pairs.size() >= kSearched || !holds(pairs, predicate, object))
    pairs.emplace_back(predicate, std::move(object));
}

void Graph::add(const Term& subject, std::string_view predicate, Term object) {
  add_to(subject.sort, subject.value, predicate, std::move(object));
}

void Graph::add(const std::string& subject, std::string_view predicate, Term object) {
  add_to(Term::Sort::curie, subject, predicate, std::move(object));
}

void Graph::type(const std::string& subject, std::string_view class_name) {
  add(subject, term::type, named(std::string(class_name)));
}

void Graph::clear() {
  blocks_.clear();
  places_.clear();
}

}  // namespace lathbook::crm
