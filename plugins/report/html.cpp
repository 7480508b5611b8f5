// The report as one page of HTML that is well-formed XML too.
#include <algorithm>
#include <sstream>

#include "core/base/base64.hpp"
#include "core/base/text.hpp"
#include "core/base/xml_writer.hpp"
#include "plugins/report/phrases.hpp"
#include "plugins/report/tree_walk.hpp"
#include "plugins/report/write.hpp"

namespace lathbook::report {

namespace {

class Page {
public:
  Page(const Document& document, XmlWriter& out) : document_(document), out_(out) {}

  void write() {
    out_.start("html").attribute("xmlns", "http://www.w3.org/1999/xhtml");
    out_.attribute("lang", document_.language).attribute("xml:lang", document_.language);
    head();
    out_.start("body");
    title_page();
    out_.start("main").attribute("id", "report");
    for (const Chapter& chapter : document_.chapters) section(chapter);
    notes();
    bibliography();
    out_.end();
    out_.start("footer");
    out_.element(
        "p", phrase("page.footer",
                    {{"subject", document_.subject}, {"day", document_.known}, {"state", document_.state}}));
    out_.end();
    out_.end();
    out_.end();
  }

  // The parts of a sentence, for write_sentences().
  void blank() { out_.text(" "); }

  void runs(const std::vector<Run>& list) {
    for (const Run& run : list) {
      if (!run.link.empty()) out_.start("a").attribute("href", "#" + run.link);
      if (run.strong) out_.start("b");
      if (run.emphasis) out_.start("em");
      out_.text(run.text);
      if (run.emphasis) out_.end();
      if (run.strong) out_.end();
      if (!run.link.empty()) out_.end();
    }
  }

  void numbers(const std::vector<int>& notes) {
    if (notes.empty()) return;
    out_.start("sup");
    if (notes.size() < 5) out_.attribute("class", "few");
    // The word joiner (U+2060) keeps the first number on the line of the word before it.
    out_.text("\u2060");
    for (std::size_t at = 0; at < notes.size(); ++at) {
      if (at != 0) out_.text(", ");
      const std::string number = std::to_string(notes[at]);
      out_.start("a").attribute("href", "#note-" + number);
      out_.attribute("aria-label", phrase("page.note", {{"n", number}})).text(number).end();
    }
    out_.end();
  }

private:
  void tag(std::string_view name, std::string_view css) { out_.start(name).attribute("class", css); }
  void line() { out_.text("\n"); }

  void head() {
    line();
    out_.start("head");
    out_.start("meta").attribute("charset", "utf-8").end();
    out_.start("meta").attribute("name", "viewport");
    out_.attribute("content", "width=device-width, initial-scale=1").end();
    out_.element("title", document_.subject + ": " + document_.title);
    // The running head of printed pages is in the page's own style, for it holds the report's name.
    std::string running = document_.subject + " · " + document_.title;
    std::string quoted;
    for (const char c : running)
      if (c == '"' || c == '\\')
        quoted += std::string("\\") + c;
      else if (c != '<' && c != '&' && c != '>')
        quoted += c;
    out_.element("style", std::string(page_style) + "@page { @top-left { content: \"" + quoted + "\"; } }\n");
    out_.end();
    line();
  }

  void title_page() {
    out_.start("header").attribute("class", "front");
    tag("p", "kicker");
    out_.text(document_.archive).end();
    out_.element("h1", document_.subject);
    tag("p", "title");
    out_.text(document_.title).end();
    tag("dl", "block");
    if (!document_.writers.empty())
      out_.start("div").element("dt", phrase("page.writers")).element("dd", listing(document_.writers)).end();
    out_.start("div").element("dt", phrase("page.known")).element("dd", document_.known).end();
    tag("div", "wide");
    out_.element("dt", phrase("page.state"));
    tag("dd", "mono");
    out_.text(document_.state).end();
    out_.end();
    out_.end();
    out_.end();
    line();
    out_.start("nav").attribute("aria-label", phrase("page.contents"));
    out_.element("h2", phrase("page.contents")).start("ol");
    content_line("about", phrase("chapter.front"));
    for (const Chapter& chapter : document_.chapters) content_line(chapter.anchor, chapter.title);
    content_line("notes", phrase("page.notes"));
    content_line("bibliography", phrase("page.bibliography"));
    out_.end().end();
    line();
    list_of<Figure>("page.figures", "figure-", [](const Figure& one) { return figure_line(one); });
    list_of<Table>("page.tables", "table-", [](const Table& one) { return table_line(one); });
    out_.start("section")
        .attribute("id", "about")
        .attribute("class", "about")
        .attribute("aria-label", phrase("chapter.front"));
    out_.element("h2", phrase("chapter.front"));
    for (const Block& one : document_.front) block(one);
    out_.end();
    line();
  }

