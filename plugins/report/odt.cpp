// The report as an OpenDocument text: real headings, styles, footnotes, tables and pictures.
//
// Source: OASIS, Open Document Format for Office Applications (OpenDocument) Version 1.3, 2021, part 3.
#include <cstdio>
#include <map>
#include <set>
#include <sstream>

#include "core/base/text.hpp"
#include "core/base/xml_writer.hpp"
#include "plugins/report/package.hpp"
#include "plugins/report/phrases.hpp"
#include "plugins/report/tree_walk.hpp"
#include "plugins/report/write.hpp"

namespace lathbook::report {

namespace {

constexpr std::string_view kType = "application/vnd.oasis.opendocument.text";
constexpr double kTextWidth = 165;  ///< millimetres that fit A4 and Letter with the margins of the style

std::string millimetres(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2fmm", value);
  return text;
}

void namespaces(XmlWriter& out) {
  const std::string base = "urn:oasis:names:tc:opendocument:xmlns:";
  for (const auto& [prefix, name] : {std::pair{"office", "office:1.0"},
                                     {"text", "text:1.0"},
                                     {"table", "table:1.0"},
                                     {"draw", "drawing:1.0"},
                                     {"style", "style:1.0"},
                                     {"svg", "svg-compatible:1.0"},
                                     {"fo", "xsl-fo-compatible:1.0"},
                                     {"meta", "meta:1.0"}})
    out.attribute(std::string("xmlns:") + prefix, base + name);
  out.attribute("xmlns:ooow", "http://openoffice.org/2004/writer");
  out.attribute("xmlns:xlink", "http://www.w3.org/1999/xlink");
  out.attribute("xmlns:dc", "http://purl.org/dc/elements/1.1/");
  out.attribute("office:version", "1.3");
}

class Content {
public:
  Content(const Document& document, XmlWriter& out) : document_(document), out_(out) {
    for (const Note& note : document.notes) notes_[note.number] = &note;
  }

  std::vector<Member> pictures;
  std::vector<std::string> types;

  void write() {
    out_.start("office:document-content");
    namespaces(out_);
    automatic_styles();
    out_.start("office:body").start("office:text");
    out_.start("text:sequence-decls").start("text:sequence-decl");
    out_.attribute("text:display-outline-level", "0").attribute("text:name", "Figure").end();
    out_.start("text:sequence-decl").attribute("text:display-outline-level", "0");
    out_.attribute("text:name", "Table").end().end();
    title_page();
    contents();
    list_of<Figure>("page.figures", "figure-", [](const Figure& one) { return figure_line(one); });
    list_of<Table>("page.tables", "table-", [](const Table& one) { return table_line(one); });
    heading(1, phrase("chapter.front"), "about");
    for (const Block& one : document_.front) block(one);
    bool room_before = false;
    for (const Chapter& chapter : document_.chapters) {
      // Rooms of a page or two follow on: each on a page of its own, they would leave the rest of it empty.
      const bool follows_on = chapter.anchor.starts_with("room-") && room_before;
      room_before = chapter.anchor.starts_with("room-");
      heading(1, chapter.title, chapter.anchor, follows_on ? "room" : "");
      for (const Block& one : chapter.blocks) block(one);
    }
    bibliography();
    out_.end().end().end();
  }

  // The parts of a sentence, for write_sentences().
  void blank() { out_.text(" "); }

  void runs(const std::vector<Run>& list) {
    for (const Run& run : list) {
      if (!run.link.empty()) {
        out_.start("text:a").attribute("xlink:type", "simple").attribute("xlink:href", "#" + run.link);
        out_.attribute("text:style-name", "Plain_20_Link")
            .attribute("text:visited-style-name", "Plain_20_Link");
        out_.text("");
      }
      const bool styled = run.emphasis || run.strong;
      if (styled)
        out_.start("text:span").attribute("text:style-name", run.strong ? "Strong" : "Emphasis").text("");
      out_.text(run.text);
      if (styled) out_.end();
      if (!run.link.empty()) out_.end();
    }
  }

