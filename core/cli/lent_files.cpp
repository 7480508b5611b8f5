#include "core/cli/lent_files.hpp"

#include <fstream>

#include "core/base/text.hpp"
#include "core/exchange/xml_out.hpp"

namespace lathbook::cli {

LentFiles::~LentFiles() = default;

const LedgerSource& LentFiles::ledger() const {
  if (ledger_) return *ledger_;
  archive_ = std::make_unique<Archive>(context_.archive_folder(), context_.clock());
  ledger_ = archive_->ledger(context_.read_options());
  if (ledger_->fingerprint() != reading_.fingerprint) {
    fail(ErrorKind::invalid,
         "something was entered while this was being written; nothing is lost, ask for it again");
  }
  for (const auto& file : ledger_->media()) media_.emplace(file.digest, file.path);
  return *ledger_;
}

std::unique_ptr<std::istream> LentFiles::media(const Digest& digest) const {
  static_cast<void>(ledger());
  const auto found = media_.find(digest);
  std::error_code failed;
  if (found == media_.end() || !std::filesystem::exists(found->second, failed)) return nullptr;
  auto stream = std::make_unique<std::ifstream>(found->second, std::ios::binary);
  if (!*stream) fail(ErrorKind::denied, safe_display(found->second.string()) + ": cannot be read");
  return stream;
}

void LentFiles::write_exchange(std::ostream& out) const {
  lathbook::write_exchange(ledger(), out);
}

}  // namespace lathbook::cli
