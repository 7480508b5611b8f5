// Looks records up and names types.
#include "plugins/linked-art/context.hpp"

#include <cstdio>

#include "core/base/edtf.hpp"
#include "core/view/addresses.hpp"
#include "core/view/record_view.hpp"
#include "plugins/linked-art/terms.hpp"

namespace lathbook::linked_art {

namespace {

constexpr std::size_t kMostRemembered = 16384;

bool is_built(std::string_view type) {
  return !type.empty() && type != "site" && type != "grounds" && type != "void";
}

Shape shape_of(Kind kind, std::string_view type) {
  switch (kind) {
    case Kind::place:
      return is_built(type) ? Shape::object : Shape::place;
    case Kind::element:
      return type == "cut" || type == "ghost" || type == "opening" ? Shape::none : Shape::object;
    case Kind::finish:
    case Kind::piece:
    case Kind::find:
    case Kind::container:
    case Kind::sample:
      return Shape::object;
    case Kind::mark:
      return Shape::image;
    case Kind::label:
      return Shape::text;
    case Kind::source:
      return type == "photograph" || type == "video" || type == "plan sheet" ? Shape::image : Shape::text;
    case Kind::agent:
      return type == "person" ? Shape::person : Shape::group;
    case Kind::event:
    case Kind::campaign:
    case Kind::examination:
      return Shape::activity;
    case Kind::phase:
      return Shape::period;
    case Kind::archive:
    case Kind::unknown:
      break;
  }
  return Shape::none;
}

/// RFC 3339, as the schema's date-time: four digits of year.
std::optional<std::string> moment(Day day, const char* time) {
  const CivilDay civil = civil_from_days(day);
  if (civil.year < 0 || civil.year > 9999) return std::nullopt;
  char text[64];
  std::snprintf(text, sizeof text, "%04d-%02d-%02dT%sZ", static_cast<int>(civil.year), civil.month, civil.day,
                time);
  return text;
}

void add_bound(Node& span, const char* key, const std::optional<Day>& day, const char* time) {
  if (!day) return;
  if (auto text = moment(*day, time)) span.set(key, std::move(*text));
}

}  // namespace

std::string_view type_word(Shape shape) {
  switch (shape) {
    case Shape::object:
      return "HumanMadeObject";
    case Shape::place:
      return "Place";
    case Shape::image:
      return "VisualItem";
    case Shape::text:
      return "LinguisticObject";
    case Shape::person:
      return "Person";
    case Shape::group:
      return "Group";
    case Shape::activity:
      return "Activity";
    case Shape::period:
      return "Period";
    case Shape::none:
      break;
  }
  return {};
}

std::optional<Entry> Context::look(const Uuid& id) {
  if (const auto known = entries_.find(id); known != entries_.end()) return known->second;
  std::optional<Entry> entry;
  if (const auto info = reader.record(id)) {
    entry = Entry{*info, Shape::none, false, {}};
    if (const auto property = type_property(info->kind); !property.empty()) {
      Query query;
      query.subject = id;
      query.properties = {Registry::standard().named(property).id};
      std::set<std::string> said;
      reader.each_statement(query, [&](const Statement& statement) {
        said.insert(statement.content.value);
        return true;
      });
      if (said.size() == 1) entry->type = *said.begin();
    }
    entry->shape = shape_of(info->kind, entry->type);
    entry->built = info->kind == Kind::place && is_built(entry->type);
  }
  if (entries_.size() >= kMostRemembered) entries_.clear();
  entries_.emplace(id, entry);
  return entry;
}

std::optional<Node> Context::reference(const Uuid& id, bool place) {
  const auto entry = look(id);
  if (!entry || entry->shape == Shape::none) return std::nullopt;
  if (!in_scope(id) && outside_seen_.insert(id).second) outside.push_back(id);
  const bool space = place && entry->built;
  Node node;
  node.set("id", record_address(base, id) + (space ? "-space" : ""));
  node.set("type", space ? "Place" : type_word(entry->shape));
  node.set("_label", display(entry->info));
  return node;
}

Node Context::public_type(std::string_view id, std::string_view label) const {
  Node node;
  node.set("id", "http://vocab.getty.edu/aat/" + std::string(id));
  node.set("type", "Type");
  node.set("_label", label);
  return node;
}

Node Context::own_type(std::string_view list, std::string_view text, std::string_view type) {
  std::string key = type_key(list, text);
  Node node;
  node.set("id", base + "type/" + key);
  node.set("type", type);
  node.set("_label", text);
  own_types_.try_emplace(std::move(key), type, text);
  return node;
}

Node Context::language(const std::string& code) {
  return own_type("language", code, "Language");
}

Node Context::prose(std::string_view text, std::string_view aat, std::string_view label,
                    const std::string& language_code) {
  Node kind = public_type(aat, label);
  kind.add("classified_as", public_type(aat::statement, "statement"));
  Node node;
  node.set("type", "LinguisticObject");
  node.add("classified_as", std::move(kind));
  node.set("content", text);
  if (!language_code.empty()) node.add("language", language(language_code));
  return node;
}

Node time_span(std::string_view edtf, std::string_view as_typed) {
  Node span;
  span.set("type", "TimeSpan");
  if (!as_typed.empty()) span.set("_label", as_typed);
  const auto date = Edtf::try_parse(edtf);
  if (!date) return span;
  add_bound(span, "begin_of_the_begin", date->earliest(), "00:00:00");
  add_bound(span, "end_of_the_end", date->latest(), "23:59:59");
  return span;
}

Node time_span_between(std::string_view from, std::string_view to) {
  Node span;
  span.set("type", "TimeSpan");
  span.set("_label",
           (from.empty() ? ".." : std::string(from)) + " to " + (to.empty() ? ".." : std::string(to)));
  const auto begin = Edtf::try_parse(from);
  const auto end = Edtf::try_parse(to);
  const auto first = begin ? begin->earliest() : std::nullopt;
  const auto last = end ? end->latest() : std::nullopt;
  if (first && last && *first > *last) return span;  // as stated it ends before it begins: no time fits it
  add_bound(span, "begin_of_the_begin", first, "00:00:00");
  add_bound(span, "end_of_the_end", last, "23:59:59");
  return span;
}

}  // namespace lathbook::linked_art