  // A note stands where it is cited first; later mentions refer to it by its number.
  void numbers(const std::vector<int>& numbers) {
    for (std::size_t at = 0; at < numbers.size(); ++at) {
      if (at != 0) out_.start("text:span").attribute("text:style-name", "Superscript").text(", ").end();
      const int number = numbers[at];
      const std::string name = "note" + std::to_string(number);
      const auto found = notes_.find(number);
      if (found == notes_.end()) continue;
      if (written_.insert(number).second) {
        out_.start("text:note").attribute("text:id", name).attribute("text:note-class", "footnote");
        out_.element("text:note-citation", std::to_string(number));
        out_.start("text:note-body");
        start_paragraph("Footnote");
        each_place(*found->second,
                   [&](const CitedPlace& place, const std::string& lead, const std::string& close) {
                     runs(place.words);
                     if (place.figure != 0) figure_link(place, lead);
                     out_.text(close);
                   });
        out_.end().end().end();
      } else {
        out_.start("text:span").attribute("text:style-name", "Superscript").text("");
        out_.start("text:note-ref").attribute("text:note-class", "footnote");
        out_.attribute("text:reference-format", "text").attribute("text:ref-name", name);
        out_.text(std::to_string(number)).end().end();
      }
    }
  }

private:
  void start_paragraph(std::string_view style) {
    out_.start("text:p").attribute("text:style-name", style).text("");
  }
  void plain_paragraph(std::string_view style, const std::string& words) {
    start_paragraph(style);
    out_.text(words).end();
  }

  // Column widths and the colours of chips are the only styles made while writing.
  void automatic_styles() {
    std::set<int> widths;
    std::set<std::string> chips;
    const auto look = [&](const Block& one) {
      const auto* table = std::get_if<Table>(&one);
      if (table == nullptr) return;
      widths.insert(table->widths.begin(), table->widths.end());
      for (const Row& row : table->rows)
        for (const Cell& cell : row.cells)
          if (!cell.chip.empty()) chips.insert(cell.chip);
    };
    for (const Block& one : document_.front) look(one);
    for (const Chapter& chapter : document_.chapters)
      for (const Block& one : chapter.blocks) look(one);
    out_.start("office:automatic-styles");
    for (const int width : widths) {
      out_.start("style:style").attribute("style:name", "column" + std::to_string(width));
      out_.attribute("style:family", "table-column").start("style:table-column-properties");
      out_.attribute("style:column-width", millimetres(kTextWidth * width / 100)).end().end();
    }
    for (const std::string& chip : chips) {
      out_.start("style:style").attribute("style:name", chip_style(chip)).attribute("style:family", "text");
      out_.start("style:text-properties").attribute("fo:background-color", chip).end().end();
    }
    cell_style("head", "1pt solid #16181a", "1pt solid #16181a");
    cell_style("opens", "1pt solid #16181a", "0.4pt solid #9a9da1");
    cell_style("body", "0.4pt solid #9a9da1", "0.4pt solid #9a9da1");
    out_.start("style:style").attribute("style:name", "sheet").attribute("style:family", "table");
    out_.start("style:table-properties").attribute("style:width", millimetres(kTextWidth));
    out_.attribute("table:align", "left").attribute("table:border-model", "collapsing").end().end();
    out_.start("style:style").attribute("style:name", "room").attribute("style:family", "paragraph");
    out_.attribute("style:parent-style-name", "Heading_20_1").start("style:paragraph-properties");
    out_.attribute("fo:break-before", "auto").attribute("fo:margin-top", "12mm").end().end();
    out_.start("style:style").attribute("style:name", "list").attribute("style:family", "paragraph");
    out_.attribute("style:parent-style-name", "List_20_Contents").end();
    out_.end();
  }
  void cell_style(std::string_view name, std::string_view above, std::string_view below) {
    out_.start("style:style").attribute("style:name", name).attribute("style:family", "table-cell");
    out_.start("style:table-cell-properties").attribute("fo:border-left", "none");
    out_.attribute("fo:border-right", "none").attribute("fo:border-top", above);
    out_.attribute("fo:border-bottom", below).attribute("fo:padding", "1mm");
    out_.end().end();
  }
  static std::string chip_style(const std::string& chip) { return "chip" + chip.substr(1); }

