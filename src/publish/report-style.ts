/** The style sheets of what is printed: light, system fonts, no rule that fetches anything. */

/** Of the report, its short version and the sheets of areas. */
export const STYLE = `
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0; background: #f7f5ef; color: #1c2733; font: 16px/1.5 system-ui, "Segoe UI", "Helvetica Neue", Arial, sans-serif; font-variant-numeric: tabular-nums; overflow-wrap: anywhere; }
main { max-width: 760px; margin: 0 auto; padding: 32px 24px 64px; background: #fffdf8; }
.lake { margin: 0; color: #55616e; }
h1 { margin: 0 0 16px; font: 400 20px/1.3 Georgia, "Times New Roman", serif; color: #55616e; }
.answer { margin: 0 0 12px; font: 400 24px/1.35 Georgia, "Times New Roman", serif; }
.band, figcaption, .note { color: #55616e; font-size: 14px; }
h2 { margin: 36px 0 8px; padding-top: 10px; border-top: 1px solid #d9d4c7; font-size: 18px; font-weight: 600; }
h3 { margin: 20px 0 4px; font-size: 15px; font-weight: 600; }
dl { display: grid; grid-template-columns: repeat(auto-fill, minmax(210px, 1fr)); gap: 10px 24px; margin: 0; }
dt { color: #55616e; font-size: 14px; }
dd { margin: 0; }
table { width: 100%; margin: 8px 0; border-collapse: collapse; font-size: 14px; overflow-wrap: normal; }
caption { text-align: left; color: #55616e; padding-bottom: 4px; }
th, td { padding: 4px 10px 4px 0; border-bottom: 1px solid #d9d4c7; text-align: left; vertical-align: top; font-weight: 400; }
thead th { color: #55616e; }
th.n, td.n { text-align: right; padding: 4px 0 4px 14px; }
td.n { white-space: nowrap; }
.n + th:not(.n), .n + td:not(.n) { padding-left: 20px; }
tr.sum th, tr.sum td { font-weight: 600; }
.scroll { overflow-x: auto; }
figure { margin: 8px 0; }
figure h3 { margin: 4px 0; }
figcaption { margin-top: 4px; line-height: 1.4; }
.figures { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 320px), 1fr)); gap: 20px 24px; align-items: start; margin: 12px 0; }
.figures figure { margin: 0; }
.figures > div > figure + figure { margin-top: 20px; }
.figure { display: block; width: 100%; max-width: 440px; height: auto; font-family: inherit; }
.key { display: flex; flex-wrap: wrap; gap: 4px 18px; margin: 8px 0 0; padding: 0; list-style: none; font-size: 14px; }
.key li { display: flex; align-items: center; gap: 6px; margin: 0; }
.key > svg { position: absolute; }
a { color: #0f5f6b; }
.checks { list-style: none; padding: 0; }
.doubtful, .fails { font-weight: 600; color: #8a4b00; }
.holds { font-weight: 600; }
ul { margin: 8px 0; padding-left: 20px; }
li { margin: 4px 0; }
.notices b { font-weight: 600; color: #8a4b00; }
@media screen and (max-width: 560px) {
  main { padding: 20px 16px 40px; }
  .answer { font-size: 21px; }
  .lake-map > svg { font-size: 22px; }
  td.n { white-space: normal; }
  .many, .many tbody, .many caption { display: block; }
  .many thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .many tr { display: flex; flex-wrap: wrap; gap: 0 16px; padding: 6px 0; border-bottom: 1px solid #d9d4c7; }
  .many th[scope="row"] { width: 100%; padding: 0; border: 0; font-weight: 600; }
  .many td, .many td.n { padding: 0; border: 0; text-align: left; white-space: normal; }
  .many td::before { content: attr(data-label) " "; color: #55616e; }
}
@media print {
  @page { margin: 12mm 14mm; }
  body, main { background: #fff; }
  main { max-width: none; padding: 0; }
  body { font-size: 8.5pt; line-height: 1.35; print-color-adjust: exact; }
  table, figcaption, .band, .note, .key, dt { font-size: 7.5pt; }
  table { margin: 4px 0; }
  th, td, th.n, td.n { padding-top: 1px; padding-bottom: 1px; }
  h1 { margin-bottom: 6px; font-size: 11pt; }
  .answer { margin-bottom: 6px; font-size: 14pt; }
  .band { margin: 0 0 4px; }
  h2 { margin-top: 12px; padding-top: 5px; font-size: 11pt; }
  h3 { margin-top: 8px; font-size: 9pt; }
  h2, h3, caption { break-after: avoid; }
  p { orphans: 3; widows: 3; }
  ul { margin: 4px 0; }
  li { margin: 1px 0; }
  dl { grid-template-columns: repeat(2, 1fr); gap: 3px 16px; }
  .figures { grid-template-columns: repeat(2, minmax(0, 1fr)); gap: 8px 20px; margin: 6px 0; }
  figure, tr, dl div, li, table:not(.long) { break-inside: avoid; }
  thead { display: table-header-group; }
  tbody tr:nth-child(-n + 2), tbody tr:last-child { break-before: avoid; }
  .scroll { overflow: visible; }
}
`;

