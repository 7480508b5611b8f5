#include "core/base/printed_page.hpp"

#include <algorithm>
#include <string_view>

namespace lathbook {

namespace {

// No '<', '>' or '&' in it: the text must mean the same to a reader of HTML and of XML.
constexpr const char* kStyle = R"css(
@page { margin: 14mm 15mm; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 190mm; background: #fff; color: #16181a; font: 11pt/1.4 Charter, "Bitstream Charter", Georgia, "DejaVu Serif", serif; overflow-wrap: break-word; }
h1, h2, .kind, th, caption, .foot { font-family: "Gill Sans", Optima, "DejaVu Sans Condensed", "Noto Sans", sans-serif; }
.kind { text-transform: uppercase; letter-spacing: .14em; font-size: 8.5pt; margin: 0; color: #55585c; }
h1 { font-size: 17pt; line-height: 1.15; margin: .1rem 0 .6rem; }
h2 { font-size: 11pt; text-transform: uppercase; letter-spacing: .1em; margin: 1.4rem 0 .4rem; padding-top: .35rem; border-top: 3px double #16181a; break-after: avoid; }
p { margin: .3rem 0; }
ul, ol { margin: .3rem 0; padding-left: 1.4rem; }
li { margin: .2rem 0; break-inside: avoid; }
.care { border: 2.5px solid #16181a; padding: .4rem .7rem; margin: .6rem 0; font-size: 9.5pt; line-height: 1.3; box-decoration-break: clone; }
.care p { margin: .2rem 0; }
.care p:first-child { font-weight: 700; column-span: all; }
.care.long { columns: 2; column-gap: 5mm; font-size: 8pt; line-height: 1.25; }
.stop { border: 5px double #fff; outline: 4px solid #16181a; background: #16181a; color: #fff; padding: .4rem .7rem; margin: .8rem 4px; font-weight: 700; break-inside: avoid; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: 9.5pt; }
caption { text-align: left; font-weight: 600; padding: .5rem 0 .25rem; }
th, td { text-align: left; vertical-align: top; border-top: 1px solid #16181a; padding: .2rem .5rem .2rem 0; }
thead th { border-top: 2px solid #16181a; }
tr { break-inside: avoid; }
svg { max-width: 100%; height: auto; }
.labels { display: grid; grid-template-columns: 1fr 1fr; gap: 3mm; }
.label { border: 1px dashed #16181a; padding: 3mm; break-inside: avoid; display: grid; grid-template-columns: 26mm 1fr; gap: 3mm; }
.label svg { width: 26mm; height: 26mm; }
.code { font-size: 17pt; font-weight: 700; line-height: 1.1; }
.house { margin-top: 1mm; font-size: 8.5pt; }
.whole { break-inside: avoid; }
.card { display: grid; grid-template-columns: 30mm 1fr 32mm; gap: 5mm; break-inside: avoid; font-size: 10pt; }
.card .count div { font-size: 30pt; line-height: 1; font-weight: 700; }
.card svg { display: block; }
.likeness { display: flex; flex-wrap: wrap; gap: 3mm 6mm; margin: .5rem 0; break-inside: avoid; }
figure { margin: 0; max-width: 54mm; }
figure svg { display: block; border: 1px solid #16181a; }
figcaption { font-size: 8.5pt; line-height: 1.3; margin-top: 1mm; }
td:empty { height: 7mm; min-width: 24mm; }
.one { white-space: nowrap; }
.sheet + .sheet { break-before: page; }
.foot { break-before: avoid; margin-top: 1.2rem; border-top: 1px solid #16181a; font-size: 8pt; color: #55585c; overflow-wrap: anywhere; }
@media print { body { padding: 0; max-width: none; } }
)css";

// A code or a day is not parted at its hyphens: N-203.14, 2024-05-18.
bool holds_together(std::string_view word) {
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  return word.find('-') != std::string_view::npos && std::any_of(word.begin(), word.end(), is_digit);
}

void add_words(XmlWriter& xml, const std::string& text) {
  std::string plain;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t blank = std::min(text.find(' ', at), text.size());
    const std::string word = text.substr(at, blank - at);
    if (holds_together(word)) {
      xml.text(plain).start("span").attribute("class", "one").text(word).end();
      plain.clear();
    } else {
      plain += word;
    }
    if (blank < text.size()) plain += ' ';
    at = blank + 1;
  }
  xml.text(plain);
}

// "lead: found": what it is about stands out.
void add_caution(XmlWriter& xml, const std::string& line) {
  const auto colon = line.find(": ");
  xml.start("p");
  if (colon != std::string::npos && colon < 40) {
    xml.element("b", line.substr(0, colon + 1));
    xml.text(line.substr(colon + 1));
  } else {
    xml.text(line);
  }
  xml.end();
}

}  // namespace

PrintedPage::PrintedPage(std::ostream& out, const std::string& kind, const std::string& title)
    : xml_(out, XmlWriter::Layout::compact) {
  xml_.start("html").attribute("xmlns", "http://www.w3.org/1999/xhtml").attribute("lang", "en");
  xml_.start("head");
  xml_.start("meta").attribute("charset", "utf-8").end();
  xml_.start("meta")
      .attribute("name", "viewport")
      .attribute("content", "width=device-width, initial-scale=1")
      .end();
  xml_.element("title", title).element("style", kStyle).end();
  xml_.start("body").start("main");
  xml_.start("p").attribute("class", "kind").text(kind).end();
  xml_.element("h1", title);
}

PrintedPage& PrintedPage::heading(const std::string& text) {
  xml_.element("h2", text);
  return *this;
}

PrintedPage& PrintedPage::paragraph(const std::string& text) {
  xml_.start("p");
  add_words(xml_, text);
  xml_.end();
  return *this;
}

PrintedPage& PrintedPage::stopped(const std::vector<std::string>& lines) {
  if (lines.empty()) return *this;
  xml_.start("div").attribute("class", "stop").attribute("role", "alert");
  for (const auto& line : lines) paragraph(line);
  xml_.end();
  return *this;
}

PrintedPage& PrintedPage::cautions(const std::vector<std::string>& lines) {
  if (lines.empty()) return *this;
  constexpr std::size_t kFew = 8;
  xml_.start("div").attribute("class", lines.size() > kFew ? "care long" : "care").attribute("role", "note");
  xml_.element("p", "Take care");
  for (const auto& line : lines) add_caution(xml_, line);
  xml_.end();
  return *this;
}

PrintedPage& PrintedPage::table(const std::string& caption, const std::vector<std::string>& header,
                                const std::vector<std::vector<std::string>>& rows) {
  xml_.start("div").attribute("class", "scroll").start("table").element("caption", caption);
  xml_.start("thead").start("tr");
  for (const auto& cell : header) xml_.start("th").attribute("scope", "col").text(cell).end();
  xml_.end().end().start("tbody");
  for (const auto& row : rows) {
    xml_.start("tr");
    for (std::size_t i = 0; i < header.size(); ++i) {
      xml_.start("td");
      add_words(xml_, i < row.size() ? row[i] : std::string());
      xml_.end();
    }
    xml_.end();
  }
  xml_.end().end().end();
  return *this;
}

void PrintedPage::finish(const std::string& foot) {
  xml_.end();
  xml_.start("footer").attribute("class", "foot").text(foot).end();
  xml_.end().end();
  xml_.finish();
}

}  // namespace lathbook
