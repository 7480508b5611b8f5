// Writes triples as Turtle, N-Triples or TriG; the only door to Serd.
#pragma once

#include <memory>
#include <ostream>
#include <string>

#include "plugins/crm/graph.hpp"

namespace lathbook::crm {

/// Turtle and N-Triples have one graph; TriG (W3C 2014) has the default graph and named ones.
enum class Syntax { turtle, ntriples, trig };

/// Streams: holds nothing back but the subject and predicate in hand. The stream outlives the writer.
/// Throws Error(io) when the stream refuses, Error(invalid) when a term cannot be written.
class RdfWriter {
public:
  /// `base` is where the archive's own names begin; it ends in '/' or '#'.
  RdfWriter(std::ostream& out, Syntax syntax, const std::string& base);
  ~RdfWriter();
  RdfWriter(const RdfWriter&) = delete;
  RdfWriter& operator=(const RdfWriter&) = delete;

  void write(const Graph& graph);
  /// Ends the last sentence. Without it the output is incomplete.
  void finish();

private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace lathbook::crm
