// The media and the exchange document that exporters and reports may ask for.
#pragma once

#include <map>
#include <memory>

#include "core/cli/context.hpp"
#include "core/plugin/plugin.hpp"

namespace lathbook::cli {

/// Opens the archive a second time, with the same options, when a plugin first asks. The context must
/// outlive it.
class LentFiles : public ArchiveFiles {
public:
  LentFiles(const Context& context, Reading reading) : context_(context), reading_(reading) {}
  ~LentFiles() override;
  std::unique_ptr<std::istream> media(const Digest& digest) const override;
  void write_exchange(std::ostream& out) const override;

private:
  /// Throws Error(invalid) when the archive has changed since the reading was taken.
  const LedgerSource& ledger() const;

  const Context& context_;
  Reading reading_;
  mutable std::unique_ptr<Archive> archive_;
  mutable std::unique_ptr<LedgerSource> ledger_;
  mutable std::map<Digest, std::filesystem::path> media_;
};

}  // namespace lathbook::cli
