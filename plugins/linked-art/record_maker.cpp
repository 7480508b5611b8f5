// Puts the document of one record together.
#include "plugins/linked-art/record_maker.hpp"

#include <algorithm>

#include "core/view/addresses.hpp"
#include "core/view/outline.hpp"
#include "core/view/record_view.hpp"
#include "core/view/words.hpp"
#include "plugins/linked-art/held.hpp"
#include "plugins/linked-art/terms.hpp"

namespace lathbook::linked_art {

namespace {

constexpr const char* kContext = "https://linked.art/ns/v1/linked-art.json";

Node act(const char* type) {
  Node node;
  node.set("type", type);
  return node;
}

}  // namespace

RecordMaker::RecordMaker(Context& context, Entry entry) : context_(context), entry_(std::move(entry)) {}

void RecordMaker::head(Node& node, const std::string& id, std::string_view type,
                       const std::string& label) const {
  node.set("@context", kContext);
  node.set("id", id);
  node.set("type", type);
  node.set("_label", label);
}

void RecordMaker::read() {
  Query query;
  query.subject = entry_.info.id;
  query.current_only = false;
  context_.reader.each_statement(query, [&](const Statement& statement) {
    const bool shown = statement.presence == Presence::present && statement.content.act == Act::state &&
                       Registry::standard().find(statement.content.property) != nullptr;
    if (shown) statements_.push_back(statement);
    return true;
  });
  held_ = decide_held(context_, statements_);
}

Node RecordMaker::make(bool whole, Beside& beside) {
  beside_ = &beside;
  const std::string id = record_address(context_.base, entry_.info.id);
  const std::string label = display(entry_.info);
  head(node_, id, type_word(entry_.shape), label);
  if (entry_.built) head(place_, id + "-space", "Place", label);
  Content called;
  called.value = entry_.info.name.empty() ? label : entry_.info.name;
  add_name(called, true);
  if (whole) {
    read();
    for (std::size_t at = 0; at < statements_.size(); ++at)
      say(statements_[at], *Registry::standard().find(statements_[at].content.property), held_[at]);
    say_what_others_say();
  }
  finish();
  return std::move(node_);
}

void RecordMaker::say(const Statement& statement, const Property& property, bool held) {
  const Rule rule = rule_of(property);
  if (rule.how == How::clerical) return;
  if (held) say_plainly(statement, property, rule);
  if (statement.content.confidence != Confidence::none) attribute(statement, property, rule);
}

void RecordMaker::say_plainly(const Statement& statement, const Property& property, const Rule& rule) {
  if (say_in_form(statement, property, rule)) return;
  say_in_words(statement.content, property, rule.how == How::bare_prose);
}

bool RecordMaker::say_in_form(const Statement& statement, const Property& property, const Rule& rule) {
  const Content& said = statement.content;
  switch (rule.how) {
    case How::type:
      node_.add("classified_as",
                context_.own_type(property.type == ValueType::choice ? property.choices : property.name,
                                  said.value));
      if (said.value == "building")
        node_.add("classified_as", context_.public_type(aat::building, "buildings (structures)"));
      if (said.value == "photograph")
        node_.add("classified_as", context_.public_type(aat::photograph, "photographs"));
      if (said.value == "plan sheet")
        node_.add("classified_as",
                  context_.public_type(aat::drawing, "architectural drawings (visual works)"));
      return true;
    case How::address: {
      Node kind;
      kind.set("id", said.value);
      kind.set("type", "Type");
      kind.set("_label", said.value);
      node_.add("classified_as", std::move(kind));
      return true;
    }
    case How::name:
      add_name(said, false);
      return true;
    case How::code: {
      Node code = act("Identifier");
      code.add("classified_as", context_.public_type(aat::local_number, "local number"));
      code.set("content", said.value);
      node_.add("identified_by", std::move(code));
      return true;
    }
    case How::page: {
      Node point;
      point.set("id", said.value);
      point.set("type", "DigitalObject");
      Node page = act("DigitalObject");
      page.add("access_point", std::move(point));
      Node text = act("LinguisticObject");
      text.set("_label", said.value);
      text.add("digitally_carried_by", std::move(page));
      node_.add("subject_of", std::move(text));
      return true;
    }
    case How::place: {
      const auto outer = Uuid::parse(said.value);
      const auto entry = outer ? context_.look(*outer) : std::nullopt;
      if (!entry) return false;
      if (property.name == "stands-in") return say_of_object(said, rule);
      const auto space = context_.reference(*outer, true);
      if (space) (entry_.built ? place_ : node_).add("part_of", *space);
      if (entry_.shape == Shape::object && entry->shape == Shape::object) {
        const auto object = context_.reference(*outer);
        return object && node_.set("part_of", *object);
      }
      return space.has_value();
    }
    case How::outline: {
      if (!said.qualifier("from").empty() || !said.qualifier("to").empty()) return false;
      (entry_.built ? place_ : node_).set("defined_by", well_known_text(said.value));
      return true;
    }
    default:
      break;
  }
  if (entry_.shape == Shape::object) {
    if (rule.how == How::measure) return add_measure(said, property);
    return say_of_object(said, rule);
  }
  if (entry_.shape == Shape::activity || entry_.shape == Shape::period) return say_of_activity(said, rule);
  if (entry_.shape == Shape::image || entry_.shape == Shape::text) return say_of_sign(statement, rule);
  return entry_.shape == Shape::person && say_of_person(said, rule);
}

void RecordMaker::say_in_words(const Content& said, const Property& property, bool bare) {
  std::string text = said.value;
  if (property.type == ValueType::record) {
    const auto other = Uuid::parse(said.value);
    const auto entry = other ? context_.look(*other) : std::nullopt;
    if (!entry) return;
    text = display(entry->info);
  }
  if (property.type == ValueType::statement) return;
  if (!bare) text = property.label + ": " + text;
  if (const auto details = details_in_words(said); !details.empty()) text += " (" + details + ")";
  struct Sort {
    std::string_view property;
    const char* id;
    const char* label;
  };
  static constexpr Sort sorts[] = {{"description", aat::description, "description"},
                                   {"condition", aat::condition, "condition statement"},
                                   {"dimension", aat::dimensions, "dimensions statement"},
                                   {"material", aat::materials, "materials statement"},
                                   {"transcription", aat::markings, "markings statement"}};
  const auto* sort = std::find_if(std::begin(sorts), std::end(sorts),
                                  [&](const Sort& one) { return one.property == property.name; });
  const bool known = sort != std::end(sorts);
  node_.add("referred_to_by",
            context_.prose(text, known ? sort->id : aat::note, known ? sort->label : "note", said.language));
  ++in_words_;
}

void RecordMaker::add_name(const Content& said, bool primary) {
  if (!primary && said.value == primary_ && said.qualifiers.empty()) return;
  Node name = act("Name");
  name.add("classified_as", primary ? context_.public_type(aat::primary_name, "primary name")
                                    : context_.public_type(aat::alternate_name, "alternate name"));
  name.set("content", said.value);
  const std::string code(said.language.empty() ? said.qualifier("language") : said.language);
  if (!code.empty()) name.add("language", context_.language(code));
  if (const auto details = details_in_words(said); !details.empty())
    name.add("referred_to_by", context_.prose(details, aat::note, "note"));
  if (primary) primary_ = said.value;
  node_.add("identified_by", name);
  if (entry_.built) place_.add("identified_by", std::move(name));
}

void RecordMaker::finish() {
  if (production_.has("type")) node_.set("produced_by", std::move(production_));
  if (creation_.has("type")) node_.set("created_by", std::move(creation_));
  // What was removed left what it had been a part of.
  if (const Node* whole = node_.get("part_of"); whole != nullptr && removal_.has("type"))
    removal_.set("diminished", *whole);
  if (removal_.has("type")) node_.add("removed_by", std::move(removal_));
  if (activity_.has("type")) node_.add("used_for", std::move(activity_));
  if (!began_.empty() || !ended_.empty()) node_.set("timespan", time_span_between(began_, ended_));
  if (!entry_.built) return;
  Node space;
  space.set("id", record_address(context_.base, entry_.info.id) + "-space");
  space.set("type", "Place");
  space.set("_label", display(entry_.info));
  node_.set("current_location", std::move(space));
  beside_->place = std::move(place_);
}

}  // namespace lathbook::linked_art
