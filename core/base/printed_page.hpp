// A self-contained page for the printer: one look for every work sheet, list and label of the house.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "core/base/api.hpp"
#include "core/base/xml_writer.hpp"

namespace lathbook {

/// Writes XHTML that HTML readers take too. Between constructor and finish() the caller writes the body with
/// xml(). A4 and Letter alike: nothing is wider than 180 mm.
class LATHBOOK_API PrintedPage {
public:
  /// `kind` stands small above the title ("Crate list").
  PrintedPage(std::ostream& out, const std::string& kind, const std::string& title);
  PrintedPage(const PrintedPage&) = delete;
  PrintedPage& operator=(const PrintedPage&) = delete;

  XmlWriter& xml() { return xml_; }
  PrintedPage& heading(const std::string& text);
  PrintedPage& paragraph(const std::string& text);
  /// The loudest block, above all others: where work is stopped; nothing when there are no lines.
  PrintedPage& stopped(const std::vector<std::string>& lines);
  /// A framed block of cautions; nothing when there are none.
  PrintedPage& cautions(const std::vector<std::string>& lines);
  /// A table; rows shorter than the header are filled.
  PrintedPage& table(const std::string& caption, const std::vector<std::string>& header,
                     const std::vector<std::vector<std::string>>& rows);
  /// A foot line (state of the archive, day), then the end of the document.
  void finish(const std::string& foot);

private:
  XmlWriter xml_;
};

}  // namespace lathbook
