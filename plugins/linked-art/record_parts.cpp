// The parts of a record's document that depend on what it is: an object, an activity, a sign, a person.
#include "core/view/addresses.hpp"
#include "core/view/measure.hpp"
#include "core/view/record_view.hpp"
#include "plugins/linked-art/held.hpp"
#include "plugins/linked-art/record_maker.hpp"
#include "plugins/linked-art/terms.hpp"

namespace lathbook::linked_art {

namespace {

Node typed(const char* type) {
  Node node;
  node.set("type", type);
  return node;
}

/// Units of which the thesaurus's number was found published (linked.art 1.0, vocabulary labels).
struct Unit {
  std::string_view word;
  const char* id;
  const char* label;
};
constexpr Unit kUnits[] = {{"mm", "300379097", "millimeters"},
                           {"cm", "300379098", "centimeters"},
                           {"m", "300379099", "meters"},
                           {"in", "300379100", "inches"},
                           {"ft", "300379101", "feet"}};
constexpr Unit kDimensions[] = {
    {"height", "300055644", "height"},       {"width", "300055647", "width"},
    {"depth", "300072633", "depth"},         {"length", "300055645", "length"},
    {"thickness", "300055646", "thickness"}, {"diameter", "300055624", "diameter"}};

template <std::size_t count>
const Unit* find(const Unit (&table)[count], std::string_view word) {
  for (const Unit& unit : table)
    if (unit.word == word) return &unit;
  return nullptr;
}

}  // namespace

std::optional<Node> RecordMaker::measure_of(const Content& said, const Property& property) {
  const auto measure = read_measure(said.value);
  if (!measure) return std::nullopt;
  Node node = typed("Dimension");
  node.set("_label", said.value);
  node.set("value", Node::number(std::stod(measure->number)));
  if (const Unit* unit = find(kUnits, measure->unit)) {
    Node public_unit;
    public_unit.set("id", std::string("http://vocab.getty.edu/aat/") + unit->id);
    public_unit.set("type", "MeasurementUnit");
    public_unit.set("_label", unit->label);
    node.set("unit", std::move(public_unit));
  } else {
    node.set("unit", context_.own_type("unit", measure->unit, "MeasurementUnit"));
  }
  const std::string of(said.qualifier("of").empty() ? property.label : said.qualifier("of"));
  const Unit* known = find(kDimensions, of);
  node.add("classified_as", known != nullptr ? context_.public_type(known->id, known->label)
                                             : context_.own_type("dimension", of));
  return node;
}

bool RecordMaker::add_measure(const Content& said, const Property& property) {
  auto measure = measure_of(said, property);
  if (!measure) return false;
  node_.add("dimension", std::move(*measure));
  return true;
}

bool RecordMaker::say_of_object(const Content& said, const Rule& rule) {
  const auto other = [&]() -> std::optional<Node> {
    const auto id = Uuid::parse(said.value);
    const auto entry = id ? context_.look(*id) : std::nullopt;
    return entry && entry->shape == Shape::object ? context_.reference(*id) : std::nullopt;
  };
  const auto role = said.qualifier("role");
  const auto during = [&](Node& node) {
    const auto id = Uuid::parse(said.value);
    const auto occasion = id ? context_.reference(*id) : std::nullopt;
    if (!occasion) return false;
    const bool period = context_.look(*id)->shape == Shape::period;
    if (period)
      node.add("during", *occasion);
    else
      return node.set("part_of", *occasion);
    return true;
  };
  const auto installing = [&] {
    activity_.set("type", "Activity");
    activity_.add("classified_as", context_.own_type("event-type", "installed"));
  };
  switch (rule.how) {
    case How::material:
      node_.add("made_of", context_.own_type("material", said.value, "Material"));
      return true;
    case How::whole:
    case How::place: {
      const bool part =
          rule.property != "stands-in" || role.empty() || role == "stands in" || role == "bounds";
      const auto object = part ? other() : std::nullopt;
      return object && node_.set("part_of", *object);
    }
    case How::support: {
      const auto object = other();
      return object && node_.set("held_or_supported_by", *object);
    }
    case How::made: {
      Node span = rule.property == "made" ? time_span(edtf_of(said), said.value)
                                          : time_span_between(edtf_of(said), {});
      production_.set("type", "Production");
      return production_.set("timespan", std::move(span));
    }
    case How::installed:
      installing();
      return activity_.set("timespan", time_span(edtf_of(said), said.value));
    case How::removed:
      removal_.set("type", "PartRemoval");
      return removal_.set("timespan", time_span(edtf_of(said), said.value));
    case How::began:
      installing();
      return during(activity_);
    case How::gone:
      removal_.set("type", "PartRemoval");
      return during(removal_);
    case How::found: {
      const auto id = Uuid::parse(said.value);
      const auto place = id ? context_.reference(*id, true) : std::nullopt;
      if (!place) return false;
      Node found = typed("Encounter");
      found.add("took_place_at", *place);
      node_.add("encountered_by", std::move(found));
      return true;
    }
    case How::sampled: {
      const auto object = other();
      removal_.set("type", "PartRemoval");
      return object && removal_.set("diminished", *object);
    }
    default:
      return false;
  }
}

bool RecordMaker::say_of_activity(const Content& said, const Rule& rule) {
  const auto id = Uuid::parse(said.value);
  switch (rule.how) {
    case How::time:
      if (rule.property == "works-began") {
        began_ = edtf_of(said);
      } else if (rule.property == "works-ended") {
        ended_ = edtf_of(said);
      } else {
        return node_.set("timespan", time_span(edtf_of(said), said.value));
      }
      return true;
    case How::actor: {
      const auto actor = id ? context_.reference(*id) : std::nullopt;
      if (actor) node_.add("carried_out_by", *actor);
      return actor.has_value();
    }
    case How::technique:
      node_.add("technique", context_.own_type(std::string(rule.property), said.value));
      return true;
    case How::venue: {
      const auto place = id ? context_.reference(*id, true) : std::nullopt;
      if (place) node_.add("took_place_at", *place);
      return place.has_value();
    }
    case How::occasion: {
      const auto works = id ? context_.reference(*id) : std::nullopt;
      return works && node_.set("part_of", *works);
    }
    case How::opening: {
      const auto works = id ? context_.reference(*id) : std::nullopt;
      if (works) node_.add("caused_by", *works);
      return works.has_value();
    }
    default:
      return false;
  }
}

bool RecordMaker::say_of_sign(const Statement& statement, const Rule& rule) {
  const Content& said = statement.content;
  const auto id = Uuid::parse(said.value);
  switch (rule.how) {
    case How::content:
      return entry_.shape == Shape::text && node_.set("content", said.value);
    case How::about: {
      const auto agent = id ? context_.reference(*id) : std::nullopt;
      if (agent) node_.add("about", *agent);
      return agent.has_value();
    }
    case How::created:
      creation_.set("type", "Creation");
      return creation_.set("timespan", time_span(edtf_of(said), said.value));
    case How::teller: {
      const auto agent = id ? context_.reference(*id) : std::nullopt;
      if (!agent) return false;
      creation_.set("type", "Creation");
      creation_.add("carried_out_by", *agent);
      // Both the one who asked and the one who spoke carried it out; words tell them apart.
      return false;
    }
    case How::right: {
      Node kind;
      kind.set("id", said.value);
      kind.set("type", "Type");
      kind.set("_label", said.value);
      Node right = typed("Right");
      right.add("classified_as", std::move(kind));
      node_.add("subject_to", std::move(right));
      return true;
    }
    case How::file:
      add_file(said);
      return true;
    default:
      return false;
  }
}

bool RecordMaker::say_of_person(const Content& said, const Rule& rule) {
  if (rule.how != How::birth && rule.how != How::death) return false;
  Node life = typed(rule.how == How::birth ? "Birth" : "Death");
  life.set("timespan", time_span(edtf_of(said), said.value));
  return node_.set(rule.how == How::birth ? "born" : "died", std::move(life));
}

namespace {

std::string file_name(const Content& said) {
  const auto name = said.qualifier("file-name");
  return std::string(name.empty() ? std::string_view(said.value) : name);
}

}  // namespace

void RecordMaker::add_file(const Content& said) {
  add_file_document(said);
  // A picture has no property for its files: there the file alone says what it shows.
  if (entry_.shape == Shape::image) return;
  const std::string name = file_name(said);
  Node point;
  point.set("id", context_.base + "media/" + said.value);
  point.set("type", "DigitalObject");
  point.set("_label", name);
  Node file = typed("DigitalObject");
  file.set("_label", name);
  file.add("access_point", std::move(point));
  Node shown = typed("LinguisticObject");
  shown.set("_label", name);
  shown.add("digitally_carried_by", std::move(file));
  node_.add("subject_of", std::move(shown));
}

void RecordMaker::add_file_document(const Content& said) {
  const bool picture = entry_.shape == Shape::image;
  const std::string name = file_name(said);
  Node document;
  head(document, context_.base + "media/" + said.value, "DigitalObject", name);
  Node called = typed("Name");
  called.add("classified_as", context_.public_type(aat::primary_name, "primary name"));
  called.set("content", name);
  document.add("identified_by", std::move(called));
  Node digest = typed("Identifier");
  digest.add("classified_as", context_.own_type("identifier", "SHA-256"));
  digest.set("content", said.value);
  document.add("identified_by", std::move(digest));
  if (const auto format = said.qualifier("media-type"); !format.empty()) document.set("format", format);
  if (auto source = context_.reference(entry_.info.id))
    document.add(picture ? "digitally_shows" : "digitally_carries", std::move(*source));
  beside_->files.emplace_back(said.value, std::move(document));
}

void RecordMaker::bear(const Uuid& id, bool mark, const Node& sign) {
  node_.add(mark ? "shows" : "carries", sign);
  const auto entry = context_.look(id);
  if (!entry) return;
  Query query;
  query.subject = id;
  query.properties = {Registry::standard().named("transcription").id};
  std::vector<Statement> readings;
  context_.reader.each_statement(query, [&](const Statement& statement) {
    readings.push_back(statement);
    return true;
  });
  const std::vector<bool> held = decide_held(context_, readings);
  std::string text = display(entry->info);
  std::string language;
  for (std::size_t at = 0; at < readings.size(); ++at) {
    if (!held[at]) continue;
    text += ": " + readings[at].content.value;
    language = readings[at].content.language;
    break;
  }
  node_.add("referred_to_by",
            mark ? context_.prose(text, aat::markings, "markings statement", language)
                 : context_.prose(text, aat::inscription, "inscription statement", language));
}

void RecordMaker::say_what_others_say() {
  const auto each = [&](std::initializer_list<const char*> properties, auto use) {
    Query query;
    query.object = entry_.info.id;
    for (const char* property : properties)
      query.properties.push_back(Registry::standard().named(property).id);
    context_.reader.each_statement(query, [&](const Statement& statement) {
      const Content& said = statement.content;
      const bool sure = said.confidence != Confidence::possible && said.confidence != Confidence::conjecture;
      if (sure && context_.ruled_aside.count(statement.id) == 0) use(said, context_.reference(said.subject));
      return true;
    });
  };
  if (entry_.shape == Shape::object) {
    each({"mark-on", "label-on"}, [&](const Content& said, const std::optional<Node>& sign) {
      if (sign) bear(said.subject, said.property == Registry::standard().named("mark-on").id, *sign);
    });
    each({"event-on"}, [&](const Content&, const std::optional<Node>& event) {
      if (!event) return;
      Node change = typed("Modification");
      change.set("part_of", *event);
      node_.add("modified_by", std::move(change));
    });
  }
  if (entry_.info.kind != Kind::source) return;
  const char* key = entry_.shape == Shape::image ? "represents" : "about";
  each({"pictured-in", "seen-in", "uncovered-in", "as-built-in", "billed-in", "proposed-in", "mentioned-in"},
       [&](const Content&, const std::optional<Node>& thing) {
         if (thing) node_.add(key, *thing);
       });
}

}  // namespace lathbook::linked_art
