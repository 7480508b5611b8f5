// The three forms of a sheet; each writes the whole of it to a stream and nothing that is not in it.
#pragma once

#include <cstddef>
#include <ostream>
#include <string>

#include "plugins/sheet/content.hpp"

namespace lathbook {
class XmlWriter;
}

namespace lathbook::sheet {

/// One self-contained page: HTML 5 that is well-formed XML too, no script, nothing fetched.
void write_html(const Sheet& sheet, std::ostream& out);
/// Plain text, lines of at most `columns` columns where words allow; `reasons` adds why each date is what it
/// is.
void write_text(const Sheet& sheet, std::ostream& out, std::size_t columns, bool reasons);
void write_json(const Sheet& sheet, std::ostream& out);

/// The drawing as SVG elements, each with as many rows as a sheet of paper holds; ids begin with `prefix`.
/// Narrow: the names stand above their bars.
void write_charts(const Sheet& sheet, XmlWriter& out, const std::string& prefix, bool narrow);

/// The style sheet of the page.
extern const char* const page_style;

}  // namespace lathbook::sheet
