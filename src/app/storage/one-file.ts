/** The program in one file: what the build put into the page itself (vite.one-file.config.ts), for a page that can fetch nothing. */

/** Element with the demo lake's files, by name. */
const DEMO_ELEMENT = 'demo-lake-files';

/** Whether this page is the program in one file. */
export function isOneFile(): boolean {
  return document.getElementById(DEMO_ELEMENT) !== null;
}

/** The demo lake's files, by name; null where they lie beside the page. */
export function demoWithin(): Map<string, Uint8Array> | null {
  const text = document.getElementById(DEMO_ELEMENT)?.textContent ?? null;
  if (text === null) return null;
  const encoder = new TextEncoder();
  const files = Object.entries(JSON.parse(text) as Record<string, string>);
  return new Map(files.map(([name, content]) => [name, encoder.encode(content)]));
}