  /// The list of figures, or of tables.
  template <typename Kind, typename Words>
  void list_of(const std::string& key, const std::string& anchor, const Words& words) {
    bool any = false;
    each_block<Kind>(document_, [&](const Kind& one) {
      if (!any) {
        out_.start("nav").attribute("class", "list").attribute("aria-label", phrase(key));
        out_.element("h2", phrase(key)).start("ul");
      }
      any = true;
      content_line(anchor + std::to_string(one.number), words(one));
    });
    if (any) out_.end().end();
    line();
  }

  void content_line(const std::string& anchor, const std::string& title) {
    out_.start("li").start("a").attribute("href", "#" + anchor).text(title).end().end();
  }

  void section(const Chapter& chapter) {
    out_.start("section").attribute("id", chapter.anchor).attribute("class", "chapter");
    out_.element("h2", chapter.title);
    line();
    for (const Block& one : chapter.blocks) block(one);
    out_.end();
    line();
  }

  void block(const Block& one) {
    if (const auto* heading = std::get_if<Heading>(&one)) {
      const std::string name = "h" + std::to_string(heading->level + 1);
      out_.start(name);
      if (!heading->anchor.empty()) out_.attribute("id", heading->anchor);
      out_.text(heading->text).end();
    } else if (const auto* words = std::get_if<Paragraph>(&one)) {
      paragraph_of("p", *words);
    } else if (const auto* warning = std::get_if<Warning>(&one)) {
      tag("div", "warning");
      paragraph_of("p", warning->words);
      out_.end();
    } else if (const auto* list = std::get_if<List>(&one)) {
      out_.start(list->numbered ? "ol" : "ul");
      for (const Paragraph& entry : list->entries) paragraph_of("li", entry);
      out_.end();
    } else if (const auto* rows = std::get_if<Table>(&one)) {
      table(*rows);
    } else if (const auto* drawn = std::get_if<Figure>(&one)) {
      figure(*drawn);
    }
    line();
  }

  // A list cannot stand within a paragraph of HTML, but within an entry of a list it can.
  void paragraph_of(std::string_view name, const Paragraph& words) {
    out_.start(name);
    write_sentences(words.sentences, *this);
    if (name == "li") points(words);
    out_.end();
    if (name != "li") points(words);
  }

  /// A line on a source; its code is not broken at the hyphen.
  void source_line(const std::vector<Run>& list, const std::string& code) {
    const std::string sign = "[" + code + "]";
    for (const Run& run : list) {
      const auto at = code.empty() || run.emphasis ? std::string::npos : run.text.find(sign);
      if (at == std::string::npos) {
        runs({run});
        continue;
      }
      out_.text(run.text.substr(0, at));
      out_.start("span").attribute("class", "few").text(sign).end();
      out_.text(run.text.substr(at + sign.size()));
    }
  }

  void points(const Paragraph& words) {
    if (words.points.empty()) return;
    out_.start("ul");
    for (const Paragraph& point : words.points) paragraph_of("li", point);
    out_.end();
  }

  void table(const Table& table) {
    out_.start("div").attribute("class", "scroll").attribute("tabindex", "0").attribute("role", "group");
    out_.attribute("aria-label", table.caption);
    out_.start("table").attribute("id", "table-" + std::to_string(table.number));
    out_.element("caption", table_line(table));
    out_.start("colgroup");
    for (const int width : table.widths)
      out_.start("col").attribute("style", "width:" + std::to_string(width) + "%").end();
    out_.end();
    out_.start("thead").start("tr");
    for (const std::string& column : table.columns)
      out_.start("th").attribute("scope", "col").text(column).end();
    out_.end().end();
    bool open = false;
    for (const Row& row : table.rows) {
      if (!row.group.empty() || !open) {
        if (open) out_.end();
        out_.start("tbody");
        open = true;
      }
      out_.start("tr");
      if (is_long(row)) out_.attribute("class", "long");
      if (!row.group.empty()) {
        out_.attribute("class", "opens");
        out_.start("th").attribute("scope", "rowgroup").attribute("class", "group");
        out_.attribute("colspan", std::to_string(table.columns.size())).text(row.group).end();
      }
      for (std::size_t at = 0; at < row.cells.size(); ++at) {
        out_.start(at == 0 ? "th" : "td");
        if (at == 0) out_.attribute("scope", "row");
        out_.attribute("data-label", table.columns[at]);
        if (!row.cells[at].chip.empty()) {
          out_.start("span").attribute("class", "chip").attribute("aria-hidden", "true");
          out_.attribute("style", "background:" + row.cells[at].chip).text("").end();
          out_.text(" ");
        }
        write_sentences(row.cells[at].sentences, *this);
        out_.end();
      }
      out_.end();
      line();
    }
    if (open) out_.end();
    out_.end().end();
  }

