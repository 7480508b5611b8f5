// Reads and checks the two tables of schemas/ once; every later question is a look-up.
#include "core/evidence/registry.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

#include "core/base/error.hpp"
#include "core/base/text.hpp"

namespace lathbook {

namespace embedded {
std::string_view properties();
std::string_view choices();
}  // namespace embedded

namespace {

using Lists = std::vector<std::pair<std::string, std::vector<std::string>>>;

constexpr std::size_t kColumns = 13;
constexpr std::uint32_t kGreatestId = 9999;
constexpr std::string_view kHeading =
    "id\tname\tsubjects\ttype\ttargets\tcount\tcites\tdating\tqualifiers\tprivacy\tlabel\thelp\tcrm";

constexpr std::array<std::pair<std::string_view, Kind>, 16> kKinds{{{"place", Kind::place},
                                                                    {"element", Kind::element},
                                                                    {"piece", Kind::piece},
                                                                    {"find", Kind::find},
                                                                    {"container", Kind::container},
                                                                    {"mark", Kind::mark},
                                                                    {"label", Kind::label},
                                                                    {"examination", Kind::examination},
                                                                    {"sample", Kind::sample},
                                                                    {"finish", Kind::finish},
                                                                    {"source", Kind::source},
                                                                    {"agent", Kind::agent},
                                                                    {"event", Kind::event},
                                                                    {"campaign", Kind::campaign},
                                                                    {"phase", Kind::phase},
                                                                    {"archive", Kind::archive}}};

constexpr std::array<std::pair<std::string_view, ValueType>, 15> kTypes{
    {{"text", ValueType::text},
     {"code", ValueType::code},
     {"choice", ValueType::choice},
     {"record", ValueType::record},
     {"date", ValueType::date},
     {"quantity", ValueType::quantity},
     {"number", ValueType::number},
     {"integer", ValueType::integer},
     {"yes-no", ValueType::yes_no},
     {"uri", ValueType::uri},
     {"media", ValueType::media},
     {"polygon", ValueType::polygon},
     {"munsell", ValueType::munsell},
     {"transcription", ValueType::transcription},
     {"statement", ValueType::statement}}};

// What each rule asks of the dates is docs/evidence-and-time.md; here only the words are known.
constexpr std::array<std::string_view, 53> kDatingRules{"absent",
                                                        "after-coat",
                                                        "begins-by",
                                                        "begins-in",
                                                        "billed",
                                                        "bonded",
                                                        "butts",
                                                        "by-coat",
                                                        "campaign-began",
                                                        "campaign-ended",
                                                        "campaign-length",
                                                        "covers",
                                                        "cuts",
                                                        "either-order",
                                                        "ends-in",
                                                        "falls-together",
                                                        "fills",
                                                        "finish-on",
                                                        "ghost-across",
                                                        "ghost-bare",
                                                        "ghost-behind",
                                                        "ghost-stops",
                                                        "gone",
                                                        "gone-day",
                                                        "gone-in-phase",
                                                        "layer",
                                                        "made-after",
                                                        "made-in",
                                                        "not-yet",
                                                        "not-yet-day",
                                                        "of-campaign",
                                                        "of-phase",
                                                        "one-of-places",
                                                        "opened-by",
                                                        "original",
                                                        "phase-order",
                                                        "proposed",
                                                        "removed-in-campaign",
                                                        "replaces",
                                                        "reused",
                                                        "ruling",
                                                        "same",
                                                        "same-record",
                                                        "seen",
                                                        "seen-day",
                                                        "setting",
                                                        "source-by",
                                                        "source-date",
                                                        "takes-away",
                                                        "uncovered",
                                                        "uncovered-day",
                                                        "years-at-least",
                                                        "years-at-most"};

// One line of a table, for its messages.
struct Row {
  std::string_view table;
  std::size_t line = 0;
  std::string_view name;

