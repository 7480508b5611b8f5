// The two syntaxes of citations.
#pragma once

#include <memory>
#include <ostream>
#include <string>

#include "core/base/json_writer.hpp"
#include "plugins/citations/item.hpp"

namespace lathbook::citations {

/// Hears items one by one. The stream outlives the writer; without finish() the output is incomplete.
class Writer {
public:
  virtual ~Writer() = default;
  virtual void write(const Item& item) = 0;
  virtual void finish() = 0;
};

/// An array of items after the schema csl-data.json of the Citation Style Language 1.0.2: no field that the
/// schema does not know; dates as date-parts, never as EDTF text, which that schema refuses. What it has no
/// field for stands under `custom`.
std::unique_ptr<Writer> csl_json_writer(std::ostream& out, const std::string& base);

/// BibTeX in UTF-8, as biber and current BibTeX programs read it; what TeX would take as a command is written
/// as one.
std::unique_ptr<Writer> bibtex_writer(std::ostream& out, const std::string& base);

/// Words inside a BibTeX field: every special character of TeX as its command, no brace left alone.
std::string bibtex_words(std::string_view text);

}  // namespace lathbook::citations
