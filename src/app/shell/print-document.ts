/** Prints a document of its own, apart from the page: in a frame that is not seen. */

/** As long as a print dialog may stand open before the next document takes the frame away. */
const FRAME = 'printed-document';

/**
 * The page's policy forbids styles in the text of a document: the sheets' own are put in as a style sheet that is made here, which
 * it allows. Resolves when the print dialog was asked for.
 */
export async function printDocument(html: string): Promise<void> {
  document.getElementById(FRAME)?.remove();
  const made = new DOMParser().parseFromString(html, 'text/html');
  const css = [...made.querySelectorAll('style')].map((style) => style.textContent).join('\n');
  for (const style of made.querySelectorAll('style, meta[http-equiv]')) style.remove();
  const frame = document.createElement('iframe');
  frame.id = FRAME;
  frame.className = 'printed-document';
  frame.title = made.title;
  frame.tabIndex = -1;
  frame.setAttribute('aria-hidden', 'true');
  document.body.append(frame);
  const inner = frame.contentWindow as (Window & typeof globalThis) | null;
  if (inner === null) throw new Error('This browser gives no frame to print from; save the file.');
  inner.document.title = made.title;
  inner.document.documentElement.lang = made.documentElement.lang;
  inner.document.body.replaceChildren(...made.body.childNodes);
  const sheet = new inner.CSSStyleSheet();
  sheet.replaceSync(css);
  inner.document.adoptedStyleSheets = [sheet];
  inner.focus();
  inner.print();
}