  void title_page() {
    plain_paragraph("Kicker", document_.archive);
    plain_paragraph("Title", document_.subject);
    plain_paragraph("Subtitle", document_.title);
    if (!document_.writers.empty())
      plain_paragraph("Text_20_body", phrase("page.writers") + ": " + listing(document_.writers));
    plain_paragraph("Text_20_body", phrase("page.known") + ": " + document_.known);
    start_paragraph("Text_20_body");
    out_.text(phrase("page.state") + ": ");
    out_.start("text:span").attribute("text:style-name", "Digits").text(document_.state).end();
    out_.end();
  }

  void contents() {
    out_.start("text:table-of-content")
        .attribute("text:name", "contents")
        .attribute("text:protected", "true");
    out_.start("text:table-of-content-source").attribute("text:outline-level", "1");
    out_.element("text:index-title-template", phrase("page.contents"));
    out_.start("text:table-of-content-entry-template").attribute("text:outline-level", "1");
    out_.attribute("text:style-name", "Contents_20_1");
    out_.empty("text:index-entry-text");
    out_.start("text:index-entry-tab-stop")
        .attribute("style:type", "right")
        .attribute("style:leader-char", ".")
        .end();
    out_.empty("text:index-entry-page-number").end();
    out_.end();
    out_.start("text:index-body");
    out_.start("text:index-title").attribute("text:name", "contents-title");
    plain_paragraph("Contents_20_Heading", phrase("page.contents"));
    out_.end();
    entry(phrase("chapter.front"), "about");
    for (const Chapter& chapter : document_.chapters) entry(chapter.title, chapter.anchor);
    entry(phrase("page.bibliography"), "bibliography");
    out_.end().end();
  }

  /// The list of figures, or of tables, with their pages.
  template <typename Kind, typename Words>
  void list_of(const std::string& key, const std::string& anchor, const Words& words) {
    bool any = false;
    each_block<Kind>(document_, [&](const Kind& one) {
      if (!any) plain_paragraph("Contents_20_Heading", phrase(key));
      any = true;
      entry(words(one), anchor + std::to_string(one.number), "Contents_20_2");
    });
  }

  void entry(const std::string& title, const std::string& anchor,
             const std::string& style = "Contents_20_1") {
    start_paragraph(style);
    out_.start("text:a").attribute("xlink:type", "simple").attribute("xlink:href", "#" + anchor);
    out_.attribute("text:style-name", "Plain_20_Link")
        .attribute("text:visited-style-name", "Plain_20_Link")
        .text("");
    out_.text(title).empty("text:tab");
    out_.start("text:bookmark-ref").attribute("text:reference-format", "page");
    out_.attribute("text:ref-name", anchor).text("0").end();
    out_.end().end();
  }

  void heading(int level, const std::string& title, const std::string& anchor,
               const std::string& style = {}) {
    out_.start("text:h");
    out_.attribute("text:style-name", style.empty() ? "Heading_20_" + std::to_string(level) : style);
    out_.attribute("text:outline-level", std::to_string(level)).text("");
    if (!anchor.empty()) {
      out_.start("text:bookmark-start").attribute("text:name", anchor).end();
      out_.text(title);
      out_.start("text:bookmark-end").attribute("text:name", anchor).end();
    } else {
      out_.text(title);
    }
    out_.end();
  }

  void block(const Block& one) {
    if (const auto* head = std::get_if<Heading>(&one)) {
      heading(head->level, head->text, head->anchor);
    } else if (const auto* words = std::get_if<Paragraph>(&one)) {
      paragraph_of("Text_20_body", *words);
    } else if (const auto* warning = std::get_if<Warning>(&one)) {
      paragraph_of("Warning", warning->words);
    } else if (const auto* entries = std::get_if<List>(&one)) {
      list(*entries);
    } else if (const auto* rows = std::get_if<Table>(&one)) {
      table(*rows);
    } else if (const auto* drawn = std::get_if<Figure>(&one)) {
      figure(*drawn);
    }
  }

  void paragraph_of(std::string_view style, const Paragraph& words) {
    start_paragraph(style);
    write_sentences(words.sentences, *this);
    out_.end();
    if (!words.points.empty()) list({false, words.points});
  }

