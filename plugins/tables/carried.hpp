// Which records and statements go into the sheets, and how they are named there.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <unordered_map>

#include "core/plugin/plugin.hpp"
#include "core/view/snapshot.hpp"
#include "core/view/uncarried.hpp"

namespace lathbook::tables {

/// Made by one walk over the statements; holds no more than the records of the part and the corrections.
class Carried {
public:
  Carried(const Snapshot& archive, const Uuid& scope, Services& services);

  /// Whether a row is made for the record: it is in the part, or named from within it.
  bool has_row(const RecordInfo& info) const;
  /// Whether its statements are carried too.
  bool is_whole(const Uuid& record) const { return !whole_ || whole_->count(record) != 0; }
  /// The code of a record that has a row; empty for others.
  std::string code(const Uuid& record) const;
  /// Whether the statement becomes a row of statements.csv. Counts what does not, when `counts`.
  bool takes(const Statement& statement, bool counts);
  /// The handle of a statement that is carried; empty for others.
  std::string handle(const Digest& id);
  static std::string handle_of(const Statement& statement);
  /// Names of details that need a column of their own somewhere.
  const std::set<std::string>& details_apart() const { return details_apart_; }
  Uncarried& uncarried() { return uncarried_; }

private:
  void gather_part(const Snapshot& archive, const Uuid& scope);
  void gather_corrections(Services& services);
  /// Empty when the statement can stand in a sheet, else why not.
  std::string obstacle(const Statement& statement);
  std::string value_obstacle(const Content& content, const Property& property);
  bool rivals_an_earlier(const Statement& statement) const;
  bool has_file(const Digest& digest);

  const StatementReader& reader_;
  const ArchiveFiles& files_;
  std::optional<std::set<Uuid>> whole_;  ///< unset = everything
  std::set<Uuid> named_;
  std::set<Digest> taken_back_;  ///< replaced or withdrawn by a statement that is shown
  std::set<std::string> details_apart_;
  std::unordered_map<Digest, bool> there_;
  Uncarried uncarried_;
};

}  // namespace lathbook::tables