  [[noreturn]] void refuse(const std::string& why) const {
    std::string place = std::string(table) + ", line " + std::to_string(line);
    if (!name.empty()) place += ", " + quote(name);
    fail(ErrorKind::corrupt, place + ": " + why);
  }
};

// Calls `use(line number, line)` for every line that is neither empty nor a remark.
template <typename Use>
void each_line(std::string_view text, Use use) {
  std::size_t line = 0;
  while (!text.empty()) {
    const auto end = std::min(text.find('\n'), text.size());
    const auto content = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    ++line;
    if (!content.empty() && content.front() != '#') use(line, content);
  }
}

// Calls `use(part)` for every part between separators; parts may be empty.
template <typename Use>
void each_part(std::string_view text, char separator, Use use) {
  for (;;) {
    const auto end = text.find(separator);
    use(text.substr(0, end));
    if (end == std::string_view::npos) return;
    text.remove_prefix(end + 1);
  }
}

bool is_plain_name(std::string_view text) {
  return !text.empty() && text.front() >= 'a' && text.front() <= 'z' && text.back() != '-' &&
         std::all_of(text.begin(), text.end(),
                     [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; });
}

std::optional<ValueType> type_from_word(std::string_view text) {
  for (const auto& [name, type] : kTypes) {
    if (name == text) return type;
  }
  return std::nullopt;
}

const std::vector<std::string>* list_named(const Lists& lists, std::string_view name) {
  for (const auto& list : lists) {
    if (list.first == name) return &list.second;
  }
  return nullptr;
}

Lists read_choices(std::string_view text) {
  Lists lists;
  each_line(text, [&](std::size_t line, std::string_view content) {
    const auto tab = content.find('\t');
    const auto list = content.substr(0, tab);
    const Row row{"choices.tsv", line, list};
    if (tab == std::string_view::npos) row.refuse("expected a list name, a tab and a word");
    const auto member = content.substr(tab + 1);
    if (!is_plain_name(list)) row.refuse("a list name has small letters, digits and hyphens only");
    if (member.empty() || trim(member) != member || member.find('\t') != std::string_view::npos) {
      row.refuse("the word is empty or has blanks around it or a tab in it");
    }
    if (type_from_word(list)) row.refuse("a list must not be called like a type of value");
    if (lists.empty() || lists.back().first != list) {
      if (list_named(lists, list) != nullptr) row.refuse("the lines of one list must stand together");
      lists.emplace_back(list, std::vector<std::string>{});
    }
    auto& members = lists.back().second;
    if (std::find(members.begin(), members.end(), member) != members.end()) {
      row.refuse("the word " + quote(member) + " stands twice");
    }
    members.emplace_back(member);
  });
  return lists;
}

std::vector<Kind> read_kinds(const Row& row, std::string_view text, const char* what) {
  std::vector<Kind> kinds;
  if (text == "any") return kinds;
  kinds.reserve(4);
  each_part(text, ',', [&](std::string_view part) {
    const auto kind = kind_from_word(part);
    if (!kind) row.refuse(quote(part) + " is no kind of record (" + what + ")");
    if (std::find(kinds.begin(), kinds.end(), *kind) != kinds.end()) {
      row.refuse("the kind " + quote(part) + " stands twice (" + what + ")");
    }
    kinds.push_back(*kind);
  });
  return kinds;
}

// One of two words, or a refusal that names both.
bool is_second(const Row& row, std::string_view text, std::string_view first, std::string_view second,
               const char* what) {
  if (text != first && text != second) {
    row.refuse(quote(text) + " is neither " + quote(first) + " nor " + quote(second) + " (" + what + ")");
  }
  return text == second;
}

std::vector<QualifierRule> read_qualifiers(const Row& row, std::string_view text, const Lists& lists) {
  std::vector<QualifierRule> rules;
  if (text == "-") return rules;
  each_part(text, ' ', [&](std::string_view part) {
    const auto equals = part.find('=');
    if (equals == std::string_view::npos) row.refuse("the qualifier " + quote(part) + " has no type");
    const bool required = equals > 0 && part[equals - 1] == '!';
    QualifierRule rule{std::string(part.substr(0, required ? equals - 1 : equals)),
                       std::string(part.substr(equals + 1)), required};
    if (!is_plain_name(rule.name)) {
      row.refuse("the qualifier's name " + quote(rule.name) +
                 " has other than small letters, digits, hyphens");
    }
    for (const auto& other : rules) {
      if (other.name == rule.name) row.refuse("the qualifier " + quote(rule.name) + " stands twice");
    }
    const auto type = type_from_word(rule.type);
    if ((!type && list_named(lists, rule.type) == nullptr) || type == ValueType::choice) {
      row.refuse("the type " + quote(rule.type) + " of the qualifier " + quote(rule.name) +
                 " is neither a type of value nor a list of choices");
    }
    rules.push_back(std::move(rule));
  });
  return rules;
}

void read_targets(const Row& row, std::string_view text, const Lists& lists, Property& property) {
  if (property.type == ValueType::choice) {
    if (list_named(lists, text) == nullptr) row.refuse("there is no list of choices " + quote(text));
    property.choices = text;
  } else if (property.type == ValueType::record) {
    if (text == "-") row.refuse("a record must say which kinds it may be");
    property.same_kind = text == "same-kind";
    if (!property.same_kind) property.targets = read_kinds(row, text, "targets");
  } else if (text != "-") {
    row.refuse("only records and choices have targets, not " + quote(text));
  }
}

void read_dating(const Row& row, std::string_view text, Property& property) {
  if (text == "-") return;
  if (std::find(kDatingRules.begin(), kDatingRules.end(), text) == kDatingRules.end()) {
    row.refuse("the dating rule " + quote(text) + " is not known");
  }
  property.dating = text;
}

Cites read_cites(const Row& row, std::string_view text) {
  if (text == "source") return Cites::source;
  if (text == "self") return Cites::self;
  if (text == "none") return Cites::none;
  row.refuse(quote(text) + " is not one of source, self, none (citation)");
}

std::uint32_t read_id(const Row& row, std::string_view text) {
  std::uint32_t id = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), id);
  if (error != std::errc{} || end != text.data() + text.size() || id == 0 || id > kGreatestId ||
      text.front() == '0') {
    row.refuse("the id " + quote(text) + " is no number from 1 to " + std::to_string(kGreatestId));
  }
  return id;
}

