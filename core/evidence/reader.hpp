// How statements are read, whatever keeps them: one interface, already filtered for privacy and time.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"
#include "core/evidence/registry.hpp"
#include "core/evidence/statement.hpp"

namespace lathbook {

/// A record as the statements make it.
struct RecordInfo {
  Uuid id;
  Kind kind = Kind::unknown;
  std::string code;  ///< shown code: with a suffix where two records claim the same; may be empty
  std::string name;  ///< the name to show: name, title or description, else empty
};

/// Which statements are wanted. Unset members do not narrow.
struct Query {
  std::optional<Uuid> subject;
  std::optional<Uuid> object;             ///< statements whose value is this record
  std::optional<Uuid> source;             ///< statements citing this source
  std::optional<Kind> kind;               ///< subject of this kind
  std::vector<std::uint32_t> properties;  ///< any of these
  bool current_only = true;
};

/// What a reading stands on; printed on every report and export.
struct Reading {
  Digest fingerprint;          ///< of the heads read
  std::int64_t known_day = 0;  ///< day up to which it is known (days from 1970-01-01)
  bool is_head = true;         ///< false for an older state
  bool with_private = false;
  std::uint64_t withheld = 0;  ///< current statements left out for privacy (or not held by this copy)
};

/// Reads one state of an archive. Statements come in exchange order (chain, number, id) within a query.
/// Not for several threads at once. Functions throw Error(io) or Error(corrupt) when the store fails.
class LATHBOOK_API StatementReader {
public:
  /// Return false to stop. What is handed over may be kept by moving from it.
  using OnStatement = std::function<bool(Statement&)>;
  using OnRecord = std::function<bool(const RecordInfo&)>;
  using OnRecordWith = std::function<bool(const RecordInfo&, std::vector<Statement>&)>;

  virtual ~StatementReader();
  virtual Reading reading() const = 0;
  virtual void each_statement(const Query& query, const OnStatement& on_statement) const = 0;
  /// Records of a kind (unknown = all), in natural order of their codes.
  virtual void each_record(Kind kind, const OnRecord& on_record) const = 0;
  /// The same records, each with what is present and current of these properties (of all when none is
  /// named), in exchange order: one record is held at a time. Made of the two above where a store knows no
  /// quicker way.
  virtual void each_record_with(Kind kind, const std::vector<std::uint32_t>& properties,
                                const OnRecordWith& on_record) const;
  virtual std::optional<RecordInfo> record(const Uuid& id) const = 0;
  virtual std::optional<RecordInfo> record_by_code(std::string_view code) const = 0;
  virtual std::optional<Statement> statement(const Digest& id) const = 0;
};

}  // namespace lathbook