/** After the style of all, for a page whose tables have eight columns and more: room for them, while sentences keep their length. */
export const WIDE = `
@media screen and (min-width: 561px) {
  td.whole { white-space: nowrap; }
  main { max-width: 1040px; }
  main p, main li { max-width: 712px; }
}
`;

/**
 * Of the report and its short version, after the style of all: a first page that is exactly one, whatever the paper, its map
 * taking the room that is left; the lake and the page's number at the foot of each page.
 */
export function pageStyle(foot: string): string {
  return `
[id^="table-"] + [id^="table-"] { margin-top: 12px; }
figcaption b { color: #1c2733; font-weight: 600; }
.front { display: grid; grid-template-columns: minmax(0, 1fr); gap: 10px; }
.front > *, .front header > * { margin: 0; }
.front .sure h2, nav h2 { margin: 0 0 2px; padding: 0; border: 0; font-size: 15px; }
.front .sure p { margin: 0; }
.failing { font-size: 14px; }
.lake-map, .further { display: block; width: 100%; height: auto; font-family: inherit; }
.figure.wide { max-width: none; min-width: 660px; }
.sign { display: grid; gap: 22px; margin-top: 18px; }
.sign p { display: grid; grid-template-columns: 9em 3fr 3fr 2fr; gap: 0 14px; margin: 0; align-items: end; }
.sign b { font-weight: 600; }
.sign span { padding-top: 26px; border-bottom: 1px solid #55616e; color: #55616e; font-size: 12px; }
nav { margin-top: 36px; }
.contents { columns: 2 260px; margin: 8px 0; padding: 0; list-style: none; }
.sources { columns: 2 300px; column-gap: 36px; }
code { font-size: 0.85em; overflow-wrap: anywhere; }
@media screen and (max-width: 560px) {
  .sign p { grid-template-columns: 1fr; }
}
@media print {
  @page {
    margin: 12mm 14mm 15mm;
    @bottom-left { content: "${cssText(foot)}"; color: #55616e; font: 7.5pt sans-serif; }
    @bottom-right { content: counter(page) " / " counter(pages); color: #55616e; font: 7.5pt sans-serif; }
  }
  a { color: inherit; text-decoration: none; }
  .front { display: flex; flex-direction: column; gap: 6px; height: 100vh; break-after: page; }
  .front .sure h2, nav h2 { font-size: 9pt; }
  .front .map { display: flex; flex: 1 1 0; flex-direction: column; min-height: 30mm; }
  .front .lake-map { flex: 1 1 0; min-height: 0; }
  .front .key { gap: 1px 12px; margin-top: 3px; }
  .figure.wide { min-width: 0; max-height: 72mm; margin: 0 auto; }
  .front figcaption { margin-top: 2px; font-size: 7.5pt; }
  .failing { font-size: 8pt; }
  .sign { gap: 4px; margin-top: 2px; }
  .sign span { padding-top: 14px; font-size: 7pt; }
  nav { margin-top: 0; }
  .further { width: auto; max-width: 100%; max-height: 54mm; }
  .figure { max-width: 68mm; }
  .figure.wide { max-width: none; }
  .further + .key { gap: 1px 10px; font-size: 7pt; }
  .pair { display: grid; grid-template-columns: 66mm 1fr; gap: 0 16px; align-items: start; }
  .pair.even { grid-template-columns: 1fr 1fr; }
  .pair th { padding-right: 4px; white-space: nowrap; }
  .pair thead th { white-space: normal; }
  .pair th.n, .pair td.n, .details th.n, .details td.n { padding-left: 6px; }
  .details { font-size: 8pt; }
  .details .note, .details dl, .details table, .details figcaption { font-size: 7pt; line-height: 1.3; }
  .details dt { font-size: inherit; }
  .details dl div { display: flex; gap: 6px; }
  .details dt { flex: 0 0 34%; }
  .notices { columns: 2; column-gap: 8mm; }
}
`;
}

/** Text within quotation marks of a style sheet: what is no letter or digit stands by its number, so that nothing ends it. */
function cssText(text: string): string {
  return text.replace(/[^A-Za-z0-9]/gu, (c) => `\\${(c.codePointAt(0) ?? 0).toString(16)} `);
}
