#include "core/exchange/sheets.hpp"

#include <algorithm>

#include "core/base/csv_cell.hpp"
#include "core/base/error.hpp"
#include "core/base/paths.hpp"
#include "core/base/progress.hpp"
#include "core/base/text.hpp"
#include "core/evidence/validation.hpp"
#include "core/exchange/sheet_import.hpp"

namespace lathbook {

namespace {

constexpr std::uint64_t kMostSheet = std::uint64_t{256} << 20U;

std::string character(std::uint64_t column) {
  return "character " + std::to_string(column);
}

// Line breaks inside a cell are those of the machine it was typed on; a guard is a spreadsheet's business.
std::string as_meant(std::string_view cell) {
  std::string text(unguard_cell(cell));
  for (auto at = text.find("\r\n"); at != std::string::npos; at = text.find("\r\n", at)) text.erase(at, 1);
  return text;
}

}  // namespace

std::string RowFault::text() const {
  return file + ":" + std::to_string(line) + ": " + (column.empty() ? "" : column + " ") +
         (value.empty() ? "" : quote(value)) + (column.empty() && value.empty() ? "" : ": ") + reason;
}

SheetImport::SheetImport(EntrySink& sink, const SheetOptions& options)
    : sink_(sink), options_(options), registry_(Registry::standard()) {}

void SheetImport::fault(std::size_t row, const std::string& column, const std::string& value,
                        const std::string& reason) {
  auto& bad = rows_[row];
  const auto& name = sheets_[bad.sheet].name;
  bad.bad = true;
  report_.refused.emplace(name, bad.line);
  report_.faults.push_back({name, bad.line, column, value, reason});
}

void SheetImport::read(const std::filesystem::path& file) {
  Sheet sheet;
  sheet.path = file;
  sheet.name = file.string();
  const auto told = options_.sheet_of.find(sheet.name);
  if (told == options_.sheet_of.end()) {
    sheet.kind = sheet_kind_of(file);
  } else {
    const auto kind = sheet_kind(told->second);
    if (!kind) fail(ErrorKind::invalid, "there is no kind of sheet called " + quote(told->second));
    sheet.kind = *kind;
  }
  const auto bytes = read_whole_file(file, kMostSheet);
  CsvReader reader(bytes);
  CsvRow row;
  bool has_header = false;
  std::vector<CsvFault> faults;
  while (reader.next(row)) {
    if (row.blank()) continue;
    if (has_header) {
      for (auto& cell : row.cells) cell.text = as_meant(cell.text);
      sheet.rows.push_back(std::move(row));
    } else {
      sheet.columns = read_header(row, sheet.kind, registry_, faults);
      has_header = true;
    }
  }
  sheet.bad_header = !faults.empty();
  for (const auto& bad : faults) report_.faults.push_back({sheet.name, bad.line, bad.value, "", bad.reason});
  if (reader.fault()) {
    const auto& bad = *reader.fault();
    report_.faults.push_back({sheet.name, bad.line, character(bad.column), bad.value, bad.reason});
  } else if (!has_header) {
    report_.faults.push_back({sheet.name, 1, "", "", "the sheet is empty; its first row names the columns"});
  }
  sheets_.push_back(std::move(sheet));
}

void SheetImport::collect_records() {
  for (std::size_t s = 0; s < sheets_.size(); ++s) {
    const auto& sheet = sheets_[s];
    for (std::size_t r = 0; r < sheet.rows.size(); ++r) {
      const auto index = rows_.size();
      rows_.push_back({s, r, sheet.rows[r].line, sheet.kind.kind, {}, {}, sheet.bad_header, {}});
      auto& row = rows_.back();
      if (sheet.bad_header) report_.refused.emplace(sheet.name, row.line);
      if (options_.refused.contains({sheet.name, row.line}))
        fault(index, "", "", "the archive refused this row");
      if (sheet.rows[r].cells.size() > sheet.columns.size()) {
        const auto& cell = sheet.rows[r].cells[sheet.columns.size()];
        fault(index, character(cell.column), cell.text,
              "the row has more cells than the header has columns; put a cell with a separator in quotation "
              "marks");
      }
      if (sheet.kind.form != SheetForm::records) continue;
      const auto cells = row_details(row);
      const auto found = cells.find("code");
      row.code = found == cells.end() ? "" : found->second;
      std::string why;
      if (row.code.empty()) {
        if (!sheet.bad_header) fault(index, "code", "", "every row needs a code");
      } else if (!well_formed(ValueType::code, "", row.code, registry_, why)) {
        fault(index, "code", row.code, why);
      } else if (sink_.record_by_code(row.code)) {
        fault(index, "code", row.code,
              "the archive has a record of this code already; say more about it with a sheet of relations or "
              "statements");
      } else if (const auto [first, is_new] = row_of_code_.emplace(row.code, index); !is_new) {
        const auto& other = rows_[first->second];
        fault(index, "code", row.code,
              "the code is used already at " + sheets_[other.sheet].name + ":" + std::to_string(other.line));
      } else {
        row.id = uuid_from_name("row of a sheet: " + row.code);
        row_of_id_.emplace(row.id, index);
      }
    }
  }
}

std::optional<Kind> SheetImport::kind_of(const Uuid& id) const {
  const auto row = row_of_id_.find(id);
  if (row != row_of_id_.end()) return rows_[row->second].kind;
  const auto known = known_.find(id);
  const auto& info =
      known != known_.end() ? known->second : known_.emplace(id, sink_.record(id)).first->second;
  if (!info) return std::nullopt;
  return info->kind;
}

std::string SheetImport::code_of(const Uuid& id) const {
  const auto row = row_of_id_.find(id);
  if (row != row_of_id_.end()) return rows_[row->second].code;
  const auto info = sink_.record(id);
  return info ? info->code : id.text();
}

Uuid SheetImport::real(const Uuid& id) const {
  const auto found = made_.find(id);
  return found == made_.end() ? id : found->second;
}

std::optional<Uuid> SheetImport::recorder_of(std::size_t row) const {
  const auto details = row_details(rows_[row]);
  const auto cell = details.find("recorder");
  const auto& code = cell == details.end() ? options_.recorder : cell->second;
  if (code.empty()) return std::nullopt;
  const auto known = row_of_code_.find(code);
  if (known != row_of_code_.end()) return rows_[known->second].id;
  const auto info = sink_.record_by_code(code);
  return info ? std::optional(info->id) : std::nullopt;
}

void SheetImport::make_records() {
  // Agents first: a record's recorder may be one of them.
  for (const bool agents : {true, false}) {
    for (std::size_t r = 0; r < rows_.size(); ++r) {
      const auto& row = rows_[r];
      if (row.bad || row.code.empty() || (row.kind == Kind::agent) != agents) continue;
      auto recorder = recorder_of(r);
      if (recorder && row_of_id_.contains(*recorder))
        recorder = made_.contains(*recorder) ? std::optional(real(*recorder)) : std::nullopt;
      try {
        made_.emplace(row.id, sink_.make_record(row.kind, row.code, recorder));
        ++report_.records;
      } catch (const Error& error) {
        if (error.kind() != ErrorKind::invalid) throw;
        fault(r, "code", row.code, error.what());
      }
    }
  }
}

void SheetImport::add(SheetDraft& draft) {
  auto& content = draft.content;
  content.subject = real(content.subject);
  if (content.author) content.author = real(*content.author);
  if (content.recorder) content.recorder = real(*content.recorder);
  for (auto& citation : content.citations) citation.source = real(citation.source);
  const auto* property = registry_.find(content.property);
  if (property != nullptr && property->type == ValueType::record) {
    content.value = real(*Uuid::parse(content.value)).text();
  }
  for (const auto& handle : draft.handles) {
    const auto stand = stand_in(handle);
    const auto& id = added_.at(handle);
    std::replace(content.targets.begin(), content.targets.end(), stand, id);
    std::replace(content.grounds.begin(), content.grounds.end(), stand, id);
    if (content.value == stand.hex()) content.value = id.hex();
  }
  try {
    if (!draft.media.empty()) {
      content.value = sink_.add_media(draft.media).digest.hex();
      ++report_.media;
    }
    const auto id = sink_.add(content);
    if (!draft.ref.empty()) added_.emplace(draft.ref, id);
    ++report_.statements;
  } catch (const Error& error) {
    if (error.kind() != ErrorKind::invalid && error.kind() != ErrorKind::not_found) throw;
    fault(draft.row, draft.column, draft.value, error.what());
  }
}

void SheetImport::apply() {
  make_records();
  Progress progress("adding statements", order_.size());
  for (const auto index : order_) {
    stop_if_requested("the import");
    auto& draft = drafts_[index];
    const auto& row = rows_[draft.row];
    // A row that the archive refused takes with it what leans on it; nothing will be committed anyway.
    const bool leans_on_bad = std::any_of(row.needs.begin(), row.needs.end(),
                                          [this](std::size_t other) { return rows_[other].bad; });
    if (!row.bad && !leans_on_bad) {
      add(draft);
    } else {
      rows_[draft.row].bad = true;
    }
    progress.tick();
  }
}

void SheetImport::refuse_dependents() {
  std::vector<std::vector<std::size_t>> leaning(rows_.size());
  std::vector<std::size_t> bad;
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    for (const auto other : rows_[r].needs) leaning[other].push_back(r);
    if (rows_[r].bad) bad.push_back(r);
  }
  while (!bad.empty()) {
    const auto r = bad.back();
    bad.pop_back();
    const auto& place = sheets_[rows_[r].sheet].name + ":" + std::to_string(rows_[r].line);
    for (const auto other : leaning[r]) {
      if (rows_[other].bad) continue;
      fault(other, "", rows_[r].code, "this row leans on " + place + ", which is refused");
      bad.push_back(other);
    }
  }
}

