// What a result offers for acceptance, whatever analysis it comes from.
#pragma once

#include <string>
#include <vector>

#include "core/analysis/result.hpp"
#include "core/base/api.hpp"

namespace lathbook {

/// The drafts in a result: the member `proposals` of its struct; none when it has no such member.
LATHBOOK_API std::vector<Draft> proposals_of(const AnalysisResult& result);

/// A short handle of a draft, eight hexadecimal digits made from what it says: the same proposal has the
/// same handle as long as its content is the same, whatever else is proposed beside it.
LATHBOOK_API std::string proposal_key(const Draft& draft);

}  // namespace lathbook
