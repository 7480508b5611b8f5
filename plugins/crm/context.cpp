// Classes of records and the bounded memory of what was looked up.
#include "plugins/crm/context.hpp"
#include "core/view/addresses.hpp"

namespace lathbook::crm {

namespace {

constexpr std::size_t kMostRemembered = 16384;

std::string_view place_class(std::string_view type) {
  if (type.empty()) return "crm:E18_Physical_Thing";
  if (type == "site" || type == "grounds") return "crm:E27_Site";
  if (type == "building") return "crmba:B1_Built_Work";
  if (type == "void") return "crmba:B4_Empty_Morphological_Building_Section";
  return "crmba:B2_Morphological_Building_Section";
}

}  // namespace

bool Entry::is_section() const {
  return info.kind == Kind::place && place_class(type) == "crmba:B2_Morphological_Building_Section";
}

bool Entry::is_built() const {
  return is_section() || (info.kind == Kind::place && type == "building");
}

bool Entry::is_surface() const {
  return info.kind == Kind::element && (type == "cut" || type == "ghost" || type == "opening");
}

bool Entry::is_picture() const {
  return info.kind == Kind::source && (type == "photograph" || type == "video" || type == "plan sheet");
}

bool Entry::is_object() const {
  return info.kind == Kind::piece || info.kind == Kind::find || info.kind == Kind::container;
}

std::vector<std::string_view> Entry::classes() const {
  switch (info.kind) {
    case Kind::place:
      return {place_class(type)};
    case Kind::element:
      return {is_surface() ? "crmarchaeo:A3_Stratigraphic_Interface"
                           : "crmba:B5_Stratigraphic_Building_Unit"};
    case Kind::finish:
      return {"crmba:B5_Stratigraphic_Building_Unit"};
    case Kind::piece:
    case Kind::find:
    case Kind::container:
      return {"crm:E22_Human-Made_Object"};
    case Kind::mark:
    case Kind::label:
      return {"crm:E25_Human-Made_Feature"};
    case Kind::examination:
      return {"crmsci:S27_Observation"};
    case Kind::sample:
      return {"crmsci:S13_Sample"};
    case Kind::source:
      if (is_picture()) return {"crm:E31_Document", "crm:E36_Visual_Item"};
      return {"crm:E31_Document"};
    case Kind::agent:
      return {type == "person" ? "crm:E21_Person" : type == "firm" ? "crm:E74_Group" : "crm:E39_Actor"};
    case Kind::event:
    case Kind::campaign:
      return {"crm:E7_Activity"};
    case Kind::phase:
      return {"crm:E4_Period"};
    case Kind::archive:
    case Kind::unknown:
      break;
  }
  return {"crm:E73_Information_Object"};
}

std::optional<Entry> Context::look(const Uuid& id) {
  if (const auto known = entries_.find(id); known != entries_.end()) return known->second;
  std::optional<Entry> entry;
  if (const auto info = reader.record(id)) {
    entry = Entry{*info, {}};
    const auto property = type_property(info->kind);
    if (!property.empty()) {
      Query query;
      query.subject = id;
      query.properties = {Registry::standard().named(property).id};
      std::set<std::string> said;
      reader.each_statement(query, [&](const Statement& statement) {
        if (statement.presence == Presence::present) said.insert(statement.content.value);
        return true;
      });
      if (said.size() == 1) entry->type = *said.begin();
    }
  }
  if (entries_.size() >= kMostRemembered) entries_.clear();
  entries_.emplace(id, entry);
  return entry;
}

std::optional<Entry> Context::refer(const Uuid& id) {
  auto entry = look(id);
  if (entry && !in_scope(id) && outside_seen_.insert(id).second) outside.push_back(id);
  return entry;
}

std::optional<Uuid> Context::only(const Uuid& subject, std::string_view property) const {
  Query query;
  query.subject = subject;
  query.properties = {Registry::standard().named(property).id};
  std::set<std::string> said;
  bool doubtful = false;
  reader.each_statement(query, [&](const Statement& statement) {
    if (statement.presence != Presence::present || is_set_aside(statement.id)) return true;
    said.insert(statement.content.value);
    doubtful = doubtful || statement.content.confidence == Confidence::possible ||
               statement.content.confidence == Confidence::conjecture;
    return true;
  });
  if (said.size() != 1 || doubtful) return std::nullopt;
  return Uuid::parse(*said.begin());
}

bool Context::writes(const Digest& id) {
  // A ruling on a ruling on a ruling ends after a few steps, whatever a merge made of it.
  Digest next = id;
  for (int step = 0; step < 8; ++step) {
    const auto statement = reader.statement(next);
    if (!statement || statement->presence != Presence::present || statement->content.act != Act::state)
      return false;
    const Content& said = statement->content;
    const Property* property = Registry::standard().find(said.property);
    if (property == nullptr || !in_scope(said.subject) || !look(said.subject)) return false;
    if (property->type == ValueType::record) {
      const auto value = Uuid::parse(said.value);
      return value && look(*value);
    }
    if (property->type != ValueType::statement) return true;
    const auto other = Digest::from_hex(said.value);
    if (!other) return false;
    next = *other;
  }
  return false;
}

bool Context::is_premise(const Digest& id) {
  if (const auto known = premises_.find(id); known != premises_.end()) return known->second;
  const auto statement = reader.statement(id);
  const bool is = statement && statement->content.confidence != Confidence::none && writes(id);
  if (premises_.size() >= kMostRemembered) premises_.clear();
  premises_.emplace(id, is);
  return is;
}

bool Context::first(const std::string& name) {
  if (declared_.size() >= kMostRemembered) declared_.clear();
  return declared_.insert(name).second;
}

}  // namespace lathbook::crm
