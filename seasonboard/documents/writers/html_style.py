"""How a page looks, on a screen, on a phone and on paper."""

STYLE = """
:root { --ink: #1b1b1b; --quiet: #565656; --rule: #d5d3cb; --tint: #f6f4ee; --mark: #0b4f7d; }
* { box-sizing: border-box; }
html { font-size: 106.25%; -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; color: var(--ink); background: #fff; line-height: 1.45; hyphens: manual;
  font-family: "Libertinus Serif", "Iowan Old Style", Palatino, "Palatino Linotype", Georgia,
    "Times New Roman", serif; font-variant-numeric: lining-nums; overflow-wrap: break-word; }
main, header, footer { max-width: 50rem; margin: 0 auto; padding: 0 1.25rem; }
header { padding-top: 2.5rem; }
h1 { font-size: 1.9rem; line-height: 1.15; margin: 0; letter-spacing: -0.01em; }
h2 { font-size: 1.25rem; line-height: 1.25; margin: 2.4rem 0 0.5rem; padding-top: 0.6rem;
  border-top: 2px solid var(--ink); break-after: avoid; }
p { margin: 0.5rem 0; orphans: 3; widows: 3; }
.of { color: var(--quiet); margin: 0.35rem 0 1.1rem; }
.lead { font-size: 1.2rem; line-height: 1.4; margin: 0 0 1.1rem; }
.notice { margin: 0; padding: 0.55rem 0.8rem; border-left: 4px solid var(--mark);
  background: var(--tint); font-size: 0.95rem; }
ul { margin: 0.5rem 0; padding-left: 1.15rem; }
li { margin: 0.25rem 0; break-inside: avoid; }
figure { margin: 1rem 0; }
figcaption, caption { text-align: left; font-weight: bold; padding: 0.5rem 0 0.35rem; }
caption { font-size: 1rem; line-height: 1.4; }
caption span { font-weight: normal; }
figcaption { padding-top: 0; }
.over { overflow-x: auto; margin: 0.9rem 0; }
.over:focus-visible { outline: 2px solid var(--mark); outline-offset: 2px; }
.over svg { display: block; width: 100%; min-width: 34rem; height: auto; }
table { border-collapse: collapse; width: 100%; font-size: 0.93rem; line-height: 1.3;
  font-variant-numeric: lining-nums tabular-nums; }
th, td { text-align: left; vertical-align: top; padding: 0.3rem 0.9rem 0.3rem 0;
  border-bottom: 1px solid var(--rule); font-weight: normal; min-width: 3rem; }
thead th { color: var(--quiet); font-size: 0.87rem; vertical-align: bottom;
  border-bottom: 1px solid var(--quiet); }
tbody th { font-weight: bold; min-width: 6.5rem; }
th.n, td.n { text-align: right; }
tr > :last-child { padding-right: 0; }
td.m { font-family: "DejaVu Sans Mono", Menlo, Consolas, monospace; font-size: 0.8rem;
  white-space: nowrap; letter-spacing: 0.04em; }
.note { color: var(--quiet); font-size: 0.9rem; margin-top: 0.3rem; }
.room { margin: 1rem 0; break-inside: avoid; }
.room div { border-bottom: 1px solid var(--quiet); height: 2.1rem; }
footer { margin-top: 2.4rem; padding-bottom: 3rem; color: var(--quiet); font-size: 0.9rem; }
footer h2 { font-size: 1rem; color: var(--ink); border-top: 1px solid var(--rule);
  margin-top: 1.4rem; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.15rem 1rem; margin: 0.4rem 0; }
dt { color: var(--quiet); }
dd { margin: 0; color: var(--ink); min-width: 0; overflow-wrap: anywhere; }
@media (max-width: 40rem) {
  header { padding-top: 1.4rem; }
  h1 { font-size: 1.5rem; }
  .lead { font-size: 1.08rem; }
  th, td { padding-right: 0.45rem; min-width: 2.1rem; }
  tbody th { min-width: 5.2rem; }
  .over td, .over thead th { max-width: 13rem; }
  .over tbody th { position: sticky; left: 0; background: #fff; max-width: 9rem; }
  .over caption div { position: sticky; left: 0; max-width: calc(100vw - 2.5rem); }
  .u, .u tbody, .u tr, .u caption, .u tbody th, .u td { display: block; }
  .u thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .u tr { padding: 0.45rem 0; border-bottom: 1px solid var(--rule); }
  .u thead tr { padding: 0; border: 0; }
  .over .u tbody th, .over .u td { position: static; border: 0; padding: 0.05rem 0; max-width: none;
    text-align: left; }
  .u td { display: grid; grid-template-columns: 6.5rem 1fr; gap: 0 0.6rem; }
  .u td:empty { display: none; }
  .u td::before { content: attr(data-h); color: var(--quiet); font-size: 0.87rem;
    font-family: Georgia, serif; letter-spacing: 0; }
}
@page { margin: 18mm 17mm 20mm; @bottom-right { content: counter(page) " / " counter(pages);
  font: 9pt Georgia, serif; color: #565656; } @bottom-left { content: FOOT;
  font: 9pt Georgia, serif; color: #565656; } }
@media print {
  html { font-size: 10.5pt; }
  main, header, footer { max-width: none; padding-left: 0; padding-right: 0; }
  header { padding-top: 0; }
  h2 { margin-top: 1.7rem; }
  .over { overflow: visible; }
  .over svg { min-width: 0; max-width: 34rem; }
  .notice { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  tr, figure, .s { break-inside: avoid; }
  thead { display: table-header-group; }
  caption { break-after: avoid; }
  footer { padding-bottom: 0; }
}
"""
