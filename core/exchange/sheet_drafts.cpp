#include <algorithm>

#include "core/base/error.hpp"
#include "core/base/paths.hpp"
#include "core/base/text.hpp"
#include "core/exchange/sheet_import.hpp"

namespace lathbook {

namespace {

const std::string kNothing;

const std::string* find_cell(const CellMap& cells, const std::string& key) {
  const auto found = cells.find(key);
  return found == cells.end() ? nullptr : &found->second;
}

const std::string& cell_of(const CellMap& cells, const std::string& key) {
  const auto* found = find_cell(cells, key);
  return found == nullptr ? kNothing : *found;
}

bool is_clerical(const Property* property) {
  return property != nullptr && property->cites == Cites::none;
}

std::string did_you_mean(const std::vector<std::string>& words) {
  return words.empty() ? std::string() : "; did you mean " + join(words, " or ") + "?";
}

}  // namespace

Digest stand_in(const std::string& handle) {
  return sha256("statement of a sheet: " + handle);
}

CellMap SheetImport::row_details(const SheetRow& row) const {
  const auto& sheet = sheets_[row.sheet];
  const auto& cells = sheet.rows[row.cells].cells;
  CellMap details;
  for (std::size_t c = 0; c < std::min(cells.size(), sheet.columns.size()); ++c) {
    if (sheet.columns[c].use != SheetColumn::Use::detail) continue;
    const auto text = trim(cells[c].text);
    if (!text.empty()) details[sheet.columns[c].key] = text;
  }
  return details;
}

Details SheetImport::qualifier_cells(const SheetRow& row) const {
  const auto& sheet = sheets_[row.sheet];
  const auto& cells = sheet.rows[row.cells].cells;
  Details qualifiers;
  for (std::size_t c = 0; c < std::min(cells.size(), sheet.columns.size()); ++c) {
    const std::string cell(trim(cells[c].text));
    if (sheet.columns[c].use == SheetColumn::Use::qualifier && !cell.empty())
      qualifiers.emplace_back(sheet.columns[c].key, cell);
  }
  return qualifiers;
}

std::optional<Uuid> SheetImport::resolve(SheetDraft& draft, const std::string& column,
                                         const std::string& code) {
  const auto row = row_of_code_.find(code);
  if (row != row_of_code_.end()) {
    if (row->second != draft.row) rows_[draft.row].needs.insert(row->second);
    return rows_[row->second].id;
  }
  if (const auto info = sink_.record_by_code(code)) {
    known_.emplace(info->id, info);
    return info->id;
  }
  auto offers = sink_.nearest_codes(code);
  // Comparing with every code of a large import for every fault would take for ever.
  constexpr std::size_t kMostCompared = 5000;
  if (offers.empty() && row_of_code_.size() <= kMostCompared) {
    std::vector<std::string> codes;
    for (const auto& [known, index] : row_of_code_) codes.push_back(known);
    std::sort(codes.begin(), codes.end());
    offers = nearest(code, codes);
  }
  fault(draft.row, column, code,
        "there is no record with the code " + quote(code) + " in the archive or in these sheets" +
            did_you_mean(offers));
  return std::nullopt;
}

std::optional<Digest> SheetImport::statement_named(SheetDraft& draft, const std::string& column,
                                                   const std::string& handle) {
  if (const auto id = Digest::from_hex(handle)) return id;
  if (handle.empty()) {
    fault(draft.row, column, handle, "a handle is missing");
    return std::nullopt;
  }
  draft.handles.insert(handle);
  return stand_in(handle);
}

void SheetImport::set_handles(SheetDraft& draft, const std::string& column, const std::string& cell,
                              std::vector<Digest>& into) {
  if (cell.empty()) return;
  for (const auto& handle : split_values(cell)) {
    if (const auto id = statement_named(draft, column, handle)) into.push_back(*id);
  }
}

void SheetImport::set_media(SheetDraft& draft, const std::string& value) {
  const auto& sheet = sheets_[rows_[draft.row].sheet];
  auto root = options_.media_folder.empty() ? sheet.path.parent_path() : options_.media_folder;
  if (root.empty()) root = ".";
  try {
    draft.media = safe_join(root, value);
    draft.content.value = sha256_file(draft.media).hex();
  } catch (const Error& error) {
    fault(draft.row, draft.column, value, error.what());
    return;
  }
  if (draft.content.qualifier("file-name").empty()) {
    draft.content.qualifiers.push_back({"file-name", draft.media.filename().string()});
  }
}

void SheetImport::set_value(SheetDraft& draft, const Property& property, const std::string& value) {
  draft.content.property = property.id;
  if (property.type == ValueType::media) return set_media(draft, value);
  if (property.type == ValueType::record) {
    if (const auto id = resolve(draft, draft.column, value)) draft.content.value = id->text();
  } else if (property.type == ValueType::statement) {
    if (const auto id = statement_named(draft, draft.column, value)) draft.content.value = id->hex();
  } else {
    draft.content.value = value;
  }
}

void SheetImport::keep_qualifiers(SheetDraft& draft, const Property& property, const Details& details,
                                  CellMap* own) {
  for (const auto& [name, value] : details) {
    if (property.qualifier(name) != nullptr) {
      if (!value.empty()) draft.content.qualifiers.push_back({name, value});
    } else if (own != nullptr && is_value_detail(name)) {
      (*own)[name] = value;
    } else {
      std::vector<std::string> known;
      for (const auto& rule : property.qualifiers) known.push_back(rule.name);
      const auto allowed = known.empty() ? "; it has none of its own" : "; it has " + join(known, ", ");
      fault(draft.row, draft.column, name + "=" + value,
            "'" + property.name + "' has no detail called " + quote(name) + allowed);
    }
  }
}

void SheetImport::set_citations(SheetDraft& draft, const Property* property, const CellMap& row,
                                const CellMap& own) {
  const auto& either = [&](const std::string& key) -> const std::string& {
    const auto* mine = find_cell(own, key);
    return mine != nullptr ? *mine : cell_of(row, key);
  };
  std::string sources;
  std::string locator = either("locator");
  std::string words = either("quote");
  const bool about_source =
      property != nullptr && property->cites == Cites::self && kind_of(draft.content.subject) == Kind::source;
  if (const auto* mine = find_cell(own, "source")) {
    sources = *mine;
    locator = cell_of(own, "locator");
    words = cell_of(own, "quote");
  } else if (is_clerical(property)) {
    return;
  } else if (const auto* theirs = find_cell(row, "source")) {
    sources = *theirs;
  } else if (about_source && !(locator.empty() && words.empty())) {
    draft.content.citations.push_back({draft.content.subject, locator, words});
    return;
  } else if (!about_source && draft.content.act == Act::state) {
    sources = options_.source;
    if (locator.empty()) locator = options_.locator;
  }
  if (sources.empty()) {
    const auto& lost = locator.empty() ? words : locator;
    if (!lost.empty())
      fault(draft.row, locator.empty() ? "quote" : "locator", lost,
            "a place in a source is given, but no source");
    return;
  }
  const auto codes = split_values(sources);
  const auto several = [&](const std::string& column, const std::string& cell) {
    if (codes.size() == 1 || cell.empty()) {
      std::vector<std::string> parts(codes.size());
      parts.front() = cell;
      return parts;
    }
    // The blank beside a bar at an end of the cell was dropped with the cell's own.
    auto parts = split_values((cell.front() == '|' ? " " : "") + cell + (cell.back() == '|' ? " " : ""));
    if (parts.size() != codes.size()) {
      fault(draft.row, column, cell,
            "there are " + std::to_string(codes.size()) +
                " sources, so this needs as many parts, with ' | ' between them");
      parts.resize(codes.size());
    }
    return parts;
  };
  const auto locators = several("locator", locator);
  const auto quotes = several("quote", words);
  for (std::size_t i = 0; i < codes.size(); ++i) {
    if (const auto id = resolve(draft, "source", codes[i])) {
      draft.content.citations.push_back({*id, locators[i], quotes[i]});
    }
  }
}

void SheetImport::set_details(SheetDraft& draft, const Property* property, const CellMap& row,
                              const CellMap& own) {
  auto& content = draft.content;
  const bool clerical = is_clerical(property);
  const bool states = content.act == Act::state;
  const auto get = [&](const std::string& key, const std::string& otherwise = kNothing) -> std::string {
    if (const auto* mine = find_cell(own, key)) return *mine;
    const bool always =
        key == "recorder" || key == "private" || key == "private-until" || !is_common_detail(key);
    if (clerical && !always) return {};
    if (const auto* theirs = find_cell(row, key)) return *theirs;
    return otherwise;
  };
  set_citations(draft, property, row, own);
  if (const auto by = get("by", states ? options_.author : kNothing); !by.empty())
    content.author = resolve(draft, "by", by);
  if (const auto recorder = get("recorder", options_.recorder); !recorder.empty()) {
    content.recorder = resolve(draft, "recorder", recorder);
  }
  content.said_on = get("said-on");
  if (const auto text = get("class", states ? options_.evidence : kNothing); !text.empty()) {
    const auto evidence = class_from_word(to_lower_ascii(text));
    if (!evidence)
      fault(draft.row, "class", text, "the class of evidence is physical, documentary, oral or comparative");
    content.evidence = evidence.value_or(EvidenceClass::none);
  }
  if (const auto text = get("confidence", states ? options_.confidence : kNothing); !text.empty()) {
    const auto confidence = confidence_from_word(to_lower_ascii(text));
    if (!confidence)
      fault(draft.row, "confidence", text, "the confidence is certain, probable, possible or conjecture");
    content.confidence = confidence.value_or(Confidence::none);
  }
  const auto reason = get("private");
  const auto until = get("private-until");
  if (!reason.empty()) content.privacy = Privacy{reason, until};
  if (reason.empty() && !until.empty())
    fault(draft.row, "private-until", until, "say in the column 'private' why it is private");
  content.language = get("language");
  content.why = get("why");
  draft.ref = get("ref");
  set_handles(draft, "replaces", get("replaces"), content.targets);
  set_handles(draft, "grounds", get("grounds"), content.grounds);
  set_handles(draft, "withdraws", get("withdraws"), content.targets);
}

void SheetImport::draft_cell(std::size_t row, const SheetColumn& column, const std::string& cell,
                             const CellMap& details) {
  const auto& property = *column.property;
  const bool splits = property.many && property.type != ValueType::transcription;
  const auto values = splits ? split_values(cell) : std::vector<std::string>{cell};
  for (const auto& one : values) {
    auto parsed = split_details(one);
    SheetDraft draft;
    draft.row = row;
    draft.column = column.title;
    draft.value = one;
    draft.content.subject = rows_[row].id;
    if (parsed.value.empty()) {
      fault(row, column.title, cell, "a value is missing");
      continue;
    }
    CellMap own;
    keep_qualifiers(draft, property, parsed.details, &own);
    set_value(draft, property, parsed.value);
    set_details(draft, &property, details, own);
    drafts_.push_back(std::move(draft));
  }
}

void SheetImport::draft_record_row(std::size_t row) {
  const auto& sheet = sheets_[rows_[row].sheet];
  const auto& cells = sheet.rows[rows_[row].cells].cells;
  const auto details = row_details(rows_[row]);
  bool has_place_type = false;
  for (std::size_t c = 0; c < std::min(cells.size(), sheet.columns.size()); ++c) {
    const auto& column = sheet.columns[c];
    const std::string cell(trim(cells[c].text));
    if (column.use != SheetColumn::Use::property || cell.empty()) continue;
    has_place_type = has_place_type || column.property->name == "place-type";
    draft_cell(row, column, cell, details);
  }
  if (sheet.kind.word == "rooms" && !has_place_type) {
    draft_cell(row, {"place-type", SheetColumn::Use::property, "place-type", &registry_.named("place-type")},
               "room", details);
  }
}

const Property* SheetImport::property_cell(SheetDraft& draft, const std::string& column,
                                           const std::string& title) {
  const auto kind = kind_of(draft.content.subject).value_or(Kind::unknown);
  if (const auto* property = property_by_title(registry_, title, kind)) return property;
  std::vector<std::string> names;
  for (const auto& property : registry_.properties()) names.push_back(property.name);
  fault(draft.row, column, title,
        "there is no property of this name" + did_you_mean(nearest(header_key(title), names)));
  return nullptr;
}

void SheetImport::draft_relation(std::size_t row) {
  auto details = row_details(rows_[row]);
  SheetDraft draft;
  draft.row = row;
  draft.column = "to";
  draft.value = cell_of(details, "to");
  for (const auto* column : {"from", "relation", "to"}) {
    if (cell_of(details, column).empty()) fault(row, column, "", "this cell must be filled");
  }
  if (rows_[row].bad) return;
  const auto subject = resolve(draft, "from", details["from"]);
  if (!subject) return;
  draft.content.subject = *subject;
  const auto* property = property_cell(draft, "relation", details["relation"]);
  if (property == nullptr) return;
  if (property->type != ValueType::record) {
    return fault(row, "relation", details["relation"],
                 "its value is no record; put it into a sheet of statements");
  }
  Details qualifiers = qualifier_cells(rows_[row]);
  if (property->qualifier("grounds") != nullptr && details.contains("grounds")) {
    qualifiers.emplace_back("grounds", details["grounds"]);
    details.erase("grounds");
  }
  keep_qualifiers(draft, *property, qualifiers, nullptr);
  set_value(draft, *property, details["to"]);
  set_details(draft, property, details, {});
  drafts_.push_back(std::move(draft));
}

void SheetImport::draft_statement(std::size_t row) {
  auto details = row_details(rows_[row]);
  SheetDraft draft;
  draft.row = row;
  const auto withdraws = cell_of(details, "withdraws");
  if (!withdraws.empty()) {
    for (const auto* column : {"subject", "property", "value", "qualifiers", "replaces"}) {
      if (details.contains(column))
        fault(row, column, details[column], "a row that withdraws statements says nothing else");
    }
    draft.column = "withdraws";
    draft.value = withdraws;
    draft.content.act = Act::withdraw;
    set_details(draft, nullptr, details, {});
    drafts_.push_back(std::move(draft));
    return;
  }
  for (const auto* column : {"subject", "property", "value"}) {
    if (cell_of(details, column).empty()) fault(row, column, "", "this cell must be filled");
  }
  if (rows_[row].bad) return;
  const auto subject = resolve(draft, "subject", details["subject"]);
  if (!subject) return;
  draft.content.subject = *subject;
  const auto* property = property_cell(draft, "property", details["property"]);
  if (property == nullptr) return;
  if (property->id == property::kind || property->id == property::code) {
    return fault(row, "property", details["property"],
                 "kind and code are given once, by the sheet that makes the record");
  }
  Details qualifiers = qualifier_cells(rows_[row]);
  const auto& told = cell_of(details, "qualifiers");
  draft.column = "qualifiers";
  if (!told.empty() && !read_details(told, qualifiers)) {
    fault(row, "qualifiers", told, "qualifiers are written as name=value; name=value");
  }
  keep_qualifiers(draft, *property, qualifiers, nullptr);
  draft.column = "value";
  draft.value = details["value"];
  set_value(draft, *property, details["value"]);
  set_details(draft, property, details, {});
  drafts_.push_back(std::move(draft));
}

void SheetImport::make_drafts() {
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    // A row without an id of its own has nothing that its cells could be about.
    const auto form = sheets_[rows_[r].sheet].kind.form;
    if (sheets_[rows_[r].sheet].bad_header || (form == SheetForm::records && rows_[r].id == Uuid{})) continue;
    if (form == SheetForm::records) draft_record_row(r);
    if (form == SheetForm::relations) draft_relation(r);
    if (form == SheetForm::statements) draft_statement(r);
  }
}

}  // namespace lathbook
