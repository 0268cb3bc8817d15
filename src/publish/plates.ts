/**
 * Figures, tables and sections of a document: numbered in the order in which they come, and referred to by number. A part
 * names what it shows and what it refers to; the numbers are put in when the whole document is there.
 */

import { Html, html } from './html.ts';
import { type Column, type Row, tableUnder } from './report-table.ts';

/** Between marks stand names that are numbers in the end. Text from files cannot hold it: `html` takes it out. */
const MARK = '\u0001';

type Kind = 'figure' | 'table' | 'section';

/** How a document says `Figure 3` and `Table 3`. */
export interface PlateWords {
  figure(number: number): string;
  table(number: number): string;
}

/**
 * A drawing with its caption below: what it shows of which lake and when, so that it can be understood alone.
 * @param called how the caption calls it, with {number}; as the document does if left out
 */
export function figure(
  name: string,
  drawing: Html | null,
  title: string,
  note: Html | string | null,
  { className = 'plate', called = '' }: { className?: string; called?: string } = {},
): Html | null {
  if (drawing === null) return null;
  return html`<figure class="${className}" id="figure-${name}">${drawing}<figcaption><b>${numberOf('figure', name, called)}. ${title}</b>${note === null ? null : html` ${note}`}</figcaption></figure>`;
}

/** A table with its caption above; null when it has no rows. */
export function numberedTable(
  name: string,
  title: string,
  columns: Column[],
  rows: Row[],
): Html | null {
  if (rows.length === 0) return null;
  const caption = html`<caption id="caption-${name}"><b>${numberOf('table', name)}. ${title}</b></caption>`;
  return html`<div id="table-${name}">${tableUnder(caption, html`aria-labelledby="caption-${name}"`, columns, rows)}</div>`;
}

/** A section with its number before its heading. */
export function section(name: string, title: string, content: Html | null): Html | null {
  if (content === null) return null;
  return html`<section id="section-${name}"><h2>${numberOf('section', name)} ${title}</h2>${content}</section>`;
}

/** `Figure 3`, a link to it. What it names must stand in the document. */
export const seeFigure = (name: string): Html => reference('figure', name);
export const seeTable = (name: string): Html => reference('table', name);
/** `section 3` */
export const seeSection = (name: string): Html => reference('section', name);
/** The number of a section alone, before its name in a list of contents. */
export const numberOfSection = (name: string): Html => token('bare', `section-${name}`);

/** A text of a table of strings in which {names} stand for references. */
export function withReferences(text: string, references: Readonly<Record<string, Html>>): Html {
  const pieces = text.split(/\{(\w+)\}/);
  return html`${pieces.map((piece, i) => (i % 2 === 0 ? piece : (references[piece] ?? piece)))}`;
}

const numberOf = (kind: Kind, name: string, called = ''): Html =>
  token(kind, `${kind}-${name} ${called}`.trim());
const reference = (kind: Kind, name: string): Html => token('see', `${kind}-${name}`);
const token = (what: string, id: string): Html => new Html(`${MARK}${what} ${id}${MARK}`);

/**
 * The document with its numbers.
 * @throws when something is referred to that is not there, or is there twice
 */
export function numbered(whole: Html, words: PlateWords): Html {
  const pieces = whole.text.split(MARK);
  const count: Record<Kind, number> = { figure: 0, table: 0, section: 0 };
  const numbers = new Map<string, { kind: Kind; number: number }>();
  for (const [what, id] of tokensOf(pieces)) {
    if (what !== 'figure' && what !== 'table' && what !== 'section') continue;
    if (numbers.has(id)) throw new Error(`got "${id}" twice, expected it once in a document`);
    count[what] += 1;
    numbers.set(id, { kind: what, number: count[what] });
  }
  const text = pieces.map((piece, i) => {
    if (i % 2 === 0) return piece;
    const [what = '', id = '', ...called] = piece.split(' ');
    const known = numbers.get(id);
    if (known === undefined)
      throw new Error(`got a reference to "${id}", expected something that stands in the document`);
    const { kind, number } = known;
    const named = kind === 'section' ? `section ${number}` : words[kind](number);
    if (what === 'see') return html`<a href="#${id}">${named}</a>`.text;
    if (kind === 'section') return String(number);
    const own = called.join(' ').replace('{number}', String(number));
    return html`${own === '' ? named : own}`.text;
  });
  return new Html(text.join(''));
}

function tokensOf(pieces: readonly string[]): [what: string, id: string][] {
  return pieces.flatMap((piece, i): [string, string][] => {
    const [what = '', id = ''] = piece.split(' ');
    return i % 2 === 0 ? [] : [[what, id]];
  });
}
