#include "core/evidence/reader.hpp"

namespace lathbook {

StatementReader::~StatementReader() = default;

}  // namespace lathbook
