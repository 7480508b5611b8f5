// One import of sheets under way: what its steps share. Internal to core/exchange.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/exchange/sheet_cells.hpp"
#include "core/exchange/sheet_header.hpp"
#include "core/exchange/sheets.hpp"

namespace lathbook {

struct Sheet {
  std::filesystem::path path;
  std::string name;  ///< as given
  SheetKind kind;
  std::vector<SheetColumn> columns;
  std::vector<CsvRow> rows;
  bool bad_header = false;  ///< its faults are told once; every row is refused
};

struct SheetRow {
  std::size_t sheet = 0;
  std::size_t cells = 0;  ///< index into the sheet's rows
  std::uint64_t line = 0;
  Kind kind = Kind::unknown;  ///< of the record that it makes
  std::string code;
  Uuid id;  ///< stands for the record until it is made
  bool bad = false;
  std::set<std::size_t> needs;  ///< rows whose records or statements it names
};

/// A statement to be: ids of new records and statements in it are stand-ins.
struct SheetDraft {
  std::size_t row = 0;
  std::string column;
  std::string value;
  Content content;
  std::string ref;
  std::set<std::string> handles;  ///< statements of this import that it names
  std::filesystem::path media;    ///< file to be copied
};

using CellMap = std::map<std::string, std::string>;

class SheetImport {
public:
  SheetImport(EntrySink& sink, const SheetOptions& options);

  void read(const std::filesystem::path& file);
  void collect_records();
  void make_drafts();
  void check();
  void refuse_dependents();
  void apply();
  std::size_t fault_count() const { return report_.faults.size(); }
  SheetReport finish();

private:
  // sheet_drafts.cpp: one row into drafts
  void draft_record_row(std::size_t row);
  void draft_cell(std::size_t row, const SheetColumn& column, const std::string& cell,
                  const CellMap& details);
  void draft_relation(std::size_t row);
  void draft_statement(std::size_t row);
  void set_value(SheetDraft& draft, const Property& property, const std::string& value);
  void set_media(SheetDraft& draft, const std::string& value);
  void set_details(SheetDraft& draft, const Property* property, const CellMap& row, const CellMap& own);
  void set_citations(SheetDraft& draft, const Property* property, const CellMap& row, const CellMap& own);
  void set_handles(SheetDraft& draft, const std::string& column, const std::string& cell,
                   std::vector<Digest>& into);
  void keep_qualifiers(SheetDraft& draft, const Property& property, const Details& details, CellMap* own);
  CellMap row_details(const SheetRow& row) const;
  Details qualifier_cells(const SheetRow& row) const;
  std::optional<Uuid> resolve(SheetDraft& draft, const std::string& column, const std::string& code);
  std::optional<Digest> statement_named(SheetDraft& draft, const std::string& column,
                                        const std::string& handle);
  const Property* property_cell(SheetDraft& draft, const std::string& column, const std::string& title);

  // sheet_checks.cpp: what one row cannot know
  void check_content(SheetDraft& draft);
  void check_handles();
  void check_counts();
  void check_loops();
  void order_drafts();

  // sheets.cpp: adding
  void make_records();
  /// Who is named as having entered a row; a stand-in when it is a record of these sheets.
  std::optional<Uuid> recorder_of(std::size_t row) const;
  void add(SheetDraft& draft);
  Uuid real(const Uuid& id) const;

  void fault(std::size_t row, const std::string& column, const std::string& value, const std::string& reason);
  std::optional<Kind> kind_of(const Uuid& id) const;
  std::string code_of(const Uuid& id) const;

  EntrySink& sink_;
  const SheetOptions& options_;
  const Registry& registry_;
  std::vector<Sheet> sheets_;
  std::vector<SheetRow> rows_;
  std::vector<SheetDraft> drafts_;
  std::vector<std::size_t> order_;
  std::unordered_map<std::string, std::size_t> row_of_code_;
  std::unordered_map<Uuid, std::size_t> row_of_id_;
  std::unordered_map<std::string, std::size_t> draft_of_ref_;
  mutable std::unordered_map<Uuid, std::optional<RecordInfo>> known_;
  std::unordered_map<Uuid, Uuid> made_;
  std::unordered_map<std::string, Digest> added_;
  SheetReport report_;
};

/// The id that stands for a statement of this import until it is added.
Digest stand_in(const std::string& handle);

}  // namespace lathbook
