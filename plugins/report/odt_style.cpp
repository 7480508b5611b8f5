// Styles of the text document: paper, header with the report's name, page numbers, footnotes.
#include "core/base/text.hpp"
#include "plugins/report/phrases.hpp"
#include "plugins/report/write.hpp"

namespace lathbook::report {

namespace {

/// Text as XML has it.
std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else if (c == '"')
      out += "&quot;";
    else
      out += c;
  }
  return out;
}

constexpr const char* kStyles = R"xml(<?xml version="1.0" encoding="UTF-8"?>
<office:document-styles xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:draw="urn:oasis:names:tc:opendocument:xmlns:drawing:1.0" xmlns:svg="urn:oasis:names:tc:opendocument:xmlns:svg-compatible:1.0" xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0" office:version="1.3">
<office:font-face-decls>
<style:font-face style:name="Serif" svg:font-family="'Liberation Serif'" style:font-family-generic="roman"/>
<style:font-face style:name="Sans" svg:font-family="'Liberation Sans'" style:font-family-generic="swiss"/>
</office:font-face-decls>
<office:styles>
<style:default-style style:family="paragraph"><style:paragraph-properties fo:orphans="2" fo:widows="2"/><style:text-properties style:font-name="Serif" fo:font-size="10pt" fo:language="en" fo:country="US" fo:color="#16181a"/></style:default-style>
<style:default-style style:family="table"><style:table-properties table:border-model="collapsing"/></style:default-style>
<style:style style:name="Standard" style:family="paragraph" style:class="text"/>
<style:style style:name="Text_20_body" style:display-name="Text body" style:family="paragraph" style:parent-style-name="Standard" style:class="text"><style:paragraph-properties fo:margin-top="0mm" fo:margin-bottom="1.8mm" fo:line-height="115%"/></style:style>
<style:style style:name="Heading" style:family="paragraph" style:parent-style-name="Standard" style:next-style-name="Text_20_body" style:class="text"><style:paragraph-properties fo:keep-with-next="always" fo:margin-top="4mm" fo:margin-bottom="1.5mm"/><style:text-properties style:font-name="Sans" fo:font-weight="bold"/></style:style>
<style:style style:name="Heading_20_1" style:display-name="Heading 1" style:family="paragraph" style:parent-style-name="Heading" style:next-style-name="Text_20_body" style:default-outline-level="1" style:class="text"><style:paragraph-properties fo:break-before="page" fo:margin-top="0mm" fo:margin-bottom="4mm" fo:padding-top="2mm" fo:border-top="1.2pt double #16181a"/><style:text-properties fo:font-size="17pt"/></style:style>
<style:style style:name="Heading_20_2" style:display-name="Heading 2" style:family="paragraph" style:parent-style-name="Heading" style:next-style-name="Text_20_body" style:default-outline-level="2" style:class="text"><style:paragraph-properties fo:margin-top="7mm" fo:margin-bottom="2.5mm" fo:padding-bottom="0.5mm" fo:border-bottom="0.6pt solid #16181a"/><style:text-properties fo:font-size="12.5pt"/></style:style>
<style:style style:name="Heading_20_3" style:display-name="Heading 3" style:family="paragraph" style:parent-style-name="Heading" style:next-style-name="Text_20_body" style:default-outline-level="3" style:class="text"><style:text-properties fo:font-size="11.5pt"/></style:style>
<style:style style:name="Heading_20_4" style:display-name="Heading 4" style:family="paragraph" style:parent-style-name="Heading" style:next-style-name="Text_20_body" style:default-outline-level="4" style:class="text"><style:paragraph-properties fo:margin-top="2.5mm" fo:margin-bottom="0.5mm"/><style:text-properties fo:font-size="10.5pt" fo:font-style="italic"/></style:style>
<style:style style:name="Kicker" style:family="paragraph" style:parent-style-name="Standard"><style:paragraph-properties fo:margin-top="4mm"/><style:text-properties style:font-name="Sans" fo:font-size="9.5pt" fo:letter-spacing="1pt"/></style:style>
<style:style style:name="Title" style:family="paragraph" style:parent-style-name="Standard" style:class="chapter"><style:paragraph-properties fo:margin-top="60mm" fo:border-top="1.2pt double #16181a" fo:padding-top="3mm"/><style:text-properties style:font-name="Sans" fo:font-size="30pt" fo:font-weight="bold"/></style:style>
<style:style style:name="Subtitle" style:family="paragraph" style:parent-style-name="Standard" style:class="chapter"><style:paragraph-properties fo:margin-bottom="70mm"/><style:text-properties style:font-name="Sans" fo:font-size="16pt"/></style:style>
<style:style style:name="Warning" style:family="paragraph" style:parent-style-name="Text_20_body"><style:paragraph-properties fo:border="1.4pt solid #16181a" fo:padding="2mm" fo:margin-top="2mm"/></style:style>
<style:style style:name="List_20_Contents" style:display-name="List Contents" style:family="paragraph" style:parent-style-name="Text_20_body"><style:paragraph-properties fo:margin-bottom="1.2mm"/></style:style>
<style:style style:name="Bibliography" style:family="paragraph" style:parent-style-name="Text_20_body"><style:paragraph-properties fo:margin-left="10mm" fo:text-indent="-10mm"/></style:style>
<style:style style:name="Footnote" style:family="paragraph" style:parent-style-name="Standard" style:class="extra"><style:paragraph-properties fo:margin-left="7mm" fo:text-indent="-7mm"/><style:text-properties fo:font-size="8.5pt"/></style:style>
<style:style style:name="Figure" style:family="paragraph" style:parent-style-name="Standard"><style:paragraph-properties fo:keep-together="always" fo:margin-top="2mm" fo:margin-bottom="4mm"/><style:text-properties style:font-name="Sans" fo:font-size="8.5pt"/></style:style>
<style:style style:name="Table_20_Caption" style:display-name="Table Caption" style:family="paragraph" style:parent-style-name="Standard"><style:paragraph-properties fo:keep-with-next="always" fo:margin-top="3mm" fo:margin-bottom="1mm"/><style:text-properties style:font-name="Sans" fo:font-size="9pt" fo:font-weight="bold"/></style:style>
<style:style style:name="Table_20_Contents" style:display-name="Table Contents" style:family="paragraph" style:parent-style-name="Standard" style:class="extra"><style:text-properties fo:font-size="8.5pt"/></style:style>
<style:style style:name="Table_20_Heading" style:display-name="Table Heading" style:family="paragraph" style:parent-style-name="Table_20_Contents" style:class="extra"><style:paragraph-properties fo:keep-with-next="always"/><style:text-properties style:font-name="Sans" fo:font-weight="bold"/></style:style>
<style:style style:name="Table_20_Group" style:display-name="Table Group" style:family="paragraph" style:parent-style-name="Table_20_Contents"><style:paragraph-properties fo:keep-with-next="always" fo:margin-bottom="1mm"/><style:text-properties style:font-name="Sans" fo:font-weight="bold"/></style:style>
<style:style style:name="After_20_Table" style:display-name="After Table" style:family="paragraph" style:parent-style-name="Standard"><style:text-properties fo:font-size="5pt"/></style:style>
<style:style style:name="Contents_20_Heading" style:display-name="Contents Heading" style:family="paragraph" style:parent-style-name="Standard" style:class="index"><style:paragraph-properties fo:break-before="page" fo:keep-with-next="always" fo:margin-top="0mm" fo:margin-bottom="3mm"/><style:text-properties style:font-name="Sans" fo:font-size="12.5pt" fo:font-weight="bold"/></style:style>
<style:style style:name="Contents_20_1" style:display-name="Contents 1" style:family="paragraph" style:parent-style-name="Standard" style:class="index"><style:paragraph-properties fo:margin-bottom="0.8mm"><style:tab-stops><style:tab-stop style:position="165mm" style:type="right" style:leader-style="dotted" style:leader-text="."/></style:tab-stops></style:paragraph-properties></style:style>
<style:style style:name="Contents_20_2" style:display-name="Contents 2" style:family="paragraph" style:parent-style-name="Standard" style:class="index"><style:paragraph-properties fo:margin-left="5mm" fo:text-indent="-5mm"><style:tab-stops><style:tab-stop style:position="160mm" style:type="right" style:leader-style="dotted" style:leader-text="."/></style:tab-stops></style:paragraph-properties><style:text-properties fo:font-size="9pt"/></style:style>
<style:style style:name="Header" style:family="paragraph" style:parent-style-name="Standard" style:class="extra"><style:paragraph-properties fo:border-bottom="0.5pt solid #16181a"/><style:text-properties style:font-name="Sans" fo:font-size="8pt"/></style:style>
<style:style style:name="Footer" style:family="paragraph" style:parent-style-name="Standard" style:class="extra"><style:paragraph-properties fo:text-align="end"/><style:text-properties style:font-name="Sans" fo:font-size="8pt"/></style:style>
<style:style style:name="Emphasis" style:family="text"><style:text-properties fo:font-style="italic"/></style:style>
<style:style style:name="Strong" style:family="text"><style:text-properties fo:font-weight="bold"/></style:style>
<style:style style:name="Superscript" style:family="text"><style:text-properties style:text-position="super 60%"/></style:style>
<style:style style:name="Plain_20_Link" style:display-name="Plain Link" style:family="text"><style:text-properties fo:color="#16181a" style:text-underline-style="none"/></style:style>
<style:style style:name="Digits" style:family="text"><style:text-properties fo:font-size="8pt"/></style:style>
<style:style style:name="Footnote_20_Symbol" style:display-name="Footnote Symbol" style:family="text"/>
<style:style style:name="Footnote_20_anchor" style:display-name="Footnote anchor" style:family="text"><style:text-properties style:text-position="super 60%"/></style:style>
<style:style style:name="Graphics" style:family="graphic"><style:graphic-properties text:anchor-type="as-char" style:vertical-pos="top" style:vertical-rel="baseline"/></style:style>
<text:outline-style style:name="Outline"><text:outline-level-style text:level="1" style:num-format=""/><text:outline-level-style text:level="2" style:num-format=""/><text:outline-level-style text:level="3" style:num-format=""/><text:outline-level-style text:level="4" style:num-format=""/></text:outline-style>
<text:list-style style:name="Dashes"><text:list-level-style-bullet text:level="1" text:bullet-char="–"><style:list-level-properties text:list-level-position-and-space-mode="label-alignment"><style:list-level-label-alignment text:label-followed-by="listtab" text:list-tab-stop-position="5mm" fo:text-indent="-5mm" fo:margin-left="5mm"/></style:list-level-properties></text:list-level-style-bullet><text:list-level-style-bullet text:level="2" text:bullet-char="–"><style:list-level-properties text:list-level-position-and-space-mode="label-alignment"><style:list-level-label-alignment text:label-followed-by="listtab" text:list-tab-stop-position="10mm" fo:text-indent="-5mm" fo:margin-left="10mm"/></style:list-level-properties></text:list-level-style-bullet><text:list-level-style-bullet text:level="3" text:bullet-char="–"><style:list-level-properties text:list-level-position-and-space-mode="label-alignment"><style:list-level-label-alignment text:label-followed-by="listtab" text:list-tab-stop-position="15mm" fo:text-indent="-5mm" fo:margin-left="15mm"/></style:list-level-properties></text:list-level-style-bullet></text:list-style>
<text:list-style style:name="Numbers"><text:list-level-style-number text:level="1" style:num-format="1" style:num-suffix="."><style:list-level-properties text:list-level-position-and-space-mode="label-alignment"><style:list-level-label-alignment text:label-followed-by="listtab" text:list-tab-stop-position="7mm" fo:text-indent="-7mm" fo:margin-left="7mm"/></style:list-level-properties></text:list-level-style-number><text:list-level-style-bullet text:level="2" text:bullet-char="–"><style:list-level-properties text:list-level-position-and-space-mode="label-alignment"><style:list-level-label-alignment text:label-followed-by="listtab" text:list-tab-stop-position="12mm" fo:text-indent="-5mm" fo:margin-left="12mm"/></style:list-level-properties></text:list-level-style-bullet><text:list-level-style-bullet text:level="3" text:bullet-char="–"><style:list-level-properties text:list-level-position-and-space-mode="label-alignment"><style:list-level-label-alignment text:label-followed-by="listtab" text:list-tab-stop-position="17mm" fo:text-indent="-5mm" fo:margin-left="17mm"/></style:list-level-properties></text:list-level-style-bullet></text:list-style>
<text:notes-configuration text:note-class="footnote" text:citation-style-name="Footnote_20_Symbol" text:citation-body-style-name="Footnote_20_anchor" text:default-style-name="Footnote" style:num-format="1" text:start-value="0" text:footnotes-position="page" text:start-numbering-at="document"/>
</office:styles>
<office:automatic-styles>
<style:page-layout style:name="paper"><style:page-layout-properties fo:page-width="210mm" fo:page-height="279.4mm" style:print-orientation="portrait" fo:margin-top="14mm" fo:margin-bottom="14mm" fo:margin-left="22.5mm" fo:margin-right="22.5mm"><style:footnote-sep style:width="0.3mm" style:distance-before-sep="2mm" style:distance-after-sep="1.5mm" style:adjustment="left" style:rel-width="25%" style:color="#16181a"/></style:page-layout-properties><style:header-style><style:header-footer-properties fo:min-height="8mm" fo:margin-bottom="4mm"/></style:header-style><style:footer-style><style:header-footer-properties fo:min-height="8mm" fo:margin-top="3mm"/></style:footer-style></style:page-layout>
</office:automatic-styles>
<office:master-styles>
<style:master-page style:name="Standard" style:page-layout-name="paper"><style:header><text:p text:style-name="Header">@RUNNING@</text:p></style:header><style:footer><text:p text:style-name="Footer"><text:page-number text:select-page="current">1</text:page-number> / <text:page-count>1</text:page-count></text:p></style:footer></style:master-page>
</office:master-styles>
</office:document-styles>
)xml";

}  // namespace

std::string text_styles(const Document& document) {
  std::string styles = kStyles;
  const std::string slot = "@RUNNING@";
  return styles.replace(styles.find(slot), slot.size(),
                        escaped(document.subject + " · " + document.title + " · " + phrase("page.known") +
                                " " + document.known));
}

}  // namespace lathbook::report
