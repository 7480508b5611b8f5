// Writes the sheets of records.
#include "plugins/tables/record_sheet.hpp"

#include <algorithm>

#include "core/view/addresses.hpp"
#include "core/view/record_view.hpp"
#include "plugins/tables/values.hpp"

namespace lathbook::tables {

namespace {

std::string datatype_of(ValueType type) {
  switch (type) {
    case ValueType::integer:
      return "integer";
    case ValueType::number:
      return "decimal";
    case ValueType::uri:
      return "anyURI";
    default:
      return "string";
  }
}

bool is_shown(const Property& property) {
  return property.id != property::kind && property.id != property::code &&
         property.type != ValueType::statement && property.type != ValueType::media;
}

/// Ids of properties that some record of the kind has a current statement of.
std::set<std::uint32_t> used_properties(const Snapshot& archive, const Carried& carried, Kind kind) {
  std::set<std::uint32_t> used;
  archive.statements().each_record(kind, [&](const RecordInfo& info) {
    if (!carried.has_row(info) || !carried.is_whole(info.id)) return true;
    Query query;
    query.subject = info.id;
    archive.statements().each_statement(query, [&](const Statement& statement) {
      if (statement.presence == Presence::present) used.insert(statement.content.property);
      return true;
    });
    return true;
  });
  return used;
}

std::string shown_value(const Carried& carried, const Statement& statement, const Property& property) {
  if (property.type == ValueType::record) {
    const auto id = Uuid::parse(statement.content.value);
    return id ? carried.code(*id) : std::string();
  }
  if (property.type == ValueType::date) return std::string(edtf_of(statement.content));
  return statement.content.value;
}

/// Who made the record, as the statement of its kind says.
std::string recorder(const Carried& carried, const RecordView& record) {
  const Statement* kind = record.best("kind");
  return kind != nullptr && kind->content.recorder ? carried.code(*kind->content.recorder) : std::string();
}

void write_cells(SheetWriter& writer, const Carried& carried, const RecordView& record,
                 const Property& property) {
  const auto facts = record.all(property.name);
  std::string cell;
  const std::size_t shown = property.many ? facts.size() : std::min<std::size_t>(facts.size(), 1);
  for (std::size_t i = 0; i < shown; ++i) {
    const std::string value = shown_value(carried, *facts[i], property);
    if (!value.empty()) cell += (cell.empty() ? "" : " | ") + value;
  }
  writer.cell(cell);
  if (property.type != ValueType::date) return;
  const std::string edtf = record.edtf(property.name);
  writer.cell(first_day(edtf));
  writer.cell(last_day(edtf));
}

}  // namespace

std::string sheet_file(Kind kind) {
  if (kind == Kind::unknown || kind == Kind::archive) return {};
  const std::string word(lathbook::word(kind));
  return (kind == Kind::finish ? word + "es" : word + "s") + ".csv";
}

std::set<Kind> kinds_with_rows(const Snapshot& archive, const Carried& carried) {
  std::set<Kind> kinds;
  for (const Kind kind : all_kinds()) {
    archive.statements().each_record(kind, [&](const RecordInfo& info) {
      if (!carried.has_row(info)) return true;
      kinds.insert(kind);
      return false;
    });
  }
  return kinds;
}

std::optional<Sheet> record_sheet(const Snapshot& archive, const Carried& carried, Kind kind,
                                  const std::set<Kind>& with_sheet) {
  const std::string file = sheet_file(kind);
  if (file.empty() || with_sheet.count(kind) == 0) return std::nullopt;
  Sheet sheet{file,
              "One row for each " + std::string(word(kind)) +
                  ", with what is best founded of it; what is said in full stands in statements.csv.",
              "code",
              {}};
  const auto reference = [&](Kind target) {
    return with_sheet.count(target) != 0 ? sheet_file(target) : std::string();
  };
  sheet.columns = {{"code", "string", "", true, false, ""},
                   {"recorder", "string", "", false, false, reference(Kind::agent)},
                   {"(address)", "anyURI", "", false, false, ""}};
  for (const std::uint32_t id : used_properties(archive, carried, kind)) {
    const Property* property = Registry::standard().find(id);
    if (property == nullptr || !is_shown(*property)) continue;
    const bool one_kind = property->type == ValueType::record && property->targets.size() == 1;
    const bool date = property->type == ValueType::date;
    // A column of several values can refer to nothing: a foreign key compares whole cells.
    sheet.columns.push_back({"(" + property->name + ")", datatype_of(property->type),
                             date ? kEdtfPattern : "", false, property->many,
                             one_kind && !property->many ? reference(property->targets.front()) : ""});
    if (!date) continue;
    sheet.columns.back().format = property->many ? "" : kEdtfPattern;
    for (const char* bound : {" earliest)", " latest)"})
      sheet.columns.push_back({"(" + property->name + bound, "date", "", false, false, ""});
  }
  return sheet;
}

void write_records(const Snapshot& archive, Carried& carried, const Sheet& sheet, Kind kind,
                   std::ostream& out, const std::string& base, Services& services) {
  std::vector<const Property*> properties;
  for (const Column& column : sheet.columns) {
    if (column.title.size() < 3 || column.title == "(address)") continue;
    // The bounds beside a date have no property of their name.
    if (const auto* property =
            Registry::standard().find(std::string_view(column.title).substr(1, column.title.size() - 2)))
      if (column.title.front() == '(') properties.push_back(property);
  }
  SheetWriter writer(out, sheet);
  archive.statements().each_record(kind, [&](const RecordInfo& info) {
    if (services.stop_requested()) return false;
    if (!carried.has_row(info)) {
      if (info.code.empty() && carried.is_whole(info.id)) carried.uncarried().add("records without a code");
      return true;
    }
    RecordView record;
    record.info = info;
    if (carried.is_whole(info.id)) record = RecordView::read(archive.statements(), info);
    writer.cell(info.code);
    writer.cell(recorder(carried, record));
    writer.cell(record_address(base, info.id));
    for (const Property* property : properties) write_cells(writer, carried, record, *property);
    writer.end_row();
    return true;
  });
}

}  // namespace lathbook::tables
