/**
 * Coordinate systems as .prj files and GeoPackages hold them: well-known text, version 1, in the dialects of OGC and of ESRI.
 * (OGC 01-009, 7; ESRI's names of projections and parameters as they stand in its .prj files.) Version 2 is read for its
 * EPSG code alone.
 */

/** `NAME["text", 1.5, CHILD[...]]` */
export interface WktNode {
  name: string;
  words: string[];
  numbers: number[];
  children: WktNode[];
}

/** More is no coordinate system. */
const LONGEST = 20_000;
const DEEPEST = 20;
const TOKEN =
  /\s*(?:"((?:[^"]|"")*)"|([A-Za-z_][A-Za-z0-9_]*)|([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)|([[\](),]))/y;

/** Null where the text is none. */
export function parseWkt(text: string): WktNode | null {
  if (text.length > LONGEST) return null;
  const tokens = tokensOf(text.replace(/[\0\uFEFF]/g, '').trim());
  if (tokens === null || tokens.length === 0) return null;
  const reader = { tokens, at: 0 };
  const root = readNode(reader, 0);
  return root !== null && reader.at === tokens.length ? root : null;
}

type Token = { kind: 'text' | 'word' | 'number' | 'mark'; text: string };

function tokensOf(text: string): Token[] | null {
  const tokens: Token[] = [];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < text.length) {
    const found = TOKEN.exec(text);
    if (found === null) return null;
    const [, quotedText, word, number, mark] = found;
    if (quotedText !== undefined)
      tokens.push({ kind: 'text', text: quotedText.replaceAll('""', '"') });
    else if (word !== undefined) tokens.push({ kind: 'word', text: word });
    else if (number !== undefined) tokens.push({ kind: 'number', text: number });
    else tokens.push({ kind: 'mark', text: mark });
  }
  return tokens;
}

function readNode(reader: { tokens: Token[]; at: number }, depth: number): WktNode | null {
  const { tokens } = reader;
  const head = tokens[reader.at];
  const open = tokens[reader.at + 1]?.text;
  if (depth > DEEPEST || head?.kind !== 'word' || (open !== '[' && open !== '(')) return null;
  const node: WktNode = { name: head.text.toUpperCase(), words: [], numbers: [], children: [] };
  for (reader.at += 2; ; ) {
    const token = tokens[reader.at];
    if (token === undefined) return null;
    const next = tokens[reader.at + 1]?.text;
    if (token.kind === 'word' && (next === '[' || next === '(')) {
      const child = readNode(reader, depth + 1);
      if (child === null) return null;
      node.children.push(child);
    } else {
      if (token.kind === 'mark') return null;
      if (token.kind === 'number') node.numbers.push(Number(token.text));
      else node.words.push(token.text);
      reader.at++;
    }
    const after = tokens[reader.at++]?.text;
    if (after === ']' || after === ')') return node;
    if (after !== ',') return null;
  }
}

/** The first child of this name. */
export function child(node: WktNode, name: string): WktNode | null {
  return node.children.find((c) => c.name === name) ?? null;
}

/** The EPSG code that a system names of itself. */
export function codeOf(node: WktNode): number | null {
  const mark = child(node, 'AUTHORITY') ?? child(node, 'ID');
  if (mark === null || mark.words[0]?.toUpperCase() !== 'EPSG') return null;
  const code = Number(mark.words[1] ?? mark.numbers[0]);
  return Number.isInteger(code) && code > 0 ? code : null;
}

/** Whether the text is in version 2 of the notation. */
export function isVersion2(node: WktNode): boolean {
  return /CRS$/.test(node.name);
}
