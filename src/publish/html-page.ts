/** A whole HTML document that asks nothing of any network, also when what is put into it went wrong. */

import { type Html, html } from './html.ts';

const CSP = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";

export function htmlPage(title: string, style: string, body: Html): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${CSP}">
<meta name="viewport" content="width=device-width, initial-scale=1">
${html`<title>${title}</title>`.text}
<style>${style}</style>
</head>
<body>
${body.text}
</body>
</html>
`;
}
