#include "report/html_sections.hpp"

namespace spadework::report {

const char* const page_style = R"(:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 62rem; padding: 1rem; background: #fff; color: #1a1a1a;
  font: 1rem/1.45 Arial, Helvetica, sans-serif; overflow-wrap: anywhere; }
h1 { margin: 0; font-size: 1.6rem; line-height: 1.2; }
h2 { margin: 2.2rem 0 0.6rem; padding-bottom: 0.2rem; border-bottom: 1px solid #1a1a1a; font-size: 1.25rem; }
h3 { margin: 1.4rem 0 0.4rem; font-size: 1.05rem; }
p { margin: 0.5rem 0; }
ul { margin: 0.5rem 0; padding-left: 1.2rem; }
li { margin: 0.25rem 0; }
.quiet { color: #555; }
.notice { padding: 0.4rem 0.8rem; border-left: 4px solid #1a1a1a; font-weight: bold; }
.skip { position: absolute; left: -999rem; }
.skip:focus { position: static; }
#answer h2 { margin-top: 1rem; }
.answer { margin: 0; }
.answer > div { display: grid; grid-template-columns: 8rem 1fr; padding: 0.4rem 0; border-bottom: 1px solid #ccc; }
.answer dt { color: #555; }
.answer dd { margin: 0; }
.answer strong { display: block; font-size: 1.25rem; line-height: 1.3; }
figure { margin: 1rem 0; }
figure svg { display: block; max-width: 100%; height: auto; }
figcaption { color: #555; font-size: 0.875rem; }
.drawing, .table { overflow-x: auto; }
.drawing svg { max-width: none; }
.on-narrow { display: none; }
table { margin: 1rem 0; border-collapse: collapse; font-size: 0.875rem; font-variant-numeric: tabular-nums; }
caption { padding-bottom: 0.3rem; text-align: left; font-weight: bold; font-size: 1rem; }
th, td { padding: 0.2rem 0.9rem 0.2rem 0; text-align: left; vertical-align: top; font-weight: normal;
  overflow-wrap: break-word; }
th:last-child, td:last-child { padding-right: 0; }
thead th, thead td { border-bottom: 1px solid #1a1a1a; vertical-align: bottom; font-weight: bold; }
tbody tr + tr > * { border-top: 1px solid #e4e4e4; }
tbody tr.sum > * { font-weight: bold; }
tbody tr.total > * { border-top: 1px solid #1a1a1a; font-weight: bold; }
thead th.n { max-width: 7.5rem; }
th:not(.n), td:not(.n) { max-width: 24rem; }
.n { text-align: right; }
td.n, th[scope="row"].n { white-space: nowrap; }
details { margin: 0.8rem 0; }
summary { cursor: pointer; font-weight: bold; }
.colours { display: flex; flex-wrap: wrap; gap: 0.3rem 1.2rem; margin: 0.5rem 0; padding-left: 0; font-size: 0.875rem;
  list-style-position: inside; }
.swatch { display: inline-block; width: 1.1em; height: 0.8em; margin: 0 0.3em; border: 1px solid #1a1a1a; }
@media (max-width: 60rem) {
  .drawing svg { width: 56rem; }
}
@media (max-width: 40rem) {
  .answer > div { display: block; }
  .on-wide { display: none; }
  .on-narrow { display: block; }
  tbody td:not(.n):nth-last-child(-n+2) { min-width: 8rem; }
}
@page { margin: 14mm; }
@media print {
  body { max-width: none; padding: 0; font-size: 9.5pt; }
  .skip { display: none; }
  details:not([open]) { display: none; }
  .swatch { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
  .on-wide { display: block; }
  .on-narrow { display: none; }
  .drawing, .table { overflow: visible; }
  .drawing svg { width: 100%; }
  figure svg { max-width: 100%; max-height: 195mm; }
  table { font-size: 8pt; }
  thead { display: table-header-group; }
  th, td { padding-right: 0.6rem; }
  tbody th:not(.n), tbody td:not(.n) { overflow-wrap: anywhere; }
  .on-wide svg { max-height: 82mm; }
  th, td { padding-top: 0.1rem; padding-bottom: 0.1rem; }
  tr, figure, .answer > div, li, p, .short { break-inside: avoid; }
  h2, h2 + p, h3, caption, thead { break-after: avoid; }
  tbody tr:nth-child(-n+3), tbody tr:nth-last-child(-n+3) { break-before: avoid; }
}
)";

}  // namespace spadework::report
