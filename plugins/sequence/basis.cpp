// Looks the statements up again: results carry their ids only.
#include "plugins/sequence/basis.hpp"

#include "core/view/record_view.hpp"

namespace lathbook::sequence {

std::string basis_of(const Snapshot& archive, const SequenceRelation& relation) {
  std::string words;
  for (const Digest& id : relation.statements) {
    const auto statement = archive.statements().statement(id);
    if (!statement) continue;
    words += (words.empty() ? "" : "; ") + statement->name();
    std::string cited;
    for (const Citation& citation : statement->content.citations) {
      const auto source = archive.statements().record(citation.source);
      cited +=
          (cited.empty() ? ": " : "; ") + (source ? display(*source) : "a source that is not to be seen");
      if (!citation.locator.empty()) cited += ", " + citation.locator;
    }
    words += cited + "; " + std::string(word(statement->content.confidence));
  }
  return words;
}

}  // namespace lathbook::sequence
