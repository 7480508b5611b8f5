// Terms of a triple, and the triples of one record gathered by subject before they are written.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

namespace lathbook::crm {

/// A name with a prefix ("crm:E22_Human-Made_Object"), a whole web address, or words.
struct Term {
  enum class Sort { curie, iri, literal };
  Sort sort = Sort::curie;
  std::string value;
  std::string datatype;  ///< a name with a prefix; of a literal only
  std::string language;  ///< of a literal only
  bool operator==(const Term&) const = default;
};

Term named(std::string curie);
/// Bytes that no IRI may hold (RFC 3987 and the IRIREF rule of Turtle) come out percent-encoded.
Term address(std::string_view iri);
Term words(std::string text, std::string language = {});
Term typed(std::string text, std::string datatype);

/// Triples in the order of their subjects' first mention, a triple once. Emptied for each record. Triples go
/// to the default graph, or to the named one that is open; what the default graph has is not said again in
/// a named one.
class Graph {
public:
  using Pair = std::pair<std::string, Term>;  // predicate and object
  struct Block {
    Term subject;
    std::vector<Pair> pairs;
    std::string graph;  ///< name with a prefix; empty for the default graph
  };

  void add(const Term& subject, std::string_view predicate, Term object);
  void add(const std::string& subject, std::string_view predicate, Term object);
  void type(const std::string& subject, std::string_view class_name);
  /// Whether something is said of the subject in the graph that is open.
  bool has(const std::string& subject) const;
  /// What is added from now on belongs to this graph; empty = the default graph. Gives the one before.
  std::string open(std::string name) { return std::exchange(open_, std::move(name)); }
  const std::vector<Block>& blocks() const { return blocks_; }
  void clear();

private:
  /// Where a subject is found in `places_` while a named graph is open.
  std::string place_in_open(const std::string& subject) const;
  Block& block_of(Term::Sort sort, const std::string& subject);
  void add_to(Term::Sort sort, const std::string& subject, std::string_view predicate, Term object);
  bool said_by_default(const std::string& subject, std::string_view predicate, const Term& object) const;

  std::vector<Block> blocks_;
  std::unordered_map<std::string, std::size_t> places_;
  std::string open_;
};

}  // namespace lathbook::crm
