#include "core/base/error.hpp"

#include <algorithm>

namespace lathbook {

Error::Error(ErrorKind kind, const std::string& message) : std::runtime_error(message), kind_(kind) {}
Error::~Error() = default;

void fail(ErrorKind kind, const std::string& message) {
  throw Error(kind, message);
}

bool has_fault(const Findings& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& f) { return f.severity == Severity::fault; });
}

}  // namespace lathbook
