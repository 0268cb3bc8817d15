/** The report's style sheet: light, system fonts, no rule that fetches anything. */
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
.sure p { margin: 0 0 8px; }
.checks { list-style: none; padding: 0; }
.doubtful, .fails { font-weight: 600; color: #8a4b00; }
.holds { font-weight: 600; }
ul { margin: 8px 0; padding-left: 20px; }
li { margin: 4px 0; }
.notices b { font-weight: 600; color: #8a4b00; }
@media print {
  @page { margin: 16mm; }
  body, main { background: #fff; }
  main { max-width: none; padding: 0; }
  body { font-size: 10pt; }
  table, figcaption, .band, .note, dt { font-size: 9pt; }
  th, td, th.n, td.n { padding-top: 2px; padding-bottom: 2px; }
  dl { grid-template-columns: repeat(3, 1fr); gap: 6px 24px; }
  h2 { margin-top: 22px; }
  .answer { font-size: 16pt; }
  h2 { break-after: avoid; }
  figure, tr, dl div, li { break-inside: avoid; }
  thead { display: table-header-group; }
  .scroll { overflow: visible; }
}
`;
