// What this user's machine remembers of the chains it writes, outside the archive: how a copied folder
// or a restored backup is told from the archive that was last written to.
#pragma once

#include <filesystem>
#include <optional>

#include "core/base/digest.hpp"
#include "core/base/identifier.hpp"

namespace lathbook {

/// One small file per archive and file identity in the user's state folder. A memory that cannot be
/// read or written costs a new chain, nothing more, so failures are not errors.
class ChainMemory {
public:
  ChainMemory(const Uuid& archive, const std::filesystem::path& database);

  /// True when the head inside the archive is the one remembered, or the one whose commit was under way.
  bool knows(const Digest& head) const;
  /// Before a commit: `next` is about to become the head.
  void expect(const std::optional<Digest>& head, const Digest& next) const;
  /// After it.
  void remember(const Digest& head) const;

private:
  std::filesystem::path file_;
};

}  // namespace lathbook
