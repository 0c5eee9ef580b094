// SPDX-License-Identifier: GPL-3.0-or-later
// How pages of the program look on a screen, a phone and paper. Contrasts on white: ink 16, soft
// 7.2, pass 6.6, fail 6.9, doubt 6.4 to 1.
#include "post/html/style.h"

namespace felloe {
namespace {

const char *base = R"css(
:root {
  color-scheme: light;
  --ink: #16222c; --soft: #4b5a66; --rule: #c3ccd3; --strong-rule: #16222c; --tint: #f2f5f7;
  --pass: #00694d; --fail: #9f1f27; --doubt: #7a4b00; --link: #0b5394;
}
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body {
  margin: 0; color: var(--ink); background: #fff;
  font: 1rem/1.5 system-ui, -apple-system, "Segoe UI", Roboto, "Noto Sans", "DejaVu Sans", sans-serif;
  overflow-wrap: anywhere;
}
.page { max-width: 74rem; margin: 0 auto; padding: 1.25rem clamp(0.9rem, 3vw, 2.5rem) 3rem; }
h1, h2, h3 { line-height: 1.2; text-wrap: balance; }
h1 { font-size: clamp(1.5rem, 4vw, 2.1rem); margin: 0.2rem 0 0.6rem; }
h2 { font-size: 1.3rem; margin: 2.6rem 0 0.7rem; padding-top: 0.5rem;
     border-top: 2px solid var(--strong-rule); }
h3 { font-size: 1.05rem; margin: 1.5rem 0 0.4rem; }
p { margin: 0.5rem 0; max-width: 48rem; }
ul, ol { max-width: 52rem; padding-left: 1.6rem; }
li { margin: 0.3rem 0; }
a { color: var(--link); }
a:focus-visible, .table-box:focus-visible, .drawing-box:focus-visible, summary:focus-visible { outline: 3px solid var(--link);
  outline-offset: 2px; }
code { font-family: ui-monospace, "DejaVu Sans Mono", Menlo, Consolas, monospace;
       font-size: 0.9em; overflow-wrap: anywhere; }
pre { background: var(--tint); border: 1px solid var(--rule); padding: 0.7rem 0.9rem;
      white-space: pre-wrap; margin: 0.6rem 0; }
img, svg { max-width: 100%; height: auto; }
.quiet { color: var(--soft); }
.note { color: var(--soft); font-size: 0.88rem; }
.skip { position: absolute; left: -100vw; }
.skip:focus { position: static; }
@media screen { main > section:not(#view-3d) { content-visibility: auto;
  contain-intrinsic-size: auto 60rem; } }
.contents { columns: 15rem; padding-left: 1.4rem; margin: 0.8rem 0; font-size: 0.92rem; }
)css";

const char *blocks = R"css(
.title-block, .facts { margin: 0.8rem 0; display: grid; gap: 0 1.6rem;
  grid-template-columns: repeat(auto-fill, minmax(min(15.5rem, 100%), 1fr)); }
.title-block div, .facts div { border-bottom: 1px solid var(--rule); padding: 0.28rem 0; }
.title-block { gap: 0; border: 1.5px solid var(--strong-rule); border-width: 1.5px 0 0 1.5px;
  grid-template-columns: repeat(auto-fit, minmax(min(19rem, 50%), 1fr)); }
.title-block div { border: 1.5px solid var(--strong-rule); border-width: 0 1.5px 1.5px 0;
  padding: 0.3rem 0.6rem; }
.facts .broad { grid-column: 1 / -1; }
dt { color: var(--soft); font-size: 0.8rem; line-height: 1.3; }
dd { margin: 0; font-variant-numeric: tabular-nums; }
.stamp { display: inline-block; border: 4px double; padding: 0.1rem 0.9rem; font-weight: 700;
  font-size: 1.7rem; letter-spacing: 0.06em; line-height: 1.4; }
.stamp.small { font-size: 1.05rem; border-width: 3px; padding: 0 0.5rem; }
.pass { color: var(--pass); } .fail { color: var(--fail); } .not-rated { color: var(--doubt); }
.word-pass, .word-fail, .word-not-rated { font-weight: 700; white-space: nowrap; }
.word-pass { color: var(--pass); } .word-fail { color: var(--fail); }
.word-not-rated { color: var(--doubt); }
.overall { display: flex; flex-wrap: wrap; align-items: center; gap: 0.4rem 1.2rem;
  margin: 1rem 0; font-size: 1.15rem; }
.overall p { margin: 0; }
.verdicts { display: grid; gap: 1rem;
  grid-template-columns: repeat(auto-fit, minmax(min(24rem, 100%), 1fr)); }
.verdict { border: 1px solid var(--rule); padding: 0.8rem 1rem; background: var(--tint); }
.verdict h3 { margin: 0 0 0.5rem; display: flex; flex-wrap: wrap; gap: 0.3rem 0.8rem;
  align-items: center; justify-content: space-between; }
.verdict .facts { grid-template-columns: repeat(auto-fill, minmax(min(11rem, 100%), 1fr)); }
.heed { border: 1.5px solid var(--doubt); padding: 0.5rem 0.9rem; margin: 1rem 0; }
.heed strong { color: var(--doubt); }
)css";