  void figure_link(const CitedPlace& place, const std::string& lead) {
    out_.text(lead).start("text:a").attribute("xlink:type", "simple");
    out_.attribute("xlink:href", "#figure-" + std::to_string(place.figure));
    out_.attribute("text:style-name", "Plain_20_Link")
        .attribute("text:visited-style-name", "Plain_20_Link")
        .text(figure_words(place))
        .end();
  }

  void bibliography() {
    heading(1, phrase("page.bibliography"), "bibliography");
    for (const KindOfSources& kind : by_kind(document_.bibliography)) {
      heading(2, kind.heading, {});
      for (const Entry& entry : kind.entries) entry_line(entry);
    }
    if (document_.not_cited.empty()) return;
    heading(2, phrase("bibliography.not-cited"), {});
    plain_paragraph("Text_20_body", phrase("bibliography.not-cited-words"));
    for (const Entry& entry : document_.not_cited) entry_line(entry);
  }
  void entry_line(const Entry& entry) {
    start_paragraph("Bibliography");
    runs(entry.words);
    out_.end();
  }

  void list(const List& entries) {
    out_.start("text:list").attribute("text:style-name", entries.numbered ? "Numbers" : "Dashes");
    for (const Paragraph& entry : entries.entries) {
      out_.start("text:list-item");
      paragraph_of("list", entry);
      out_.end();
    }
    out_.end();
  }

  void cell(std::string_view style, std::string_view paragraph, const Cell& one,
            const std::string& group = {}) {
    out_.start("table:table-cell").attribute("table:style-name", style);
    out_.attribute("office:value-type", "string");
    if (!group.empty()) plain_paragraph("Table_20_Group", group);
    start_paragraph(paragraph);
    if (!one.chip.empty()) {
      out_.start("text:span").attribute("text:style-name", chip_style(one.chip));
      out_.text("\u00a0\u00a0\u00a0\u00a0\u00a0\u00a0\u00a0").end();
      out_.text(" ");
    }
    write_sentences(one.sentences, *this);
    out_.end().end();
  }

  void table(const Table& table) {
    const std::string own = std::to_string(table.number);
    start_paragraph("Table_20_Caption");
    numbered("table-", "Table", "table.number", own);
    out_.text(" " + table.caption).end();
    const std::string name = "table" + own;
    out_.start("table:table").attribute("table:name", name).attribute("table:style-name", "sheet");
    for (const int width : table.widths)
      out_.start("table:table-column").attribute("table:style-name", "column" + std::to_string(width)).end();
    out_.start("table:table-header-rows").start("table:table-row");
    for (const std::string& column : table.columns)
      cell("head", "Table_20_Heading", {{as_words(column)}, {}});
    out_.end().end();
    std::string group;
    for (const Row& row : table.rows) {
      // A group stands in the first row of its own: a row of a heading alone would be left at a page's foot.
      if (!row.group.empty()) {
        group = row.group;
        continue;
      }
      // A row may go on overleaf: kept whole, with the footnotes that it brings, it leaves pages half empty.
      out_.start("table:table-row");
      for (std::size_t at = 0; at < row.cells.size(); ++at)
        cell(group.empty() ? "body" : "opens", "Table_20_Contents", row.cells[at], at == 0 ? group : "");
      group.clear();
      out_.end();
    }
    out_.end();
    plain_paragraph("After_20_Table", "");
  }

  /// "Figure 7." as a bookmark; the word processor numbers on when one is put in or taken out.
  void numbered(const std::string& anchor, const std::string& sequence, const std::string& key,
                const std::string& own) {
    out_.start("text:bookmark-start").attribute("text:name", anchor + own).end();
    out_.start("text:span").attribute("text:style-name", "Strong").text("");
    const std::string name = phrase(key, {{"n", own}});
    out_.text(name.substr(0, name.rfind(own)));
    out_.start("text:sequence").attribute("text:name", sequence);
    out_.attribute("text:ref-name", sequence + own).attribute("text:formula", "ooow:" + sequence + "+1");
    out_.attribute("style:num-format", "1").text(own).end();
    out_.text(".").end();
    out_.start("text:bookmark-end").attribute("text:name", anchor + own).end();
  }

