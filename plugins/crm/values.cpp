// Makes the nodes of values.
#include "plugins/crm/values.hpp"

#include "core/view/measure.hpp"
#include "core/view/outline.hpp"
#include "core/view/record_view.hpp"
#include "plugins/crm/names.hpp"
#include "plugins/crm/terms.hpp"

namespace lathbook::crm {

namespace {

/// Makes one node; the members are what every form needs.
class Maker {
public:
  Maker(Context& context, const Statement& statement, const Property& property)
      : context_(context),
        graph_(context.graph),
        statement_(statement),
        said_(statement.content),
        property_(property) {}

  std::optional<Term> make(Form form) {
    switch (form) {
      case Form::words:
        return text("crm:E33_Linguistic_Object", "value");
      case Form::name:
        return name();
      case Form::title:
        return text("crm:E35_Title", "value");
      case Form::identifier:
        return text("crm:E42_Identifier", "value");
      case Form::record:
        return record(false);
      case Form::space:
        return record(true);
      case Form::span:
        return span(Ends::both);
      case Form::lower:
        return span(Ends::lower);
      case Form::upper:
        return span(Ends::upper);
      case Form::type:
        return type_node(context_, list_name(), said_.value);
      case Form::material:
        return type_node(context_, "material", said_.value, "crm:E57_Material");
      case Form::keeper:
        return type_node(context_, "keeper", said_.value, "crm:E39_Actor");
      case Form::town:
        return type_node(context_, "town", said_.value, "crm:E53_Place");
      case Form::dimension:
        return dimension();
      case Form::spot:
        return labelled("crm:E53_Place");
      case Form::condition:
        return condition();
      case Form::outline:
        return outline();
      case Form::file:
        return file();
      case Form::right:
        return at_address("crm:E30_Right");
      case Form::page:
        return at_address("crm:E73_Information_Object");
      case Form::concept_:
        return at_address("crm:E55_Type");
      case Form::statement:
        return other_statement();
    }
    return std::nullopt;
  }

private:
  std::string own(std::string_view part) const { return statement_name(statement_.id, part); }

  std::string list_name() const {
    return property_.type == ValueType::choice ? property_.choices : property_.name;
  }

  Term text(const char* class_name, std::string_view part) {
    const std::string node = own(part);
    graph_.type(node, class_name);
    graph_.add(node, term::content, words(said_.value, said_.language));
    return named(node);
  }

  Term name() {
    const Term node = text("crm:E33_E41_Linguistic_Appellation", "value");
    const std::string language(said_.language.empty() ? said_.qualifier("language") : said_.language);
    if (!language.empty())
      graph_.add(node, term::language, type_node(context_, "language", language, "crm:E56_Language"));
    if (const auto sort = said_.qualifier("sort"); !sort.empty())
      graph_.add(node, term::has_type, type_node(context_, "name-sort", sort));
    return node;
  }

  Term labelled(const char* class_name) {
    const std::string node = own("value");
    graph_.type(node, class_name);
    graph_.add(node, term::label, words(said_.value, said_.language));
    return named(node);
  }

  std::optional<Term> record(bool space) {
    const auto id = Uuid::parse(said_.value);
    const auto entry = id ? context_.refer(*id) : std::nullopt;
    if (!entry) return std::nullopt;
    const bool has_space = entry->info.kind == Kind::place || entry->info.kind == Kind::container;
    return named(record_name(*id, space && has_space ? "space" : ""));
  }

  Term span(Ends ends) {
    const std::string node = own("span");
    describe_span(graph_, node, edtf_of(said_), said_.value, ends);
    return named(node);
  }

  std::optional<Term> dimension() {
    auto measure = read_measure(said_.value);
    if (property_.type != ValueType::quantity) {
      const char* unit = property_.name == "hours" ? "hours" : property_.name == "count" ? "pieces" : "years";
      measure = Measure{said_.value, unit};
    }
    if (!measure) return std::nullopt;
    const std::string node = own("value");
    graph_.type(node, "crm:E54_Dimension");
    graph_.add(node, term::value, typed(measure->number, "xsd:decimal"));
    graph_.add(node, term::unit, type_node(context_, "unit", measure->unit, "crm:E58_Measurement_Unit"));
    const auto of = said_.qualifier("of");
    graph_.add(node, term::has_type, type_node(context_, "dimension", of.empty() ? property_.label : of));
    if (property_.type == ValueType::quantity) graph_.add(node, term::label, words(said_.value));
    return named(node);
  }

  Term condition() {
    const std::string node = own("value");
    graph_.type(node, "crm:E3_Condition_State");
    graph_.add(node, term::has_type, type_node(context_, "condition", "condition in words"));
    graph_.add(node, term::note, words(said_.value, said_.language));
    return named(node);
  }

  Term outline() {
    const std::string node = own("value");
    graph_.type(node, "crm:E53_Place");
    graph_.add(node, term::defined_by, words(well_known_text(said_.value)));
    graph_.add(node, term::has_type, type_node(context_, "coordinates", "building coordinates in metres"));
    return named(node);
  }

  Term file() {
    const std::string node = media_name(said_.value);
    graph_.type(node, "crmdig:D1_Digital_Object");
    if (const auto file_name = said_.qualifier("file-name"); !file_name.empty())
      graph_.add(node, term::label, words(std::string(file_name)));
    graph_.add(node, term::note, words("SHA-256 " + said_.value));
    if (const auto sort = said_.qualifier("media-type"); !sort.empty())
      graph_.add(node, term::has_type, type_node(context_, "media-type", sort));
    return named(node);
  }

  Term at_address(const char* class_name) {
    const Term node = address(said_.value);
    graph_.add(node, term::type, named(class_name));
    graph_.add(node, term::label, words(said_.value));
    return node;
  }

  std::optional<Term> other_statement() {
    const auto id = Digest::from_hex(said_.value);
    if (!id || !context_.writes(*id)) return std::nullopt;
    return named(statement_name(*id));
  }

  Context& context_;
  Graph& graph_;
  const Statement& statement_;
  const Content& said_;
  const Property& property_;
};

}  // namespace

std::optional<Term> value_node(Context& context, const Statement& statement, const Property& property,
                               Form form) {
  return Maker(context, statement, property).make(form);
}

Term type_node(Context& context, std::string_view list, std::string_view text, std::string_view class_name) {
  const std::string node = type_name(list, text);
  if (context.first(node)) {
    // Shared by all: never in the graph of one claim.
    const std::string before = context.graph.open({});
    context.graph.type(node, class_name);
    context.graph.add(node, term::label, words(std::string(text)));
    context.graph.open(before);
  }
  return named(node);
}

}  // namespace lathbook::crm
