/** Pictures for posts, square and wide, as SVG that stands alone: the number, its depths, the map and its key. */

import type { PublicWishes } from '../../shared/public-map.ts';
import { formatter } from '../../shared/strings/formatter.ts';
import type { Language } from '../../shared/strings/languages.ts';
import { PUBLIC } from '../../shared/strings/public/index.ts';
import type { PublicMap } from '../present/public-map.ts';
import { printedTag } from '../present/public-tags.ts';
import { type PublicTexts, publicTexts } from '../present/public-words.ts';
import { type Html, html } from './html.ts';
import { publicDrawing } from './public-drawing.ts';
import { PUBLIC_MARK } from './public-map.ts';
import { signOf } from './public-page.ts';
import { drawingStyle, LIGHT, withLightColours } from './public-style.ts';
import { widthEm, wrappedLines } from './wrapped-lines.ts';

/** Boxes in pixels: of the text, of the map, of the key. */
export interface PictureSize {
  /** in a file's name */
  name: string;
  width: number;
  height: number;
  /** `lead` and `small` are heights of letters; smaller where the text would end below `bottom` */
  text: { width: number; bottom: number; lead: number; small: number };
  map: { x: number; y: number; width: number; height: number };
}

const EDGE = 48;

/** Usual sizes of pictures in posts. */
export const PICTURES: readonly PictureSize[] = [
  {
    name: 'square',
    width: 1080,
    height: 1080,
    text: { width: 984, bottom: 410, lead: 52, small: 29 },
    map: { x: 0, y: 420, width: 1080, height: 500 },
  },
  {
    name: 'wide',
    width: 1200,
    height: 630,
    text: { width: 510, bottom: 420, lead: 38, small: 23 },
    map: { x: 590, y: 0, width: 610, height: 630 },
  },
];

/** Of the letters' usual height, the first that has room is taken. */
const SCALES = [1, 0.94, 0.88, 0.82, 0.76, 0.7];
const LEAST_SCALE = 0.64;
/** Between lines, as a part of the letters' height. */
const LEADING = 1.28;
const SERIF = 'Georgia, "Times New Roman", serif';
const SANS = 'system-ui, "Segoe UI", "Helvetica Neue", Arial, sans-serif';

export function pictureSvg(
  map: PublicMap,
  wishes: PublicWishes,
  language: Language,
  size: PictureSize,
): string {
  const { facts, shapes } = map;
  const texts = publicTexts(
    facts,
    wishes,
    formatter(printedTag(language, facts), PUBLIC[language]),
  );
  const { frame } = shapes;
  const unit = Math.max(frame.width / size.map.width, frame.height / size.map.height);
  const shades = shapes.depths.length + 1;
  const body = html`<rect width="${size.width}" height="${size.height}" fill="${LIGHT.panel}"/>
<svg x="${size.map.x}" y="${size.map.y}" width="${size.map.width}" height="${size.map.height}"><rect width="100%" height="100%" fill="${LIGHT.land}"/><svg width="100%" height="100%" viewBox="0 0 ${frame.width} ${frame.height}">${publicDrawing(map, unit)}</svg></svg>
${words(texts, size)}${keyRow(texts, size)}`;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${size.width}" height="${size.height}" viewBox="0 0 ${size.width} ${size.height}" role="img">
${html`<title>${texts.title}</title><desc>${texts.lead} ${texts.map.described}</desc><metadata>${PUBLIC_MARK}</metadata>`.text}
<style>${withLightColours(drawingStyle(shades), shades)}</style>
${body.text}
</svg>
`;
}

/** Title, number and depths from the top, as large as there is room. */
function words(texts: PublicTexts, { text }: PictureSize): Html {
  const scale = SCALES.find((s) => blocks(texts, text, s).bottom <= text.bottom);
  return blocks(texts, text, scale ?? LEAST_SCALE).drawn;
}

function blocks(
  { title, lead, holds }: PublicTexts,
  text: PictureSize['text'],
  scale: number,
): { drawn: Html; bottom: number } {
  const [large, small] = [text.lead * scale, text.small * scale];
  let y = EDGE;
  const block = (words: string, letter: number, family: string, fill: string): Html => {
    const lines = wrappedLines(words, text.width / letter);
    const from = y + letter;
    y += lines.length * letter * LEADING + letter * 0.3;
    return html`<text font-family="${family}" font-size="${letter.toFixed(1)}" fill="${fill}">${lines.map(
      (line, i) =>
        html`<tspan x="${EDGE}" y="${Math.round(from + i * letter * LEADING)}">${line}</tspan>`,
    )}</text>\n`;
  };
  const drawn = html`${block(title, small, SERIF, LIGHT.quiet)}${block(lead, large, SERIF, LIGHT.ink)}${holds.map((line) => block(line, small, SANS, LIGHT.ink))}`;
  return { drawn, bottom: y };
}

/** The three looks in a row at the foot, or one below the other where the row has no room; then the source of the facts. */
function keyRow({ key, about }: PublicTexts, { width, height, text, name }: PictureSize): Html {
  const letter = text.small - (name === 'square' ? 6 : 4);
  const signs: [string, string][] = [
    ['detected', key.detected],
    ['not-detected', key.notDetected],
    ['not-searched', key.notSearched],
  ];
  const row = name === 'square';
  const foot = about.lines.flatMap((line) =>
    wrappedLines(line.replaceAll('\n', ', '), (row ? width - 2 * EDGE : text.width) / letter),
  );
  const footTop = height - EDGE / 2 - (foot.length - 1) * letter * LEADING;
  let x = EDGE;
  const entries = signs.map(([sign, label], i) => {
    const at = row
      ? { x, y: footTop - letter * 1.5 }
      : { x: EDGE, y: footTop - letter * 1.5 - (signs.length - 1 - i) * letter * 1.45 };
    x += 64 + widthEm(label) * letter;
    return html`<svg x="${Math.round(at.x)}" y="${Math.round(at.y - 19)}" width="36" height="24" viewBox="0 0 28 18">${signOf(sign)}</svg><text x="${Math.round(at.x + 46)}" y="${Math.round(at.y)}">${label}</text>`;
  });
  return html`<g font-family="${SANS}" font-size="${letter}" fill="${LIGHT.ink}">${entries}<text fill="${LIGHT.quiet}">${foot.map(
    (line, i) =>
      html`<tspan x="${EDGE}" y="${Math.round(footTop + i * letter * LEADING)}">${line}</tspan>`,
  )}</text></g>`;
}