  void figure(const Figure& drawn) {
    const std::string number = std::to_string(pictures.size() + 1);
    const std::string ending = drawn.media_type == "image/png"    ? ".png"
                               : drawn.media_type == "image/jpeg" ? ".jpg"
                                                                  : ".svg";
    const std::string path = "Pictures/" + number + ending;
    const double scale = drawn.width > kTextWidth ? kTextWidth / drawn.width : 1;
    // Two pictures of sources fit a page with their captions and footnotes.
    const double high = std::min(drawn.height * scale, drawn.source.empty() ? 215.0 : 78.0);
    const double wide = drawn.width * scale * high / (drawn.height * scale);
    // Picture and caption are one paragraph, so that a heading before them is never left behind.
    start_paragraph("Figure");
    out_.start("draw:frame").attribute("draw:name", "picture " + number);
    out_.attribute("draw:style-name", "Graphics").attribute("text:anchor-type", "as-char");
    out_.attribute("svg:width", millimetres(wide)).attribute("svg:height", millimetres(high));
    out_.start("draw:image").attribute("xlink:href", path).attribute("xlink:type", "simple");
    out_.attribute("xlink:show", "embed").attribute("xlink:actuate", "onLoad");
    out_.attribute("draw:mime-type", drawn.media_type).end();
    out_.element("svg:title", drawn.title).element("svg:desc", drawn.description);
    out_.end();
    out_.empty("text:line-break");
    const std::string own = std::to_string(drawn.number);
    numbered("figure-", "Figure", "figure.number", own);
    out_.text(" ");
    write_sentences(drawn.caption.sentences, *this);
    out_.end();
    pictures.push_back({path, drawn.bytes});
    types.push_back(drawn.media_type);
  }

  const Document& document_;
  XmlWriter& out_;
  std::map<int, const Note*> notes_;
  std::set<int> written_;
};

std::string meta(const Document& document) {
  std::ostringstream stream;
  XmlWriter out(stream, XmlWriter::Layout::compact);
  out.start("office:document-meta");
  namespaces(out);
  out.start("office:meta");
  out.element("meta:generator", "Lathbook");
  out.element("dc:title", document.subject + ": " + document.title);
  out.element("dc:subject", document.archive);
  out.element("dc:language", document.language);
  out.start("meta:user-defined").attribute("meta:name", "state of the archive").text(document.state).end();
  out.start("meta:user-defined").attribute("meta:name", "as known on").text(document.known).end();
  out.end().end();
  out.finish();
  return stream.str();
}

std::string manifest(const Content& content) {
  std::ostringstream stream;
  XmlWriter out(stream, XmlWriter::Layout::compact);
  out.start("manifest:manifest");
  out.attribute("xmlns:manifest", "urn:oasis:names:tc:opendocument:xmlns:manifest:1.0");
  out.attribute("manifest:version", "1.3");
  const auto file = [&](std::string_view path, std::string_view type) {
    out.start("manifest:file-entry").attribute("manifest:full-path", path);
    if (path == "/") out.attribute("manifest:version", "1.3");
    out.attribute("manifest:media-type", type).end();
  };
  file("/", kType);
  for (const char* path : {"content.xml", "styles.xml", "meta.xml"}) file(path, "text/xml");
  for (std::size_t at = 0; at < content.pictures.size(); ++at)
    file(content.pictures[at].path, content.types[at]);
  out.end();
  out.finish();
  return stream.str();
}

}  // namespace

void write_odt(const Document& document, std::ostream& out) {
  std::ostringstream stream;
  XmlWriter writer(stream, XmlWriter::Layout::compact);
  Content content(document, writer);
  content.write();
  writer.finish();
  std::vector<Member> members{{"mimetype", std::string(kType)},
                              {"content.xml", stream.str()},
                              {"styles.xml", text_styles(document)},
                              {"meta.xml", meta(document)}};
  for (const Member& picture : content.pictures) members.push_back(picture);
  members.push_back({"META-INF/manifest.xml", manifest(content)});
  write_package(members, out);
}

}  // namespace lathbook::report
