/**
 * The parts of a public map that are words, as HTML: put into the page when it is written, and anew in the reader's browser
 * when they change the language.
 */

import type { PublicTableText, PublicTexts } from '../present/public-words.ts';
import { type Html, html } from './html.ts';

/** By the id of the element that holds each. */
export function publicParts(texts: PublicTexts): Record<'head' | 'key' | 'rest', Html> {
  return { head: head(texts), key: key(texts), rest: rest(texts) };
}

function head({ title, lead, holds }: PublicTexts): Html {
  return html`<h1>${title}</h1><p class="lead">${lead}</p>${holds.map((line) => html`<p class="holds">${line}</p>`)}`;
}

function key({ key: words }: PublicTexts): Html {
  const marks: [string, string][] = [
    ['detected', words.detected],
    ['not-detected', words.notDetected],
    ['not-searched', words.notSearched],
    ['edge', words.surveyedPart],
  ];
  const row = (sign: string, text: string) => html`<li>${signOf(sign)}${text}</li>`;
  const depths = words.depths.map((text, i) => row(`depth-${i}`, text));
  return html`<h2>${words.heading}</h2><ul class="key">${marks.map(([sign, text]) => row(sign, text))}</ul>${
    depths.length === 0 ? null : html`<h3>${words.depth}</h3><ul class="key depths">${depths}</ul>`
  }${words.notes.map((note) => html`<p class="note">${note}</p>`)}`;
}

/** The sign of the key, drawn as on the map. */
export function signOf(sign: string): Html {
  const mark = html`cx="14" cy="9"`;
  const drawn: Record<string, Html> = {
    detected: html`<circle class="mark detected" ${mark} r="6"/>`,
    'not-detected': html`<circle class="mark not-detected" ${mark} r="6"/>`,
    'not-searched': html`<rect class="depth-0" width="28" height="18"/><path class="hatch-lines" d="M-2 12L12 -2M4 20L24 0M16 22L30 8"/>`,
    edge: html`<rect class="depth-0" width="28" height="18"/><path class="edge-band" d="M0 11.5H28"/><path class="edge" d="M0 7H28"/>`,
  };
  return html`<svg class="sign" width="28" height="18" viewBox="0 0 28 18" aria-hidden="true">${
    drawn[sign] ?? html`<rect class="${sign}" width="28" height="18"/>`
  }</svg>`;
}

function rest({ notes, todo, about, tables }: PublicTexts): Html {
  return html`${notes.map((note) => html`<p class="note">${note}</p>`)}
<h2>${todo.heading}</h2><ul class="todo">${todo.items.map((item) => html`<li>${item}</li>`)}</ul>
<h2>${about.heading}</h2><dl>${about.facts.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>${about.notes.map((note) => html`<p class="note">${note}</p>`)}
<h2>${tables.heading}</h2>${tables.byDepth && table(tables.byDepth)}<details><summary>${tables.places.caption}</summary>${table(tables.places)}</details>`;
}

function table({ caption, columns, rows }: PublicTableText): Html {
  return html`<div class="scroll" tabindex="0" role="region" aria-label="${caption}"><table><caption>${caption}</caption><thead><tr>${columns.map((c) => html`<th scope="col">${c}</th>`)}</tr></thead><tbody>${rows.map(
    ([first, ...cells]) =>
      html`<tr><th scope="row">${first ?? ''}</th>${cells.map((cell) => html`<td>${cell}</td>`)}</tr>`,
  )}</tbody></table></div>`;
}
