// The only source that knows Serd.
#include "plugins/crm/rdf_writer.hpp"

#include <serd/serd.h>

#include <array>
#include <cstdint>
#include <utility>

#include "core/base/error.hpp"
#include "plugins/crm/terms.hpp"

namespace lathbook::crm {

namespace {

constexpr std::array<std::pair<const char*, const char*>, 10> kModels{{
    {"rdf", "http://www.w3.org/1999/02/22-rdf-syntax-ns#"},
    {"rdfs", "http://www.w3.org/2000/01/rdf-schema#"},
    {"xsd", "http://www.w3.org/2001/XMLSchema#"},
    {"prov", "http://www.w3.org/ns/prov#"},
    {"crm", "http://www.cidoc-crm.org/cidoc-crm/"},
    {"crmsci", "http://www.cidoc-crm.org/extensions/crmsci/"},
    {"crmarchaeo", "http://www.cidoc-crm.org/extensions/crmarchaeo/"},
    {"crmba", "http://www.cidoc-crm.org/extensions/crmba/"},
    {"crminf", "http://www.cidoc-crm.org/extensions/crminf/"},
    {"crmdig", "http://www.cidoc-crm.org/extensions/crmdig/"},
}};
/// Prefixes of the archive's own names, and what follows the base.
constexpr std::array<std::pair<const char*, const char*>, 7> kOwn{{{"rec", "record/"},
                                                                   {"st", "statement/"},
                                                                   {"prop", "property/"},
                                                                   {"type", "type/"},
                                                                   {"passage", "passage/"},
                                                                   {"media", "media/"},
                                                                   {"set", "set/"}}};

const std::uint8_t* bytes(const std::string& text) {
  return reinterpret_cast<const std::uint8_t*>(text.c_str());
}

SerdNode node(SerdType type, const std::string& text) {
  return serd_node_from_string(type, bytes(text));
}

/// A name with a prefix is ASCII, so Serd need not count its characters.
SerdNode name_node(const std::string& curie) {
  return {bytes(curie), curie.size(), curie.size(), 0, SERD_CURIE};
}

SerdNode node(const Term& term) {
  switch (term.sort) {
    case Term::Sort::curie:
      return name_node(term.value);
    case Term::Sort::iri:
      return node(SERD_URI, term.value);
    case Term::Sort::literal:
      break;
  }
  return node(SERD_LITERAL, term.value);
}

std::size_t write_bytes(const void* buffer, std::size_t length, void* stream) {
  auto& out = *static_cast<std::ostream*>(stream);
  out.write(static_cast<const char*>(buffer), static_cast<std::streamsize>(length));
  return out.good() ? length : 0;
}

}  // namespace

struct RdfWriter::Inside {
  std::ostream& out;
  SerdEnv* env = nullptr;
  SerdWriter* writer = nullptr;
  std::string problem;

  explicit Inside(std::ostream& stream) : out(stream) {}
  ~Inside() {
    if (writer != nullptr) serd_writer_free(writer);
    if (env != nullptr) serd_env_free(env);
  }

  static SerdStatus on_error(void* handle, const SerdError* error) {
    static_cast<Inside*>(handle)->problem = reinterpret_cast<const char*>(serd_strerror(error->status));
    return SERD_SUCCESS;
  }
  void prefix(const std::string& name, const std::string& iri) {
    const SerdNode n = node(SERD_LITERAL, name);
    const SerdNode u = node(SERD_URI, iri);
    check(serd_writer_set_prefix(writer, &n, &u), name);
  }
  void check(SerdStatus status, const std::string& where) const {
    if (!out.good()) fail(ErrorKind::io, "the linked data cannot be written: the output takes no more bytes");
    if (status != SERD_SUCCESS || !problem.empty())
      fail(ErrorKind::invalid,
           "the linked data of " + where + " cannot be written: " +
               (problem.empty() ? reinterpret_cast<const char*>(serd_strerror(status)) : problem));
  }
};

RdfWriter::RdfWriter(std::ostream& out, Syntax syntax, const std::string& base)
    : inside_(std::make_unique<Inside>(out)) {
  inside_->env = serd_env_new(nullptr);
  const bool plain = syntax == Syntax::ntriples;
  const unsigned style = plain ? SERD_STYLE_BULK : SERD_STYLE_ABBREVIATED | SERD_STYLE_BULK;
  inside_->writer =
      serd_writer_new(plain                    ? SERD_NTRIPLES
                      : syntax == Syntax::trig ? SERD_TRIG
                                               : SERD_TURTLE,
                      static_cast<SerdStyle>(style), inside_->env, nullptr, write_bytes, &inside_->out);
  if (inside_->env == nullptr || inside_->writer == nullptr)
    fail(ErrorKind::io, "the linked data cannot be written: no memory for the writer");
  serd_writer_set_error_sink(inside_->writer, Inside::on_error, inside_.get());
  for (const auto& [name, iri] : kModels) inside_->prefix(name, iri);
  for (const auto& [name, rest] : kOwn) inside_->prefix(name, base + rest);
}

RdfWriter::~RdfWriter() = default;

void RdfWriter::write(const Graph& graph) {
  static const std::string rdf_type = "http://www.w3.org/1999/02/22-rdf-syntax-ns#type";
  const SerdNode type = node(SERD_URI, rdf_type);
  for (const Graph::Block& block : graph.blocks()) {
    const SerdNode subject = node(block.subject);
    const SerdNode name = block.graph.empty() ? SERD_NODE_NULL : name_node(block.graph);
    const SerdNode* graph_name = block.graph.empty() ? nullptr : &name;
    for (const auto& [predicate, object] : block.pairs) {
      const SerdNode verb = predicate == term::type ? type : name_node(predicate);
      const SerdNode value = node(object);
      const SerdNode datatype = object.datatype.empty() ? SERD_NODE_NULL : name_node(object.datatype);
      const SerdNode language =
          object.language.empty() ? SERD_NODE_NULL : node(SERD_LITERAL, object.language);
      inside_->check(serd_writer_write_statement(inside_->writer, 0, graph_name, &subject, &verb, &value,
                                                 &datatype, &language),
                     block.subject.value);
    }
  }
}

void RdfWriter::finish() {
  inside_->check(serd_writer_finish(inside_->writer), "the last record");
  inside_->out.flush();
  inside_->check(SERD_SUCCESS, "the last record");
}

}  // namespace lathbook::crm
