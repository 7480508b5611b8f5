#include "core/analysis/proposals.hpp"

#include "core/evidence/encoding.hpp"

namespace lathbook {

std::vector<Draft> proposals_of(const AnalysisResult& result) {
  return std::visit(
      [](const auto& answer) -> std::vector<Draft> {
        if constexpr (requires { answer.proposals; }) {
          return answer.proposals;
        } else {
          return {};
        }
      },
      result);
}

std::string proposal_key(const Draft& draft) {
  return sha256(encode_content(draft.content)).hex().substr(0, 8);
}

}  // namespace lathbook