  /// A row that may go on overleaf: kept whole it would leave half a page empty.
  static bool is_long(const Row& row) {
    constexpr std::size_t kLong = 500;
    return std::any_of(row.cells.begin(), row.cells.end(), [](const Cell& cell) {
      std::size_t letters = 0;
      for (const Sentence& one : cell.sentences) letters += one.words().size();
      return letters > kLong;
    });
  }

  void figure(const Figure& drawn) {
    const bool chart = drawn.width > 160;
    // A tall picture leaves room for its caption beside it.
    const bool beside = drawn.width < 85 && drawn.width > 0;
    out_.start("figure").attribute("id", "figure-" + std::to_string(drawn.number));
    if (beside) out_.attribute("class", "beside");
    if (chart) {
      out_.start("div").attribute("class", "scroll").attribute("tabindex", "0").attribute("role", "group");
      out_.attribute("aria-label", drawn.title);
    }
    out_.start("img").attribute("class", chart ? "chart" : "picture");
    out_.attribute("alt", drawn.title + ". " + drawn.description);
    out_.attribute("width", std::to_string(static_cast<int>(drawn.width * 96 / 25.4)));
    out_.attribute("height", std::to_string(static_cast<int>(drawn.height * 96 / 25.4)));
    out_.attribute("src", "data:" + drawn.media_type + ";base64," + to_base64(drawn.bytes)).end();
    if (chart) out_.end();
    out_.start("figcaption");
    out_.element("b", phrase("figure.number", {{"n", std::to_string(drawn.number)}}) + ".").text(" ");
    write_sentences(drawn.caption.sentences, *this);
    out_.end().end();
  }

  void notes() {
    out_.start("section").attribute("id", "notes").attribute("class", "chapter");
    out_.element("h2", phrase("page.notes"));
    tag("ol", "notes");
    for (const Note& note : document_.notes) {
      out_.start("li").attribute("id", "note-" + std::to_string(note.number));
      out_.attribute("value", std::to_string(note.number));
      each_place(note, [&](const CitedPlace& place, const std::string& lead, const std::string& close) {
        source_line(place.words, place.source);
        if (place.figure != 0) {
          out_.text(lead).start("a").attribute("href", "#figure-" + std::to_string(place.figure));
          out_.text(figure_words(place)).end();
        }
        out_.text(close);
      });
      out_.end();
      line();
    }
    out_.end().end();
  }

  void bibliography() {
    out_.start("section").attribute("id", "bibliography").attribute("class", "chapter");
    out_.element("h2", phrase("page.bibliography"));
    for (const KindOfSources& kind : by_kind(document_.bibliography)) {
      out_.element("h3", kind.heading);
      entries(kind.entries);
    }
    if (!document_.not_cited.empty()) {
      out_.element("h3", phrase("bibliography.not-cited"));
      out_.element("p", phrase("bibliography.not-cited-words"));
      entries(document_.not_cited);
    }
    out_.end();
  }

  void entries(const std::vector<Entry>& list) {
    tag("ul", "bibliography");
    for (const Entry& entry : list) {
      out_.start("li");
      source_line(entry.words, entry.source);
      out_.end();
      line();
    }
    out_.end();
  }

  const Document& document_;
  XmlWriter& out_;
};

}  // namespace

void write_html(const Document& document, std::ostream& out) {
  std::ostringstream gathered;
  XmlWriter writer(gathered, XmlWriter::Layout::compact);
  Page(document, writer).write();
  writer.finish();
  const std::string page = gathered.str();
  // HTML knows no XML declaration: UTF-8 is the default of XML, and a meta element says it to HTML.
  out << "<!DOCTYPE html>\n" << std::string_view(page).substr(page.find("<html"));
}

}  // namespace lathbook::report
