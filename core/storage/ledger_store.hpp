// The grow-only set of sealed statements in SQLite: adding, taking over, expunging, heads.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "core/evidence/ledger.hpp"
#include "core/storage/database.hpp"
#include "core/storage/index.hpp"

namespace lathbook {

/// Works inside one writing transaction that its owner commits.
class LedgerStore {
public:
  /// `bulk`: the archive was empty, statements come in exchange order without repeats, and indexes are
  /// built by finish(); otherwise everything is kept up to date at each step.
  LedgerStore(const Database& database, const Registry& registry, bool bulk);
  ~LedgerStore();
  LedgerStore(const LedgerStore&) = delete;
  LedgerStore& operator=(const LedgerStore&) = delete;

  Taken take(const Sealed& sealed);
  /// Destroys the content of statements for good; those that are not here are remembered.
  void erase(const std::vector<Digest>& targets);
  /// Settles what was touched. The owner then commits.
  void finish();

  std::vector<Digest> heads() const;
  /// True once something was erased, so that the owner sweeps the file after committing.
  bool erased_something() const { return erased_something_; }
  /// Media that erased statements cited and nothing else does; known after finish().
  const std::vector<Digest>& orphaned_media() const { return orphans_; }
  Index& index() { return index_; }

private:
  Taken take_known(std::int64_t row, Presence here, const Sealed& sealed);
  bool is_erased(const Digest& id);
  void insert(const Sealed& sealed, const Digest& id, const std::string& header, bool erased);
  void fill(std::int64_t row, const Sealed& sealed, const Digest& id);
  void move_heads(const Sealed& sealed, const Digest& id);
  void erase_row(std::int64_t row);
  void build_heads();

  const Database& database_;
  const Registry& registry_;
  bool bulk_;
  bool erased_something_ = false;
  std::vector<Digest> orphans_;
  std::vector<Digest> erase_later_;
  Index index_;
  Prepared find_;
  Prepared find_erased_;
  Prepared insert_;
  Prepared insert_seen_;
};

}  // namespace lathbook
