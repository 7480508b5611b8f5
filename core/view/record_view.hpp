// A record with all that is currently said of it: the common ground of the typed views.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"
#include "core/evidence/reader.hpp"

namespace lathbook {

/// Value type; owns copies. `facts` are the current statements about the record in exchange order, so
/// competing ones stand side by side; functions that want one answer take the best: certain before
/// probable before possible before conjecture, then the later entered.
class LATHBOOK_API RecordView {
public:
  RecordInfo info;
  std::vector<Statement> facts;

  static RecordView read(const StatementReader& reader, const RecordInfo& info);

  /// All current statements of a property (by permanent name of the registry), best first.
  std::vector<const Statement*> all(std::string_view property) const;
  /// The best statement of a property, or null.
  const Statement* best(std::string_view property) const;
  /// Statements about a state that changes, each with the day since when it is so (detail 'on'): earliest
  /// first, undated ones before all; of one day in order of entry.
  std::vector<const Statement*> history(std::string_view property) const;
  /// The last of history(), or null; of several of one day the best.
  const Statement* latest(std::string_view property) const;
  /// Value of the best statement, empty when there is none.
  std::string text(std::string_view property) const;
  /// EDTF of the best statement of a date property (the typed form's EDTF where it was typed in words).
  std::string edtf(std::string_view property) const;
  /// The record named by the best statement of a record property.
  std::optional<Uuid> record(std::string_view property) const;
};

/// EDTF text of a date statement: `edtf` when words were typed, else the value.
LATHBOOK_API std::string_view edtf_of(const Content& content);
/// Code and name for people: "N-203 sea-green tile field"; the id when a record has neither.
LATHBOOK_API std::string display(const RecordInfo& info);

}  // namespace lathbook
