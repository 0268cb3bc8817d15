/** A whole HTML document that asks nothing of any network, also when what is put into it went wrong. */

import { type Html, html } from './html.ts';

const CSP = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";

/** A script as text, and its hash (`sha256-…`), by which alone the page's policy lets it run. */
export interface PageScript {
  text: string;
  hash: string;
}

export interface PageMore {
  /** language of the page, with or without a region */
  lang?: string;
  /** says in the file's beginning what it is */
  mark?: string;
  /** a script, with JSON that it finds in the element `data` */
  script?: PageScript & { data: string };
}

export function htmlPage(title: string, style: string, body: Html, more: PageMore = {}): string {
  const { lang = 'en', mark, script } = more;
  const policy = script === undefined ? CSP : `${CSP}; script-src '${script.hash}'`;
  return `<!doctype html>
<html lang="${lang}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
${mark === undefined ? '' : html`<meta name="generator" content="${mark}">\n`.text}${html`<title>${title}</title>`.text}
<style>${style}</style>
</head>
<body>
${body.text}
${script === undefined ? '' : scripts(script)}</body>
</html>
`;
}

/** In JSON a < can only stand within a text, where its code means the same and ends no element. */
function scripts({ text, data }: PageScript & { data: string }): string {
  return `<script type="application/json" id="data">${data.replaceAll('<', '\\u003c')}</script>
<script type="module">${text}</script>
`;
}
