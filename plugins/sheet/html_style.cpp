// The look of the page: an architect's sheet, ink on paper, the same in black and white and on paper.
// No '<', '>' or '&' in it: the text must mean the same to a reader of HTML and of XML.
#include "plugins/sheet/write.hpp"

namespace lathbook::sheet {

const char* const page_style = R"css(
:root { --ink: #16181a; --soft: #55585c; --line: #16181a; --tint: #f2f2ef; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; background: #fff; color: var(--ink); font: 1rem/1.5 Charter, "Bitstream Charter", "Iowan Old Style", Georgia, "DejaVu Serif", serif; overflow-wrap: break-word; }
.sheet { max-width: 52rem; margin: 0 auto; padding: 1rem; }
h1, h2, h3, h4, .kicker, dt, caption, th, nav { font-family: "Gill Sans", "Gill Sans MT", Optima, "Avenir Next", "DejaVu Sans Condensed", "Noto Sans", sans-serif; }
h1 { font-size: 1.9rem; line-height: 1.15; font-weight: 600; margin: .1rem 0 .6rem; }
.kicker { text-transform: uppercase; letter-spacing: .16em; font-size: .78rem; margin: 0; color: var(--soft); }
h2 { font-size: .95rem; text-transform: uppercase; letter-spacing: .14em; font-weight: 600; margin: 2.4rem 0 .7rem; padding-top: .45rem; border-top: 3px double var(--line); }
h3 { font-size: 1.18rem; line-height: 1.3; margin: 1.7rem 0 .4rem; display: flex; align-items: center; gap: .6rem; }
h4 { font-size: .92rem; margin: 1.1rem 0 .3rem; font-weight: 600; display: flex; align-items: center; gap: .5rem; }
p { margin: .35rem 0; }
ul, ol { margin: .3rem 0; padding-left: 1.15rem; }
li { margin: .3rem 0; }
.bubble { flex: none; display: inline-flex; width: 2rem; height: 2rem; border: 1.6px solid var(--line); border-radius: 50%; align-items: center; justify-content: center; font-size: 1rem; }
.surely::before, .possibly::before { content: ""; flex: none; width: 1.1rem; height: .7rem; border: 1px solid var(--line); background: var(--ink); -webkit-print-color-adjust: exact; print-color-adjust: exact; }
.possibly::before { background: repeating-linear-gradient(135deg, var(--ink) 0 1px, #fff 1px 4px); }
.block { display: grid; grid-template-columns: 1fr; border: 1.6px solid var(--line); margin: 0 0 1rem; }
.block div { padding: .35rem .6rem; border-top: 1px solid var(--line); }
.block div:first-child { border-top: 0; }
dt { font-size: .7rem; letter-spacing: .1em; text-transform: uppercase; color: var(--soft); }
dd { margin: 0; }
.mono { font-family: "DejaVu Sans Mono", Menlo, Consolas, monospace; font-size: .8rem; overflow-wrap: anywhere; }
.warn { border: 3px solid var(--line); padding: .5rem .7rem; font-weight: 600; }
nav ul { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: .25rem 1rem; font-size: .9rem; }
a { color: inherit; text-decoration-thickness: 1px; text-underline-offset: .18em; }
.date { text-decoration: underline dotted; text-underline-offset: .18em; }
a.date { text-decoration: underline dotted; }
sup { font-size: .72em; line-height: 0; margin-left: .1em; }
sup.short { white-space: nowrap; }
sup a { text-decoration: none; padding: .2em .05em; }
details { margin: .1rem 0; }
summary { cursor: pointer; list-style-position: outside; }
summary:focus-visible, a:focus-visible { outline: 2px solid var(--ink); outline-offset: 2px; }
.why summary { list-style: none; }
.why summary::-webkit-details-marker { display: none; }
.why summary::after { content: " why?"; font-size: .75em; font-style: italic; color: var(--soft); white-space: nowrap; }
.why[open] summary::after { content: " close"; }
.chain { border-left: 3px solid var(--line); margin: .5rem 0 .8rem .2rem; padding: .1rem 0 .1rem .8rem; font-size: .93rem; }
.chain p { margin: .25rem 0; }
.bound { font-weight: 600; }
.chain:target { background: var(--tint); }
.basis, .remark { color: var(--soft); font-size: .92em; }
.more { font-size: .95rem; margin: .15rem 0 .6rem; }
.clash { border: 1.6px solid var(--line); padding: .3rem .8rem .7rem; margin: 1rem 0; }
.sides { display: grid; grid-template-columns: 1fr; gap: 0 1.4rem; }
.quote { font-style: italic; }
figure { margin: 0; }
svg { display: block; width: 100%; height: auto; }
svg text { font-family: "Gill Sans", "Gill Sans MT", Optima, "DejaVu Sans Condensed", "Noto Sans", sans-serif; fill: var(--ink); }
.wide { display: none; }
table { border-collapse: collapse; width: 100%; font-size: .9rem; }
caption { text-align: left; font-size: .9rem; padding: .8rem 0 .4rem; font-weight: 600; }
td, th { text-align: left; vertical-align: top; }
table, tbody, tr, th, td, caption { display: block; }
thead { display: none; }
tr { border-top: 1px solid var(--line); padding: .4rem 0; }
td::before { content: attr(data-label) ": "; color: var(--soft); }
.notes-list { padding-left: 2.4rem; }
.notes-list, .sources { font-size: .92rem; }
.notes-list li:target { background: var(--tint); }
.letters { list-style: none; padding: 0; font-size: .92rem; }
.letters b { display: inline-block; min-width: 1.5rem; }
footer { margin-top: 2.4rem; border-top: 1px solid var(--line); padding-top: .5rem; font-size: .82rem; color: var(--soft); }
@media (min-width: 46rem) {
  .sheet { margin: 1.5rem auto; padding: 1.6rem 2.2rem; border: 1.6px solid var(--line); outline: 1px solid var(--line); outline-offset: 5px; }
  .block { grid-template-columns: 1fr 1fr; }
  .block div { border-top: 1px solid var(--line); }
  .block div:nth-child(2) { border-top: 0; }
  .block div:nth-child(even) { border-left: 1px solid var(--line); }
  .block div.across { grid-column: 1 / -1; border-left: 0; }
  .sides { grid-template-columns: 1fr 1fr; }
  .wide { display: block; }
  .narrow { display: none; }
  table { display: table; }
  caption { display: table-caption; }
  thead { display: table-header-group; }
  tbody { display: table-row-group; }
  tr { display: table-row; }
  th, td { display: table-cell; padding: .3rem .8rem .3rem 0; border-top: 1px solid var(--line); font-weight: 400; }
  thead th { border-top: 0; font-weight: 600; }
  td::before { content: none; }
}
@page { margin: 16mm 15mm; }
@media print {
  html { font-size: 9.4pt; }
  .sheet { max-width: none; margin: 0; padding: 0; border: 0; outline: 0; }
  nav { display: none; }
  .why summary::after { content: none; }
  .chain li, .notes-list li, tr, .clash p, svg { break-inside: avoid; }
  #drawing { break-before: page; }
  svg.wide { max-height: 218mm; }
  h2, h3, h4, .bound, summary { break-after: avoid; }
  .chain { font-size: .86rem; line-height: 1.35; margin: .2rem 0 .4rem .2rem; }
  .narrow { display: none; }
  .wide { display: block; }
}
)css";

}  // namespace lathbook::sheet
