/** HTML from templates in which everything that is put in is escaped, unless it came from a template itself. */

export class Html {
  constructor(readonly text: string) {}
}

type Part = Html | string | number | null | Part[];

/** `` html`<td>${name}</td>` ``: text and numbers are escaped, Html is taken as it is, null is nothing. */
export function html(strings: TemplateStringsArray, ...parts: Part[]): Html {
  return new Html(
    strings.reduce(
      (text, piece, i) => text + piece + (i < parts.length ? render(parts[i]) : ''),
      '',
    ),
  );
}

/** For text and for quoted attributes alike; control characters that HTML forbids become a mark. */
export function escapeHtml(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that must not reach the file
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/g, '\ufffd')
      .replaceAll('&', '&amp;')
      .replaceAll('<', '&lt;')
      .replaceAll('>', '&gt;')
      .replaceAll('"', '&quot;')
      .replaceAll("'", '&#39;')
  );
}

function render(part: Part): string {
  if (part === null) return '';
  if (part instanceof Html) return part.text;
  if (Array.isArray(part)) return part.map(render).join('');
  return escapeHtml(String(part));
}