SheetReport SheetImport::finish() {
  for (const auto& sheet : sheets_) {
    SheetCount count{sheet.name, sheet.kind.word, sheet.rows.size(), 0};
    for (const auto& row : rows_) {
      if (&sheets_[row.sheet] == &sheet && row.bad) ++count.refused;
    }
    report_.sheets.push_back(count);
  }
  const auto place = [this](const RowFault& fault) {
    return std::find_if(sheets_.begin(), sheets_.end(),
                        [&](const Sheet& s) { return s.name == fault.file; }) -
           sheets_.begin();
  };
  std::stable_sort(report_.faults.begin(), report_.faults.end(), [&](const RowFault& a, const RowFault& b) {
    return std::make_pair(place(a), a.line) < std::make_pair(place(b), b.line);
  });
  return std::move(report_);
}

SheetReport import_sheets(const std::vector<std::filesystem::path>& files, EntrySink& sink,
                          const SheetOptions& options) {
  SheetImport import(sink, options);
  for (const auto& file : files) import.read(file);
  import.collect_records();
  import.make_drafts();
  import.check();
  if (import.fault_count() > 0) {
    if (!options.take_good_rows) return import.finish();
    import.refuse_dependents();
  }
  const auto before = import.fault_count();
  import.apply();
  const bool all_added = import.fault_count() == before;
  auto report = import.finish();
  report.applied = all_added;
  report.try_again = !all_added && options.take_good_rows;
  return report;
}

}  // namespace lathbook
