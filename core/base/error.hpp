// The one exception that ends a command, and the findings that a check gathers.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

#include "core/base/api.hpp"

namespace lathbook {

/// What went wrong; the command line turns it into an exit code (docs/commands.md).
enum class ErrorKind {
  invalid,      ///< the user's input breaks a rule
  not_found,    ///< a record, statement, file or plugin that was named does not exist
  corrupt,      ///< stored bytes do not fit their digest or their format
  denied,       ///< privacy, a lock or a permission forbids it
  unsupported,  ///< made by a newer program, or a feature this build lacks
  io            ///< the disk or the system refused
};

/// One clear sentence: what, where, what to do. `what()` is that sentence, without a full stop
/// being added; `where` (file:line:column, statement name, command argument) may be empty and is
/// already part of the sentence.
class LATHBOOK_API Error : public std::runtime_error {
public:
  Error(ErrorKind kind, const std::string& message);
  ~Error() override;
  ErrorKind kind() const noexcept { return kind_; }

private:
  ErrorKind kind_;
};

[[noreturn]] LATHBOOK_API void fail(ErrorKind kind, const std::string& message);

enum class Severity { note, warning, fault };

/// One thing found by a check. `code` is a stable dotted word ("chain.gap"), `text` one sentence,
/// `place` names the statement, record or file:line:column concerned.
struct Finding {
  Severity severity = Severity::fault;
  std::string code;
  std::string text;
  std::string place;
  bool operator==(const Finding&) const = default;
};

using Findings = std::vector<Finding>;

/// True when at least one finding is a fault.
LATHBOOK_API bool has_fault(const Findings& findings);

}  // namespace lathbook
