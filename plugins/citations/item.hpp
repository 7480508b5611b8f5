// One source as citation programs see it: plain fields, before any syntax.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/view/snapshot.hpp"
#include "core/view/uncarried.hpp"
#include "plugins/citations/mapping.hpp"

namespace lathbook::citations {

/// A date as CSL has it: year, and month and day where they are told.
struct DatePart {
  std::int64_t year = 0;
  int month = 0;   ///< 0 = not told
  int day = 0;     ///< 0 = not told
  int season = 0;  ///< 1 spring to 4 winter; 0 = none
};

/// The form of an EDTF date that a citation can carry; empty text and no parts when there is none.
struct CitedDate {
  std::vector<DatePart> parts;  ///< one, or two for a span; none when it is open at an end or not known
  bool circa = false;
  std::string edtf;   ///< whole
  std::string words;  ///< as typed
};

CitedDate cited_date(const std::string& edtf, const std::string& typed);

struct Item {
  Uuid record;
  std::string key;  ///< the source's code, or its id when it has none
  const SourceForm* form = nullptr;
  std::string source_type;
  std::string title;
  std::vector<std::string> authors;  ///< as the citation writes them, in the order of entry
  std::vector<std::string> interviewers;
  CitedDate issued;
  std::string repository, shelf_mark, extent, published_in, rights, web_page, abstract, note, language;
  std::vector<Digest> media;
};

/// Reads one source; competing statements and properties without a place in a citation are counted.
Item item_of(const StatementReader& reader, const SourceView& source, Uncarried& uncarried);

}  // namespace lathbook::citations