Property read_property(std::size_t line, std::string_view content, const Lists& lists) {
  std::array<std::string_view, kColumns> cells;
  std::size_t count = 0;
  each_part(content, '\t', [&](std::string_view cell) {
    if (count < kColumns) cells[count] = cell;
    ++count;
  });
  const Row row{"properties.tsv", line, count > 1 ? cells[1] : std::string_view{}};
  if (count != kColumns) {
    row.refuse("has " + std::to_string(count) + " columns, not " + std::to_string(kColumns));
  }
  for (std::size_t i = 0; i < kColumns; ++i) {
    if (cells[i].empty() || trim(cells[i]) != cells[i]) {
      row.refuse("column " + std::to_string(i + 1) + " is empty or has blanks around it");
    }
  }
  Property property;
  property.id = read_id(row, cells[0]);
  if (!is_plain_name(cells[1])) row.refuse("a name has small letters, digits and hyphens only");
  property.name = cells[1];
  property.subjects = read_kinds(row, cells[2], "subjects");
  const auto type = type_from_word(cells[3]);
  if (!type) row.refuse(quote(cells[3]) + " is no type of value");
  property.type = *type;
  read_targets(row, cells[4], lists, property);
  property.many = is_second(row, cells[5], "one", "many", "count");
  property.cites = read_cites(row, cells[6]);
  read_dating(row, cells[7], property);
  property.qualifiers = read_qualifiers(row, cells[8], lists);
  property.private_by_default = is_second(row, cells[9], "-", "default", "privacy");
  if (cells[10] == "-") row.refuse("has no label");
  if (cells[11] == "-") row.refuse("has no help");
  property.label = cells[10];
  property.help = cells[11];
  if (cells[12] != "-") property.crm = cells[12];
  return property;
}

}  // namespace

