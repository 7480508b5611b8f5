// Readings of the database: current or older states, filtered for privacy.
#pragma once

#include <memory>
#include <optional>
#include <unordered_map>

#include "core/base/calendar.hpp"
#include "core/evidence/ledger.hpp"
#include "core/evidence/reader.hpp"
#include "core/storage/database.hpp"
#include "core/storage/media_store.hpp"
#include "core/storage/scope.hpp"

namespace lathbook {

/// Both faces of one state: statements for people and plugins, sealed statements for exchange.
class SqliteReader : public StatementReader, public LedgerSource {
public:
  /// `scope` absent = the head. `day` = the day on which privacy is judged.
  SqliteReader(const Database& database, Uuid archive, std::shared_ptr<MediaStore> media, bool with_private,
               std::optional<Scope> scope, Day day);
  ~SqliteReader() override;

  Reading reading() const override;
  void each_statement(const Query& query, const OnStatement& on_statement) const override;
  void each_record(Kind kind, const OnRecord& on_record) const override;
  void each_record_with(Kind kind, const std::vector<std::uint32_t>& properties,
                        const OnRecordWith& on_record) const override;
  std::optional<RecordInfo> record(const Uuid& id) const override;
  std::optional<RecordInfo> record_by_code(std::string_view code) const override;
  std::optional<Statement> statement(const Digest& id) const override;

  void each_sealed(const std::function<bool(const Sealed&)>& on_sealed) const override;
  std::uint64_t count() const override;
  Digest fingerprint() const override { return fingerprint_; }
  Uuid archive_id() const override { return archive_; }
  std::vector<MediaFile> media() const override;

  /// The record meant by a code that may carry the suffix of a clash; `carriers` gives all records with a
  /// bare code, their shown codes suffixed. Throws Error(invalid) when the code is not enough.
  static std::optional<RecordInfo> by_code(
      std::string_view code, const std::function<std::vector<RecordInfo>(const std::string&)>& carriers);

private:
  std::string from() const;
  std::string may_be_shown() const;
  bool may_show(std::int64_t closed) const { return with_private_ || closed == 0 || closed <= day_; }
  std::uint64_t count_withheld() const;
  bool is_rare(Kind kind) const;
  /// A record found, with its row; the key of its code's natural order where they had to be sorted.
  struct Listed {
    std::string key;
    RecordInfo info;
    std::int64_t row = 0;
  };
  /// A record as it stood in an older state.
  struct Then {
    RecordInfo info;
    std::int64_t row = 0;
  };
  std::vector<Listed> listed(Kind kind) const;
  std::string record_columns(bool for_many) const;
  RecordInfo info(const Prepared& row) const;
  void gather_records();
  std::vector<RecordInfo> carriers(const std::string& code) const;
  bool run(Prepared& query, const OnStatement& on_statement) const;
  std::vector<std::int64_t> chains() const;

  const Database& database_;
  Uuid archive_;
  std::shared_ptr<MediaStore> media_;
  bool with_private_;
  bool is_head_;
  Day day_;
  Digest fingerprint_;
  std::unique_ptr<Transaction> transaction_;
  mutable std::optional<std::uint64_t> withheld_;  ///< counted when first asked for
  std::unordered_map<Uuid, Then> then_;            ///< records as they stood in an older state
};

/// The parts of a statement row "id, digest, header, presence, content, current".
Statement statement_of(const Prepared& row);
/// The same into a statement that was read before, whose room is used again.
void read_statement(const Prepared& row, Statement& into);

}  // namespace lathbook
