// The look of the page: an architect's sheet, ink on paper, the same in black and white and on paper.
// No '<', '>' or '&' in it: the text must mean the same to a reader of HTML and of XML.
#include "plugins/report/write.hpp"

namespace lathbook::report {

const char* const page_style = R"css(
:root { --ink: #16181a; --soft: #55585c; --tint: #f4f4f1; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0 auto; max-width: 54rem; padding: 1rem; background: #fff; color: var(--ink); font: 1rem/1.5 Charter, "Bitstream Charter", "Iowan Old Style", Georgia, "DejaVu Serif", serif; overflow-wrap: break-word; }
h1, h2, h3, h4, h5, .kicker, .title, dt, caption, th, nav, figcaption { font-family: "Gill Sans", "Gill Sans MT", Optima, "Avenir Next", "DejaVu Sans Condensed", "Noto Sans", sans-serif; }
.front { border: 1.6px solid var(--ink); outline: 1px solid var(--ink); outline-offset: 4px; padding: 1.4rem 1.2rem 0; margin: .4rem .4rem 2rem; }
.kicker { text-transform: uppercase; letter-spacing: .16em; font-size: .78rem; margin: 0; color: var(--soft); }
h1 { font-size: 2.3rem; line-height: 1.1; font-weight: 600; margin: .3rem 0 0; }
.title { font-size: 1.25rem; margin: .2rem 0 1.4rem; }
.block { margin: 0 -1.2rem; border-top: 1.6px solid var(--ink); }
.block div { padding: .35rem 1.2rem; border-top: 1px solid var(--ink); }
.block div:first-child { border-top: 0; }
dt { font-size: .7rem; letter-spacing: .1em; text-transform: uppercase; color: var(--soft); }
dd { margin: 0; }
.mono { font-family: "DejaVu Sans Mono", Menlo, Consolas, monospace; font-size: .8rem; overflow-wrap: anywhere; }
h2 { font-size: 1.4rem; line-height: 1.2; font-weight: 600; margin: 0 0 .8rem; padding-top: .5rem; border-top: 3px double var(--ink); }
.chapter { margin-top: 3rem; }
h3 { font-size: .95rem; text-transform: uppercase; letter-spacing: .12em; font-weight: 600; margin: 2rem 0 .5rem; border-bottom: 1px solid var(--ink); padding-bottom: .15rem; }
h4 { font-size: 1.08rem; margin: 1.4rem 0 .3rem; font-weight: 600; }
h5 { font-size: .92rem; margin: 1rem 0 .2rem; font-weight: 600; font-style: italic; }
p { margin: .4rem 0; }
ul, ol { margin: .3rem 0; padding-left: 1.2rem; }
li { margin: .3rem 0; }
nav { margin: 1.5rem 0; }
nav h2, .about h2 { border-top: 0; padding-top: 0; }
nav ol, nav ul { columns: 2 16rem; font-size: .95rem; padding-left: 1.8rem; }
nav ul { list-style: none; padding-left: 0; font-size: .88rem; }
nav ul li { padding-left: 1.2rem; text-indent: -1.2rem; break-inside: avoid; }
a { color: inherit; text-decoration-thickness: 1px; text-underline-offset: .18em; }
a:focus-visible, .scroll:focus-visible { outline: 2px solid var(--ink); outline-offset: 2px; }
sup { font-size: .7em; line-height: 0; margin-left: .1em; }
sup a { text-decoration: none; padding: .25em .08em; }
.few { white-space: nowrap; }
.warning { border: 2px solid var(--ink); border-left-width: 8px; padding: .3rem .8rem; margin: .8rem 0; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: .88rem; line-height: 1.4; margin: .6rem 0 1.2rem; }
caption { text-align: left; font-weight: 600; padding: .5rem 0 .3rem; }
th, td { text-align: left; vertical-align: top; font-weight: 400; padding: .3rem .7rem .3rem 0; border-top: 1px solid #9a9da1; }
tbody th { font-family: inherit; }
thead th { border-top: 1.6px solid var(--ink); border-bottom: 1.6px solid var(--ink); font-weight: 600; font-size: .8rem; }
th.group { font-weight: 600; background: var(--tint); padding-left: .4rem; border-top: 1.6px solid var(--ink); }
.chip { display: inline-block; width: 1.5rem; height: .95rem; border: 1px solid var(--ink); vertical-align: -.1rem; -webkit-print-color-adjust: exact; print-color-adjust: exact; }
figure { margin: 1rem 0 1.4rem; }
img { display: block; height: auto; max-width: 100%; }
.chart { width: 100%; min-width: 40rem; }
.picture { border: 1px solid var(--ink); }
figcaption { font-size: .85rem; padding-top: .3rem; }
.beside { display: flex; gap: 1rem; align-items: flex-start; }
.beside img { flex: 0 1 auto; min-width: 0; }
.beside figcaption { flex: 1 1 12rem; padding-top: 0; }
.notes { font-size: .88rem; padding-left: 0; }
.notes li { margin: .15rem 0 .15rem 2.6rem; }
.notes li:target { background: var(--tint); outline: 1px solid var(--ink); }
.bibliography { list-style: none; padding: 0; font-size: .93rem; }
.bibliography li { padding-left: 2rem; text-indent: -2rem; }
footer { margin-top: 3rem; border-top: 1px solid var(--ink); padding-top: .5rem; font-size: .78rem; color: var(--soft); overflow-wrap: anywhere; }
@media (max-width: 40rem) {
  table, tbody, tr, th, td, caption { display: block; }
  thead, colgroup { display: none; }
  tr { border-top: 1px solid var(--ink); padding: .3rem 0; }
  th, td { border: 0; padding: .1rem 0; }
  tbody th { font-weight: 600; }
  td::before { content: attr(data-label) ": "; color: var(--soft); font-size: .92em; }
  .chip { width: 2rem; }
  .beside { display: block; }
}
@page { margin: 19mm 17mm 18mm; @top-left { font: 8.5pt "DejaVu Sans Condensed", "Noto Sans", sans-serif; color: #55585c; } @bottom-right { font: 8.5pt "DejaVu Sans Condensed", "Noto Sans", sans-serif; content: counter(page) " / " counter(pages); } }
@page :first { @top-left { content: ""; } }
@media print {
  html { font-size: 9.6pt; }
  body { max-width: none; padding: 0; }
  .front { margin: 2mm; min-height: 232mm; display: flex; flex-direction: column; break-after: page; padding-top: 55mm; }
  .front .block { margin-top: auto; }
  h1 { font-size: 3.2rem; }
  .title { font-size: 1.7rem; }
  nav ol, nav ul { columns: 2; font-size: .8rem; line-height: 1.25; }
  .about { margin-top: 2rem; }
  .chapter { margin-top: 0; break-before: page; }
  /* Rooms of a page or two would leave the rest of it empty. */
  .chapter[id|="room"] + .chapter[id|="room"], #background + #chronology, #pictures + #proofs, #evaluation + #treatment, #treatment + #record, #proofs + #reckoning { break-before: auto; margin-top: 2rem; }
  #notes, #bibliography { break-before: auto; margin-top: 2rem; }
  h2, h3, h4, h5, caption, thead, tr.opens, p:has(+ ul), p:has(+ ol) { break-after: avoid; }
  tr, figure, li, .warning { break-inside: avoid; }
  tr.long { break-inside: auto; }
  p { orphans: 3; widows: 3; }
  .scroll { overflow: visible; }
  .chart { min-width: 0; max-height: 225mm; object-fit: contain; object-position: left top; }
  .notes { font-size: .84rem; columns: 2; column-gap: 7mm; }
  .notes li:target { outline: 0; background: none; }
  a { text-decoration: none; }
  footer { display: none; }
}
)css";

}  // namespace lathbook::report
