#include "core/exchange/sheet_header.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/exchange/sheet_cells.hpp"

namespace lathbook {

namespace {

struct Word {
  std::string_view word;
  SheetForm form;
  Kind kind;
};

constexpr std::array<Word, 18> kWords{{{"rooms", SheetForm::records, Kind::place},
                                       {"places", SheetForm::records, Kind::place},
                                       {"agents", SheetForm::records, Kind::agent},
                                       {"sources", SheetForm::records, Kind::source},
                                       {"elements", SheetForm::records, Kind::element},
                                       {"finishes", SheetForm::records, Kind::finish},
                                       {"pieces", SheetForm::records, Kind::piece},
                                       {"finds", SheetForm::records, Kind::find},
                                       {"containers", SheetForm::records, Kind::container},
                                       {"marks", SheetForm::records, Kind::mark},
                                       {"labels", SheetForm::records, Kind::label},
                                       {"examinations", SheetForm::records, Kind::examination},
                                       {"samples", SheetForm::records, Kind::sample},
                                       {"events", SheetForm::records, Kind::event},
                                       {"campaigns", SheetForm::records, Kind::campaign},
                                       {"phases", SheetForm::records, Kind::phase},
                                       {"relations", SheetForm::relations, Kind::unknown},
                                       {"statements", SheetForm::statements, Kind::unknown}}};

constexpr std::array<std::string_view, 10> kCommon{"source",  "locator",      "quote",      "by",
                                                   "said-on", "class",        "confidence", "recorder",
                                                   "private", "private-until"};
constexpr std::array<std::string_view, 5> kValueOnly{"ref", "why", "language", "replaces", "grounds"};
constexpr std::array<std::string_view, 3> kRelation{"from", "relation", "to"};
constexpr std::array<std::string_view, 5> kStatement{"subject", "property", "value", "qualifiers",
                                                     "withdraws"};

template <std::size_t size>
bool among(const std::array<std::string_view, size>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_qualifier_name(const Registry& registry, std::string_view name) {
  return std::any_of(registry.properties().begin(), registry.properties().end(),
                     [name](const Property& property) { return property.qualifier(name) != nullptr; });
}

// What a form must have, and every detail it may have.
std::vector<std::string_view> required(SheetForm form) {
  if (form == SheetForm::records) return {"code"};
  if (form == SheetForm::relations) return {kRelation.begin(), kRelation.end()};
  return {};
}

bool is_detail(SheetForm form, std::string_view key) {
  if (is_common_detail(key)) return true;
  if (form == SheetForm::records) return key == "code";
  if (form == SheetForm::relations) return among(kRelation, key) || among(kValueOnly, key);
  return among(kStatement, key) || among(kValueOnly, key);
}

std::string offer(const Registry& registry, const SheetKind& kind, const std::string& key) {
  std::vector<std::string> known(kCommon.begin(), kCommon.end());
  for (const auto& property : registry.properties()) {
    if (kind.form == SheetForm::records && property.said_of(kind.kind)) known.push_back(property.name);
    if (kind.form != SheetForm::relations) continue;
    for (const auto& qualifier : property.qualifiers) known.push_back(qualifier.name);
  }
  const auto best = nearest(key, known, 3);
  return best.empty() ? std::string() : "; did you mean " + join(best, " or ") + "?";
}

SheetColumn read_title(const CsvCell& cell, const SheetKind& kind, const Registry& registry,
                       std::string& why) {
  SheetColumn column;
  column.title = trim(cell.text);
  const auto key = header_key(column.title);
  if (column.title.empty() || (column.title.front() == '(' && column.title.back() == ')')) return column;
  if (kind.form == SheetForm::statements && column.title.front() == '{' && column.title.back() == '}') {
    column.use = SheetColumn::Use::qualifier;
    column.key = trim(column.title.substr(1, column.title.size() - 2));
    if (!is_qualifier_name(registry, column.key)) {
      why = "no property has a detail called " + quote(column.key);
      column.use = SheetColumn::Use::ignored;
    }
    return column;
  }
  column.use = SheetColumn::Use::detail;
  column.key = key;
  if (is_detail(kind.form, key)) return column;
  if (kind.form == SheetForm::relations && is_qualifier_name(registry, key)) {
    column.use = SheetColumn::Use::qualifier;
    return column;
  }
  if (kind.form == SheetForm::records) {
    column.property = property_by_title(registry, key, kind.kind);
    column.use = SheetColumn::Use::property;
    if (column.property != nullptr && column.property->id == property::kind) {
      why = "the kind of record is told by the sheet's name; leave this column out";
    } else if (column.property == nullptr) {
      why = "no column of a sheet of " + kind.word + " is called that" + offer(registry, kind, key);
    } else if (!column.property->said_of(kind.kind)) {
      why = "this property is not said of a " + std::string(word(kind.kind));
    }
  } else {
    why = "no column of a sheet of " + kind.word + " is called that" + offer(registry, kind, key);
  }
  if (!why.empty()) column.use = SheetColumn::Use::ignored;
  return column;
}

}  // namespace

bool is_common_detail(std::string_view key) {
  return among(kCommon, key);
}
bool is_value_detail(std::string_view key) {
  return is_common_detail(key) || among(kValueOnly, key);
}

std::optional<SheetKind> sheet_kind(std::string_view word) {
  for (const auto& known : kWords) {
    if (known.word == word) return SheetKind{std::string(word), known.form, known.kind};
  }
  return std::nullopt;
}

SheetKind sheet_kind_of(const std::filesystem::path& file) {
  auto stem = header_key(file.stem().string());
  const auto parts = split(stem, '-');
  const auto first = sheet_kind(parts.front());
  const auto last = sheet_kind(parts.back());
  if (first && last && first->word != last->word) {
    fail(ErrorKind::invalid, quote(file.string()) + " could be a sheet of " + first->word + " or of " +
                                 last->word + "; say which, or rename it");
  }
  if (first) return *first;
  if (last) return *last;
  std::vector<std::string> words;
  for (const auto& known : kWords) words.emplace_back(known.word);
  fail(ErrorKind::invalid, "the name of the sheet " + quote(file.string()) +
                               " does not say what its rows are; begin or end it with one of " +
                               join(words, ", "));
}

const Property* property_by_title(const Registry& registry, std::string_view title, Kind kind) {
  const auto key = header_key(title);
  if (const auto* named = registry.find(std::string_view(key))) return named;
  const Property* found = nullptr;
  for (const auto& property : registry.properties()) {
    if (header_key(property.label) != key) continue;
    if (kind != Kind::unknown && !property.said_of(kind)) continue;
    if (found != nullptr) return nullptr;
    found = &property;
  }
  return found;
}

std::vector<SheetColumn> read_header(const CsvRow& row, const SheetKind& kind, const Registry& registry,
                                     std::vector<CsvFault>& faults) {
  std::vector<SheetColumn> columns;
  std::set<std::string> seen;
  for (const auto& cell : row.cells) {
    std::string why;
    columns.push_back(read_title(cell, kind, registry, why));
    auto& column = columns.back();
    const bool braced = column.use == SheetColumn::Use::qualifier && column.title.front() == '{';
    const auto name = column.property != nullptr ? column.property->name : braced ? column.title : column.key;
    if (why.empty() && column.use != SheetColumn::Use::ignored && !seen.insert(name).second) {
      why = "two columns say the same; put both values in one cell with ' | ' between them";
      column.use = SheetColumn::Use::ignored;
    }
    if (!why.empty()) faults.push_back({cell.line, cell.column, column.title, why});
  }
  for (const auto name : required(kind.form)) {
    if (!seen.contains(std::string(name))) {
      faults.push_back(
          {row.line, 1, std::string(name),
           "the column '" + std::string(name) + "' is missing; a sheet of " + kind.word + " needs it"});
    }
  }
  if (kind.form == SheetForm::statements && !seen.contains("property") && !seen.contains("withdraws")) {
    faults.push_back(
        {row.line, 1, "property",
         "the columns 'subject', 'property' and 'value' are missing; a sheet of statements needs them"});
  }
  return columns;
}

}  // namespace lathbook
