// Writes claims.
#include "plugins/crm/claims.hpp"

#include "core/base/clock.hpp"
#include "core/view/words.hpp"
#include "plugins/crm/names.hpp"
#include "plugins/crm/terms.hpp"
#include "plugins/crm/values.hpp"

namespace lathbook::crm {

namespace {

class Claim {
public:
  Claim(Context& context, const Statement& statement, const Property& property)
      : context_(context),
        graph_(context.graph),
        statement_(statement),
        said_(statement.content),
        property_(property),
        name_(statement_name(statement.id)) {}

  void write(const Term& value) {
    proposition(value);
    if (said_.confidence == Confidence::none) return;
    belief();
    const bool read = adoption();
    const bool concluded = inference();
    if (!read && !concluded) argue("argument", "crminf:I1_Argumentation");
  }

private:
  std::string part(const char* what) const { return statement_name(statement_.id, what); }

  void proposition(const Term& value) {
    graph_.type(name_, "crminf:I17_One-Proposition_Set");
    graph_.type(name_, "prov:Entity");
    graph_.add(name_, term::domain, named(record_name(said_.subject)));
    graph_.add(name_, term::property_type, named(property_name(property_.name)));
    graph_.add(name_, term::range, value);
    if (const auto details = details_in_words(said_); !details.empty())
      graph_.add(name_, term::note, words(details));
    if (!said_.why.empty()) graph_.add(name_, term::note, words(said_.why));
    if (said_.recorder && context_.refer(*said_.recorder)) {
      const std::string recorder = record_name(*said_.recorder);
      graph_.add(name_, term::attributed_to, named(recorder));
      if (context_.first(recorder + " records")) graph_.type(recorder, "prov:Agent");
    }
    graph_.add(name_, term::generated_at, typed(statement_.header.entered.text(), "xsd:dateTime"));
    for (const Digest& target : said_.targets)
      if (context_.writes(target)) graph_.add(name_, term::revision_of, named(statement_name(target)));
  }

  void belief() {
    const std::string node = part("belief");
    graph_.type(node, "crminf:I2_Belief");
    graph_.add(node, term::that, named(name_));
    graph_.add(node, term::holds, words(std::string(word(said_.confidence))));
    if (!statement_.current)
      graph_.add(node, term::has_type, type_node(context_, "standing", "replaced or withdrawn"));
    else if (context_.ruled_aside.count(statement_.id) != 0)
      graph_.add(node, term::has_type, type_node(context_, "standing", "set aside by a ruling"));
    else if (context_.is_set_aside(statement_.id))
      graph_.add(node, term::has_type,
                 type_node(context_, "standing", "in an open contradiction, left out of dates"));
  }

  /// What every argumentation has: conclusion, kind of evidence, who and when.
  std::string argue(const char* what, const char* class_name) {
    const std::string node = part(what);
    graph_.type(node, class_name);
    graph_.add(node, term::concluded, named(part("belief")));
    if (said_.evidence != EvidenceClass::none)
      graph_.add(node, term::has_type, type_node(context_, "evidence", word(said_.evidence)));
    if (said_.author && context_.refer(*said_.author))
      graph_.add(node, term::carried_out_by, named(record_name(*said_.author)));
    if (!said_.said_on.empty()) {
      describe_span(graph_, part("said"), said_.said_on, said_.said_on, Ends::both);
      graph_.add(node, term::time_span, named(part("said")));
    }
    return node;
  }

  bool adoption() {
    std::vector<Term> passages;
    for (const Citation& citation : said_.citations)
      if (auto passage = passage_of(citation)) passages.push_back(std::move(*passage));
    // A source vouches for its own title, date and so on.
    if (passages.empty() && said_.citations.empty() && property_.cites == Cites::self)
      if (const auto subject = context_.look(said_.subject); subject && subject->info.kind == Kind::source)
        passages.push_back(named(record_name(said_.subject)));
    if (passages.empty()) return false;
    const std::string node = argue("adoption", "crminf:I7_Belief_Adoption");
    for (Term& passage : passages) graph_.add(node, term::evidence_from, std::move(passage));
    return true;
  }

  std::optional<Term> passage_of(const Citation& citation) {
    if (!context_.refer(citation.source)) return std::nullopt;
    const Term source = named(record_name(citation.source));
    if (citation.locator.empty() && citation.quote.empty()) return source;
    const std::string node = passage_name(citation.source, citation.locator, citation.quote);
    if (context_.first(node)) {
      graph_.type(node, "crm:E73_Information_Object");
      graph_.add(node, term::part_of_text, source);
      if (!citation.locator.empty()) graph_.add(node, term::note, words(citation.locator));
      if (!citation.quote.empty()) graph_.add(node, term::content, words(citation.quote));
    }
    return named(node);
  }

  bool inference() {
    std::vector<Term> premises;
    for (const Digest& ground : said_.grounds)
      if (context_.is_premise(ground)) premises.push_back(named(statement_name(ground, "belief")));
    if (premises.empty()) return false;
    const std::string node = argue("inference", "crminf:I5_Inference_Making");
    for (Term& premise : premises) graph_.add(node, term::used_premise, std::move(premise));
    return true;
  }

  Context& context_;
  Graph& graph_;
  const Statement& statement_;
  const Content& said_;
  const Property& property_;
  const std::string name_;
};

}  // namespace

void write_claim(Context& context, const Statement& statement, const Property& property, const Term& value) {
  Claim(context, statement, property).write(value);
}

void write_withdrawal(Context& context, const Statement& withdrawal) {
  Graph& graph = context.graph;
  const std::string name = statement_name(withdrawal.id);
  const Content& said = withdrawal.content;
  bool told = false;
  for (const Digest& target : said.targets) {
    if (!context.writes(target)) continue;
    told = true;
    // A withdrawal that was itself taken back ends nothing.
    const std::string statement = statement_name(target);
    graph.add(statement, withdrawal.current ? term::invalidated_by : term::influenced_by, named(name));
    if (withdrawal.current)
      graph.add(statement, term::invalidated_at, typed(withdrawal.header.entered.text(), "xsd:dateTime"));
  }
  if (!told) return;
  graph.type(name, "prov:Activity");
  graph.add(name, term::label, words(std::string(word(said.act)), "en"));
  graph.add(name, term::ended_at, typed(withdrawal.header.entered.text(), "xsd:dateTime"));
  if (!said.why.empty()) graph.add(name, term::comment, words(said.why));
  if (said.recorder && context.refer(*said.recorder))
    graph.add(name, term::associated_with, named(record_name(*said.recorder)));
}

}  // namespace lathbook::crm