std::string_view word(Kind kind) {
  for (const auto& [name, known] : kKinds) {
    if (known == kind) return name;
  }
  return "unknown";
}

std::optional<Kind> kind_from_word(std::string_view text) {
  for (const auto& [name, kind] : kKinds) {
    if (name == text) return kind;
  }
  return std::nullopt;
}

const std::vector<Kind>& all_kinds() {
  static const std::vector<Kind> kinds = [] {
    std::vector<Kind> all;
    for (const auto& entry : kKinds) all.push_back(entry.second);
    return all;
  }();
  return kinds;
}

std::string_view word(ValueType type) {
  for (const auto& [name, known] : kTypes) {
    if (known == type) return name;
  }
  return "text";
}

std::optional<ValueType> value_type_from_word(std::string_view text) {
  return type_from_word(text);
}

bool Property::said_of(Kind kind) const {
  return subjects.empty() || std::find(subjects.begin(), subjects.end(), kind) != subjects.end();
}

const QualifierRule* Property::qualifier(std::string_view qualifier_name) const {
  for (const auto& rule : qualifiers) {
    if (rule.name == qualifier_name) return &rule;
  }
  return nullptr;
}

const Registry& Registry::standard() {
  static const Registry registry(embedded::properties(), embedded::choices());
  return registry;
}

Registry::Registry(std::string_view properties, std::string_view choices) : lists_(read_choices(choices)) {
  const auto most = static_cast<std::size_t>(std::count(properties.begin(), properties.end(), '\n')) + 1;
  properties_.reserve(most);
  by_name_.reserve(most);
  by_id_.reserve(kGreatestId / 8);
  bool headed = false;
  each_line(properties, [&](std::size_t line, std::string_view content) {
    if (!std::exchange(headed, true)) {
      const Row row{"properties.tsv", line, {}};
      if (content != kHeading) row.refuse("the first row must name the columns as the remark above it does");
      return;
    }
    auto property = read_property(line, content, lists_);
    const Row row{"properties.tsv", line, property.name};
    if (const auto* other = find(property.id)) {
      row.refuse("the id " + std::to_string(property.id) + " is that of " + quote(other->name) + " already");
    }
    if (!by_name_.emplace(property.name, properties_.size()).second) {
      row.refuse("there is a property of this name already");
    }
    if (by_id_.size() <= property.id) by_id_.resize(property.id + 1U, 0);
    properties_.push_back(std::move(property));
    by_id_[properties_.back().id] = properties_.size();
  });
  if (properties_.empty()) fail(ErrorKind::corrupt, "properties.tsv has no rows");
}

const Property* Registry::find(std::uint32_t id) const {
  const auto place = id < by_id_.size() ? by_id_[id] : 0;
  return place == 0 ? nullptr : &properties_[place - 1];
}

const Property* Registry::find(std::string_view name) const {
  const auto place = by_name_.find(name);
  return place == by_name_.end() ? nullptr : &properties_[place->second];
}

const Property& Registry::named(std::string_view name) const {
  if (const auto* property = find(name)) return *property;
  std::vector<std::string> names;
  for (const auto& property : properties_) names.push_back(property.name);
  const auto near = nearest(name, names);
  std::string message = "there is no property " + quote(name);
  if (near.empty()) {
    message += "; `lathbook properties` lists them all";
  } else {
    message += "; did you mean " + join(near, " or ") + "?";
  }
  fail(ErrorKind::invalid, message);
}

const std::vector<std::string>& Registry::choices(std::string_view list) const {
  static const std::vector<std::string> none;
  const auto* members = list_named(lists_, list);
  return members == nullptr ? none : *members;
}

}  // namespace lathbook
