// The table of source types: what each is called in the Citation Style Language and in BibTeX.
#pragma once

#include <string_view>

namespace lathbook::citations {

/// Where the property `published-in` goes, which says newspaper, publisher or place as the citation has it.
enum class Published { container, publisher };

struct SourceForm {
  std::string_view source_type;  ///< a word of the registry's list, empty for all others
  std::string_view csl_type;
  std::string_view genre;  ///< CSL's word for what it is; empty when the type says it
  std::string_view entry;  ///< BibTeX
  Published published = Published::container;
};

/// The form of a source type; the last row of the table for a type that it does not name.
const SourceForm& form_of(std::string_view source_type);

}  // namespace lathbook::citations
