// What a record's row shows: kind, code and name, and whether it is hidden; from its current statements.
#pragma once

#include <cstdint>
#include <string>

#include "core/evidence/registry.hpp"
#include "core/evidence/statement.hpp"
#include "core/storage/database.hpp"

namespace lathbook {

/// Gathers the current statements of one record in order of entry, then writes its row.
class RecordFacts {
public:
  /// Permanent ids of the properties that matter, for an SQL list.
  static std::string wanted();

  void add(const Content& content, std::int64_t closed);
  void store(const Database& database, std::int64_t record) const;

  /// What the record's row says; `open` = what may be shown in public.
  Kind kind() const { return kind_; }
  const std::string& code(bool open) const { return open ? open_code_.text : code_.text; }
  const std::string& name(bool open) const { return open || name_.rank == 0 ? open_name_.text : name_.text; }
  std::int64_t closed() const { return closed_; }
  /// An interview whose speaker has not consented.
  bool silent() const { return interview_ && !consent_; }

private:
  struct Shown {
    std::string text;
    int rank = 0;  ///< higher wins; the earlier entered stays among equals
  };
  static void offer(Shown& shown, const std::string& text, int rank);

  Kind kind_ = Kind::unknown;
  Shown code_;
  Shown open_code_;
  Shown name_;
  Shown open_name_;
  std::int64_t closed_ = 0;
  bool interview_ = false;
  bool consent_ = false;
};

}  // namespace lathbook
