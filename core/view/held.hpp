// Which statements of a record may be told as plain facts: one rule for every export that tells both facts
// and claims.
#pragma once

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/base/api.hpp"
#include "core/evidence/reader.hpp"

namespace lathbook {

/// What a format decides for itself about statements that stand beside each other.
struct HeldRules {
  /// Whether a statement has a voice at all: false for one that is set aside, say. Statements that are not
  /// current have none in any case.
  std::function<bool(const Statement&)> counts;
  /// The question that a statement answers, when only one answer can be true; nothing when values stand side
  /// by side.
  std::function<std::optional<std::string>(const Statement&)> question;
  /// Whether 'probable' suffices. 'Possible' and 'conjecture' never do; clerical statements always do.
  bool probable_suffices = true;
};

/// One answer for each statement of a record: true when it has a voice, its confidence suffices, and no other
/// statement that has a voice answers the same question otherwise. Dates are compared by their EDTF.
LATHBOOK_API std::vector<bool> held_among(const std::vector<Statement>& statements, const HeldRules& rules);

/// The statements that rulings of the archive set aside. Rulings are few, and any may bear on any record.
LATHBOOK_API std::set<Digest> ruled_aside(const StatementReader& reader);

}  // namespace lathbook
