/**
 * Posters: one page each, as HTML that prints at its size. Large enough to be read from two steps away: the number, the map
 * with its key, what to do, who to ask.
 */

import type { PublicWishes } from '../../shared/public-map.ts';
import { formatter } from '../../shared/strings/formatter.ts';
import type { Language } from '../../shared/strings/languages.ts';
import { PUBLIC } from '../../shared/strings/public/index.ts';
import type { PublicMap } from '../present/public-map.ts';
import { printedTag } from '../present/public-tags.ts';
import { type PublicTexts, publicTexts } from '../present/public-words.ts';
import { type Html, html } from './html.ts';
import { htmlPage } from './html-page.ts';
import { ACROSS, posterLetterMm, UPRIGHT } from './poster-letters.ts';
import { publicDrawing } from './public-drawing.ts';
import { PUBLIC_MARK } from './public-map.ts';
import { signOf } from './public-page.ts';
import { drawingStyle, lightVariables } from './public-style.ts';

export interface PosterSize {
  /** in a file's name */
  name: string;
  widthMm: number;
  heightMm: number;
}

const MM_PER_INCH = 25.4;

/** ISO 216 A3, and ANSI B (11 × 17 inches), upright and across. */
export const POSTERS: readonly PosterSize[] = [
  { name: 'a3-portrait', widthMm: 297, heightMm: 420 },
  { name: 'a3-landscape', widthMm: 420, heightMm: 297 },
  { name: '11x17-portrait', widthMm: 11 * MM_PER_INCH, heightMm: 17 * MM_PER_INCH },
  { name: '11x17-landscape', widthMm: 17 * MM_PER_INCH, heightMm: 11 * MM_PER_INCH },
];

/** Height of the text's letters as a part of the poster's shorter side: 4.9 mm on A3. Smaller where there are many words. */
const LETTER = 1 / 60;
/** The drawing is made for a picture so many CSS pixels wide. */
const DRAWN_WIDTH = 850;

export function posterHtml(
  map: PublicMap,
  wishes: PublicWishes,
  language: Language,
  size: PosterSize,
): string {
  const { facts, shapes } = map;
  const tag = printedTag(language, facts);
  const texts = publicTexts(facts, wishes, formatter(tag, PUBLIC[language]));
  const { width, height } = shapes.frame;
  const across = size.widthMm > size.heightMm;
  const body = html`<main class="${across ? 'across' : 'upright'}">
<header><h1>${texts.title}</h1><p class="lead">${texts.lead}</p>${texts.holds.map((line) => html`<p>${line}</p>`)}</header>
<div class="map"><svg viewBox="0 0 ${width} ${height}" role="img" aria-label="${texts.map.described}">${publicDrawing(map, Math.max(width, height) / DRAWN_WIDTH)}</svg></div>
<div class="key">${keyOf(texts)}</div>
<section><h2>${texts.todo.heading}</h2><ul>${texts.todo.items.map((item) => html`<li>${item}</li>`)}</ul></section>
<footer><dl>${texts.about.facts.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl></footer>
<p class="fine">${footNotes(texts)}</p>
</main>`;
  const letterMm = posterLetterMm(
    { texts, fine: footNotes(texts) },
    size,
    Math.min(size.widthMm, size.heightMm) * LETTER,
  );
  return htmlPage(texts.title, style(size, letterMm, shapes.depths.length + 1), body, {
    lang: tag,
    mark: PUBLIC_MARK,
  });
}

function keyOf({ key }: PublicTexts): Html {
  const row = (sign: string, text: string) => html`<li>${signOf(sign)}${text}</li>`;
  return html`<ul>${row('detected', key.detected)}${row('not-detected', key.notDetected)}${row('not-searched', key.notSearched)}${row('edge', key.surveyedPart)}</ul><ul class="depths">${key.depths.map((text, i) => row(`depth-${i}`, text))}</ul>`;
}

/** What a careful reader asks, small and one after the other. */
const footNotes = ({ key, notes, about }: PublicTexts): string =>
  [...key.notes, ...notes, ...about.notes].join(' ');

function style({ widthMm, heightMm }: PosterSize, letterMm: number, shades: number): string {
  return `@page { size: ${widthMm}mm ${heightMm}mm; margin: 0; }
:root { color-scheme: light; font-size: ${letterMm.toFixed(3)}mm; ${lightVariables(shades)} }
* { box-sizing: border-box; }
body { margin: 0; background: var(--panel); color: var(--ink); font: 1rem/1.4 system-ui, "Segoe UI", "Helvetica Neue", Arial, sans-serif; print-color-adjust: exact; }
main { display: grid; width: ${widthMm}mm; height: ${heightMm}mm; padding: ${UPRIGHT.padding}rem; gap: ${UPRIGHT.rowGap}rem ${UPRIGHT.columnGap}rem; overflow: hidden; break-after: avoid; }
.upright { grid-template: "head head" auto "map map" 1fr "key todo" auto "foot foot" auto "fine fine" auto / ${UPRIGHT.left}fr ${UPRIGHT.right}fr; }
.across { grid-template: "head map" auto "todo map" 1fr "foot key" auto "fine fine" auto / ${ACROSS.left}fr ${ACROSS.right}fr; padding: ${ACROSS.padding}rem; gap: ${ACROSS.rowGap}rem ${ACROSS.columnGap}rem; }
header { grid-area: head; }
.map { grid-area: map; position: relative; min-height: 0; overflow: hidden; border-radius: 4px; background: var(--land); }
.map svg { position: absolute; inset: 0; width: 100%; height: 100%; }
.key { grid-area: key; }
section { grid-area: todo; }
footer { grid-area: foot; }
h1 { margin: 0 0 0.6rem; font: 400 1.5rem/1.2 Georgia, "Times New Roman", serif; color: var(--quiet); }
.lead { margin: 0 0 0.7rem; font: 400 ${UPRIGHT.lead}rem/1.15 Georgia, "Times New Roman", serif; text-wrap: balance; }
.across .lead { font-size: ${ACROSS.lead}rem; }
header p { margin: 0 0 0.3rem; font-size: 1.15rem; }
h2 { margin: 0 0 0.4rem; font-size: 1.3rem; font-weight: 600; }
ul { margin: 0; padding: 0; list-style: none; }
section li { margin: 0 0 0.35rem; padding-left: 1rem; text-indent: -1rem; }
section li::before { content: "•"; display: inline-block; width: 1rem; text-indent: 0; color: var(--detected); }
.key li { display: flex; align-items: center; gap: 0.6rem; margin: 0 0 0.3rem; }
.key .depths { margin-top: 0.7rem; font-size: 0.85rem; }
.across .key { display: grid; grid-template-columns: auto 1fr; gap: 0 2rem; }
.across .key .depths { margin: 0; columns: 2; white-space: nowrap; font-size: 0.75rem; }
.sign { flex: none; width: 2.1rem; height: 1.35rem; overflow: hidden; border-radius: 2px; }
.sign rect { stroke: var(--quiet); stroke-width: 0.6; }
dl { display: flex; flex-wrap: wrap; gap: 0.3rem 2.4rem; margin: 0; padding-top: 0.7rem; border-top: 1px solid var(--ink); }
dt { color: var(--quiet); font-size: 0.85rem; }
dd { margin: 0; font-size: 1.1rem; font-weight: 600; white-space: pre-line; }
.fine { grid-area: fine; margin: 0; font-size: 0.72rem; line-height: 1.35; color: var(--quiet); }
${drawingStyle(shades)}`;
}
