/** The little of XML 1.0 that a workbook is made of: tags, their attributes, text between them. */

export interface XmlReader {
  /** `attributes` as they stand in the tag; `closed`: the element is empty and has no end tag */
  open(name: string, attributes: string, closed: boolean): void;
  text(text: string): void;
  close(name: string): void;
}

/** Names come without their prefix. Declarations and comments are passed over; entities that a DTD declares are left as they stand. */
export function readXml(xml: string, reader: XmlReader): void {
  let at = 0;
  for (;;) {
    const open = xml.indexOf('<', at);
    const between = open < 0 ? xml.length : open;
    if (between > at) reader.text(decoded(xml.slice(at, between)));
    if (open < 0) return;
    at = tagAt(xml, open, reader);
  }
}

/** Up to the end of a tag: a > within quotes is none. */
const TO_END = /[^>"']*(?:"[^"]*"[^>"']*|'[^']*'[^>"']*)*>/y;

/** Tells the tag, and returns where it ends; a tag that never ends is the end of the text. */
function tagAt(xml: string, open: number, reader: XmlReader): number {
  const next = xml[open + 1];
  if (next === '!' || next === '?') return pastDeclaration(xml, open, reader);
  TO_END.lastIndex = open;
  if (!TO_END.test(xml)) return xml.length;
  const close = TO_END.lastIndex - 1;
  if (next === '/') {
    reader.close(localName(xml.slice(open + 2, close).trimEnd()));
    return close + 1;
  }
  const closed = xml[close - 1] === '/';
  const tag = xml.slice(open + 1, closed ? close - 1 : close);
  const space = tag.search(/\s/);
  const name = localName(space < 0 ? tag : tag.slice(0, space));
  reader.open(name, space < 0 ? '' : tag.slice(space), closed);
  return close + 1;
}

function pastDeclaration(xml: string, open: number, reader: XmlReader): number {
  const [begin, end] = xml.startsWith('<!--', open)
    ? ['<!--', '-->']
    : xml.startsWith('<![CDATA[', open)
      ? ['<![CDATA[', ']]>']
      : ['<', '>'];
  const close = xml.indexOf(end, open + begin.length);
  const stop = close < 0 ? xml.length : close;
  if (end === ']]>') reader.text(xml.slice(open + begin.length, stop));
  return stop + end.length;
}

function localName(name: string): string {
  return name.slice(name.indexOf(':') + 1);
}

const patterns = new Map<string, RegExp>();

/** The value of an attribute, whatever its prefix; null where there is none. */
export function attribute(attributes: string, name: string): string | null {
  let pattern = patterns.get(name);
  if (pattern === undefined) {
    pattern = new RegExp(`(?:\\s|:)${name}\\s*=\\s*(?:"([^"]*)"|'([^']*)')`);
    patterns.set(name, pattern);
  }
  const found = pattern.exec(attributes);
  return found === null ? null : decoded(found[1] ?? found[2]);
}

const ENTITIES: Record<string, string> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };
const LAST_CODE_POINT = 0x10ffff;

function decoded(text: string): string {
  if (!text.includes('&')) return text;
  return text.replace(/&(?:#x([\da-f]+)|#(\d+)|(\w+));/gi, (all, hex, decimal, name) => {
    if (name !== undefined) return ENTITIES[name] ?? all;
    const code = hex === undefined ? Number(decimal) : Number.parseInt(hex, 16);
    return code <= LAST_CODE_POINT ? String.fromCodePoint(code) : all;
  });
}

/** Characters that XML cannot hold are written as _x000D_ by workbooks (ECMA-376 part 1, 22.9.2.19). */
export function unescaped(text: string): string {
  if (!text.includes('_x')) return text;
  return text.replace(/_x([\da-f]{4})_/gi, (_, hex) =>
    String.fromCharCode(Number.parseInt(hex, 16)),
  );
}