const char *tables = R"css(
.table-box { overflow-x: auto; margin: 0.7rem 0 1.2rem; }
table { border-collapse: collapse; width: 100%; font-size: 0.88rem; line-height: 1.35; }
caption { text-align: left; color: var(--soft); padding-bottom: 0.35rem;
  max-width: min(52rem, 100vw - 1.8rem); }
th, td { text-align: left; vertical-align: top; padding: 0.32rem 0.5rem;
  border-bottom: 1px solid var(--rule); overflow-wrap: break-word; }
tr > :first-child { padding-left: 0; } tr > :last-child { padding-right: 0; }
thead th { border-bottom: 1.5px solid var(--strong-rule); vertical-align: bottom; }
tbody th { font-weight: 600; min-width: 7rem; }
tbody th.number { min-width: 0; }
.number { text-align: right; font-variant-numeric: tabular-nums; }
td.number { white-space: nowrap; }
.unit { display: block; color: var(--soft); font-weight: 400; }
figure { margin: 0.8rem 0; }
figcaption { color: var(--soft); font-size: 0.88rem; max-width: 48rem; }
.plots { display: grid; gap: 1rem 1.5rem;
  grid-template-columns: repeat(auto-fill, minmax(min(27rem, 100%), 1fr)); }
.plots figure { margin: 0; }
.plot { display: block; width: 100%; }
.plot text { font-family: inherit; font-size: 12px; fill: var(--ink);
  paint-order: stroke; stroke: #fff; stroke-width: 3px; stroke-linejoin: round; }
.pictures { display: grid; gap: 1rem;
  grid-template-columns: repeat(auto-fill, minmax(min(26rem, 100%), 1fr)); }
.pictures figure { margin: 0; }
.pictures img, .lead img { display: block; width: 100%; border: 1px solid var(--rule); }
.together { white-space: nowrap; }
.wide-table table { font-size: 0.8rem; } .wide-table th, .wide-table td { padding-inline: 0.35rem; }
.remarks { columns: 24rem; column-gap: 2rem; max-width: none; font-size: 0.88rem; }
.sign td, .sign th { height: 3.6rem; }
.sign td { border-left: 1px solid var(--rule); padding-left: 0.5rem; }
.key { display: inline-block; vertical-align: -0.15em; width: 1.1em; height: 1.1em; }
/* On a phone small writing keeps its size: tables and broad drawings scroll in their boxes. */
@media screen and (max-width: 40rem) {
  .table-box td:not(.number, .wide-table td) { min-width: 8rem; }
  .drawing-box { overflow-x: auto; } .drawing-box > * { min-width: 44rem; }
}
)css";

const char *paper = R"css(
@page { size: A4; margin: 15mm 14mm 17mm;
  @bottom-right { content: counter(page) " / " counter(pages); font: 8pt sans-serif; } }
@media print {
  body { font-size: 9.5pt; line-height: 1.4; }
  .page { max-width: none; padding: 0; }
  .wide-only, .skip { display: none; }
  a { color: inherit; text-decoration: none; }
  h2 { font-size: 13pt; margin-top: 8mm; } h3 { font-size: 10.5pt; }
  h1, h2, h3, caption, thead { break-after: avoid; }
  thead { display: table-header-group; }
  tr, figure, li, .verdict, .heed, .title-block, .facts div, .overall, pre { break-inside: avoid; }
  .table-box { overflow: visible; } caption { max-width: none; }
  p:has(+ .plots), p:has(+ .table-box) { break-after: avoid; break-inside: avoid; }
  h2, h3, caption, section:has(> .plots), section:has(> .facts:last-child) { break-inside: avoid; }
  /* Browsers break between a heading or a caption and a table all the same: room for the first rows
     that takes no room. */
  h2::before, h3:not(.verdict h3)::before, .table-box::before { content: ""; display: block;
    height: 32mm; margin-bottom: -32mm; break-inside: avoid; }
  #signatures { break-inside: avoid; }
  table { font-size: 8pt; } .wide-table table { font-size: 7pt; }
  .wide-table th, .wide-table td { padding-inline: 0.6mm; }
  th, td { padding: 1mm 0.9mm; }
  p { orphans: 3; widows: 3; }
  .plots { grid-template-columns: 1fr 1fr; gap: 4mm 6mm; }
  .pictures { grid-template-columns: 1fr 1fr; gap: 4mm; }
  .verdicts { grid-template-columns: 1fr 1fr; }
  .facts, .verdict .facts { grid-template-columns: repeat(auto-fill, minmax(42mm, 1fr)); }
  .title-block { grid-template-columns: repeat(3, 1fr); }
  .stamp, .verdict, .plot, svg { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  .lead img { max-height: 110mm; object-fit: contain; }
}
)css";

}  // namespace

std::string house_style() { return std::string(base) + blocks + tables + paper; }

}  // namespace felloe
