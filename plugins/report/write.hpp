// The two forms of a report.
#pragma once

#include <ostream>
#include <string>

#include "plugins/report/tree.hpp"

namespace lathbook::report {

/// One page of HTML that is well-formed XML too, pictures inside.
void write_html(const Document& document, std::ostream& out);
/// An OpenDocument text (ISO/IEC 26300, version 1.3), pictures inside. The same document gives the same
/// bytes.
void write_odt(const Document& document, std::ostream& out);

/// The style sheet of the page.
extern const char* const page_style;
/// styles.xml of the text document, whole but for the name in the page header.
std::string text_styles(const Document& document);

/// "Figure 7, ring 1": where a note's source is to be seen in the report.
std::string figure_words(const CitedPlace& place);
/// Calls `out` for each place of a note: with its words, what leads over to its figure, and what closes it.
template <typename Out>
void each_place(const Note& note, const Out& out) {
  for (std::size_t at = 0; at < note.places.size(); ++at) {
    CitedPlace place = note.places[at];
    const bool last = at + 1 == note.places.size();
    if (!last && !place.words.empty() && place.words.back().text.ends_with('.'))
      place.words.back().text.pop_back();
    out(place, std::string(last ? " " : ", "), std::string(!last ? "; " : place.figure == 0 ? "" : "."));
  }
}
/// "Figure 7. The photograph ...", "Table 3. Owners ...": a line of the lists at the front.
std::string figure_line(const Figure& figure);
std::string table_line(const Table& table);
/// The bibliography parted into its kinds: the heading of each, and its lines.
struct KindOfSources {
  std::string heading;
  std::vector<Entry> entries;
};
std::vector<KindOfSources> by_kind(const std::vector<Entry>& entries);

}  // namespace lathbook::report
