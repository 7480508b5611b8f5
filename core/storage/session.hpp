// The writing session behind Writer: one transaction, one chain.
#pragma once

#include <memory>
#include <optional>

#include "core/evidence/registry.hpp"
#include "core/storage/archive.hpp"
#include "core/storage/cell_book.hpp"
#include "core/storage/chain_memory.hpp"
#include "core/storage/database.hpp"
#include "core/storage/ledger_store.hpp"
#include "core/storage/media_store.hpp"
#include "core/storage/sqlite_reader.hpp"

namespace lathbook {

class Session : public Writer {
public:
  Session(const Database& database, std::filesystem::path database_file, const Uuid& archive,
          std::shared_ptr<MediaStore> media, const Clock& clock, bool bulk);
  ~Session() override;

  void accept_clock() override { clock_accepted_ = true; }
  Uuid make_record(Kind kind, std::string_view code, const std::optional<Uuid>& recorder) override;
  Digest add(Content content) override;
  Digest expunge(const std::vector<Digest>& targets, const std::string& why,
                 const std::optional<Uuid>& recorder) override;
  Taken take(const Sealed& sealed) override {
    seats_.forget();
    return store_.take(sealed);
  }
  std::optional<RecordInfo> record_by_code(std::string_view code) const override;
  std::optional<RecordInfo> record(const Uuid& id) const override;
  std::vector<std::string> nearest_codes(std::string_view code) const override;
  MediaFile add_media(const std::filesystem::path& file) override { return media_->add(file); }
  std::optional<Statement> statement(const Digest& id) const override;
  void adopt_identity(const Uuid& archive) override;
  void commit() override;

private:
  void choose_chain();
  void check_clock(const Moment& now) const;
  Digest append(const Content& content);
  std::optional<Kind> kind_of(const Uuid& id) const;

  const Database& database_;
  const Registry& registry_;
  std::filesystem::path file_;
  std::shared_ptr<MediaStore> media_;
  const Clock& clock_;
  ChainMemory memory_;
  Transaction transaction_;
  LedgerStore store_;
  CellBook seats_;
  bool clock_accepted_ = false;
  std::optional<ChainId> chain_;
  std::uint64_t number_ = 0;
  std::optional<Digest> head_before_;
  std::optional<Digest> head_;
  std::optional<Moment> last_entry_;
};

}  // namespace lathbook
