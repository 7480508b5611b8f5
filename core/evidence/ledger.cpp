#include "core/evidence/ledger.hpp"

namespace lathbook {

LedgerSource::~LedgerSource() = default;
LedgerSink::~LedgerSink() = default;
EntrySink::~EntrySink() = default;

}  // namespace lathbook
