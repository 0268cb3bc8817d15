/**
 * The lake's map as SVG: density in classes, hatch where nobody searched, shore, transects, treatment areas, scale and north.
 * Each class is one path of strokes along the raster's rows, so that the file is light and sharp at any size. In grey print
 * the classes keep their order, and what is less sure has dots besides its paler colour.
 */

import type { XY } from '../../../shared/survey.ts';
import type { FurtherMap } from '../../present/further-maps.ts';
import type { LakeMap } from '../../present/lake-map.ts';
import { LOOK, UNSURE } from '../../present/lake-raster.ts';
import { classColour } from '../../present/ramp.ts';
import { type Html, html } from '../html.ts';
import { INK, place } from './frame.ts';

/** Drawn about as wide as a page's text: 1 is a CSS pixel there. */
const WIDTH = 720;
/** A tall lake leaves room for the answer above it. */
const MOST_HEIGHT = 600;
/** Below the map: the scale bar and the arrow. */
const FOOT = 40;
const LAND = '#f3f1ea';
const NO_DENSITY = '#c3c8d6';

/** The map with its legend below. */
export function lakeMapDrawing(map: LakeMap): Html {
  const scale = Math.min(WIDTH / map.widthM, MOST_HEIGHT / map.heightM);
  const [width, height] = [place(map.widthM * scale), place(map.heightM * scale)];
  const shore = ringsPath(map.shore, scale);
  return html`<svg class="lake-map" viewBox="0 0 ${width} ${place(height + FOOT)}" role="img" aria-labelledby="lake-map-title lake-map-desc" font-size="12" fill="${INK.text}">
<title id="lake-map-title">${map.title}</title>
<desc id="lake-map-desc">${map.described}</desc>
<defs>${patterns('lake-map', map.raster.cellM * scale)}<clipPath id="lake-map-shore"><path d="${shore}" clip-rule="evenodd"/></clipPath></defs>
<rect width="${width}" height="${height}" fill="${LAND}"/>
<path d="${shore}" fill="${INK.water}" fill-rule="evenodd"/>
<g clip-path="url(#lake-map-shore)">${bed(map.raster, scale, densityPaints)}</g>
<path d="${shore}" fill="none" stroke="${INK.text}" stroke-width="1.4" stroke-linejoin="round"/>
${map.areas.map((a) => html`<path d="${ringsPath(a.rings, scale)}" ${DASHED}/>`)}
${map.transects.map(({ from, to, detected }) => transect(scaled(from, scale), scaled(to, scale), detected))}
${map.areas.map((a) => areaName(a.name, scaled(a.label, scale)))}
${scaleBar(map, scale, height + 16)}${northArrow(map, width - 22, height + 21)}
</svg>
${legend(map)}`;
}

/** The bed by another number, smaller, without transects and areas: below the map, which has their scale. */
export function furtherSvg(map: LakeMap, further: FurtherMap): Html {
  const name = `map-${further.name}`;
  const scale = Math.min(WIDTH / map.widthM, MOST_HEIGHT / map.heightM);
  const [width, height] = [place(map.widthM * scale), place(map.heightM * scale)];
  const shore = ringsPath(map.shore, scale);
  const classes = new Map(further.classes.map((c) => [c.look, c]));
  const dots = `url(#${name}-dots)`;
  const paints = (look: number): string[] => {
    if (look === LOOK.outside) return [`url(#${name}-hatch)`];
    const own = classes.get(look);
    if (own === undefined) return [NO_DENSITY];
    return own.dotted ? [own.colour, dots] : [own.colour];
  };
  return html`<svg class="further" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${name}-title ${name}-desc">
<title id="${name}-title">${further.title}</title>
<desc id="${name}-desc">${further.described}</desc>
<defs>${patterns(name, map.raster.cellM * scale)}<clipPath id="${name}-shore"><path d="${shore}" clip-rule="evenodd"/></clipPath></defs>
<rect width="${width}" height="${height}" fill="${LAND}"/>
<path d="${shore}" fill="${INK.water}" fill-rule="evenodd"/>
<g clip-path="url(#${name}-shore)">${bed({ ...map.raster, looks: further.looks }, scale, paints)}</g>
<path d="${shore}" fill="none" stroke="${INK.text}" stroke-width="1.4" stroke-linejoin="round"/>
</svg>`;
}

/** The drawing with its legend below. */
export function furtherDrawing(map: LakeMap, further: FurtherMap): Html {
  const name = `map-${further.name}`;
  const key = further.classes.map(
    ({ colour, words, dotted }) =>
      html`<li><svg width="28" height="16" viewBox="0 0 28 16" aria-hidden="true"><rect width="28" height="16" fill="${colour}"/>${dotted ? html`<rect width="28" height="16" fill="url(#${name}-key-dots)"/>` : null}</svg>${words}</li>`,
  );
  return html`${furtherSvg(map, further)}
<ul class="key"><svg width="0" height="0" aria-hidden="true"><defs>${patterns(`${name}-key`, 1)}</defs></svg>${key}</ul>`;
}

const DASHED = html`fill="none" stroke="${INK.text}" stroke-width="1.2" stroke-dasharray="5 3"`;

/** A hatch and dots, as large on the paper whatever the units of what they fill. */
function patterns(name: string, unit: number): Html {
  const at = html`patternUnits="userSpaceOnUse" patternTransform="scale(${Number((1 / unit).toFixed(5))})"`;
  return html`<pattern id="${name}-hatch" width="6" height="6" ${at}><path d="M-1 7L7 -1M-1 1L1 -1M5 7L7 5" stroke="${INK.quiet}" stroke-width="0.8" fill="none"/></pattern><pattern id="${name}-dots" width="6" height="6" ${at}><circle cx="1.5" cy="1.5" r="0.8" fill="${INK.text}"/></pattern>`;
}

function bed(raster: LakeMap['raster'], scale: number, paintsOf: (look: number) => string[]): Html {
  const strokes = strokesByLook(raster);
  const { x0, y0, cellM } = raster;
  const at = html`transform="translate(${place(x0 * scale)} ${place(y0 * scale)}) scale(${Number((cellM * scale).toFixed(5))})"`;
  const paths = [...strokes].map(([look, d]) =>
    paintsOf(look).map((paint) => html`<path d="${d}" stroke="${paint}"/>\n`),
  );
  // a little wider than a row, so that no light shows between two
  return html`<g fill="none" stroke-width="1.06" ${at}>${paths}</g>`;
}

function densityPaints(look: number): string[] {
  if (look === LOOK.outside) return ['url(#lake-map-hatch)'];
  if (look === LOOK.noDensity) return [NO_DENSITY];
  return isUnsure(look) ? [colourOf(look), 'url(#lake-map-dots)'] : [colourOf(look)];
}

const isUnsure = (look: number) => look >= LOOK.firstClass + UNSURE;

function colourOf(look: number): string {
  const k = look - LOOK.firstClass;
  return classColour(k % UNSURE, false, isUnsure(look));
}

/** Look → a stroke through the middle of each run of its cells, in cells; looks in order. */
function strokesByLook({ columns, rows, looks }: LakeMap['raster']): Map<number, string> {
  const runs = new Map<number, string[]>();
  for (let row = 0; row < rows; row++) {
    let start = 0;
    for (let column = 1; column <= columns; column++) {
      const look = looks[row * columns + start];
      if (column < columns && looks[row * columns + column] === look) continue;
      if (look !== LOOK.nothing) {
        const own = runs.get(look) ?? [];
        own.push(`M${start} ${row + 0.5}h${column - start}`);
        runs.set(look, own);
      }
      start = column;
    }
  }
  return new Map([...runs].sort(([a], [b]) => a - b).map(([look, own]) => [look, own.join('')]));
}

const scaled = ([x, y]: XY, scale: number): XY => [place(x * scale), place(y * scale)];

function ringsPath(rings: readonly XY[][], scale: number): string {
  return rings.map((ring) => `M${ring.map((p) => scaled(p, scale).join(' ')).join('L')}Z`).join('');
}

function transect([ax, ay]: XY, [bx, by]: XY, detected: boolean): Html {
  const middle = html`cx="${place((ax + bx) / 2)}" cy="${place((ay + by) / 2)}"`;
  return html`<path d="M${ax} ${ay}L${bx} ${by}" stroke="${INK.text}" stroke-width="1.6"/>${dot(middle, detected)}`;
}

function dot(middle: Html, detected: boolean): Html {
  return html`<circle ${middle} r="3.4" fill="${detected ? INK.text : INK.panel}" stroke="${detected ? INK.panel : INK.text}" stroke-width="1.2"/>`;
}

function areaName(text: string, [x, y]: XY): Html {
  return html`<text x="${x}" y="${y}" text-anchor="middle" stroke="${INK.panel}" stroke-width="3.5" stroke-linejoin="round" paint-order="stroke">${text}</text>`;
}

function scaleBar({ scale: { lengthM, label } }: LakeMap, scale: number, y: number): Html {
  const end = place(2 + lengthM * scale);
  const half = place((2 + end) / 2);
  return html`<path d="M2 ${y - 4}V${y + 4}H${end}V${y - 4}M${half} ${y}V${y + 4}" fill="none" stroke="${INK.text}" stroke-width="1.4"/><text x="${end + 8}" y="${y + 5}">${label}</text>`;
}

function northArrow({ northDeg, north }: LakeMap, x: number, y: number): Html {
  return html`<g transform="rotate(${place(northDeg)} ${x} ${y})"><path d="M${x} ${y - 15}L${x + 6} ${y + 9}L${x} ${y + 4}L${x - 6} ${y + 9}Z" fill="${INK.text}"/></g><text x="${x - 12}" y="${y + 5}" text-anchor="end">${north}</text>`;
}

function legend({ classes, has, words }: LakeMap): Html {
  const class_ = (look: number) =>
    html`<rect width="28" height="16" fill="${colourOf(look)}" stroke="${INK.quiet}" stroke-width="0.5"/>`;
  const middle = html`cx="14" cy="8"`;
  const line = html`<path d="M3 12L25 4" stroke="${INK.text}" stroke-width="1.6"/>`;
  const water = html`<rect width="28" height="16" fill="${INK.water}"/>`;
  const faded = classes.at(Math.floor(classes.length / 2));
  const rows: [boolean, Html, string][] = [
    ...classes.map((c): [boolean, Html, string] => [true, class_(c.look), c.words]),
    [has.noDensity, html`<rect width="28" height="16" fill="${NO_DENSITY}"/>`, words.noDensity],
    [
      has.unsure && faded !== undefined,
      html`${class_((faded?.look ?? LOOK.firstClass) + UNSURE)}<rect width="28" height="16" fill="url(#lake-key-dots)"/>`,
      words.unsure,
    ],
    [
      has.outside,
      html`${water}<rect width="28" height="16" fill="url(#lake-key-hatch)"/>`,
      words.outside,
    ],
    [has.searched, html`${line}${dot(middle, true)}`, words.searched],
    [has.empty, html`${line}${dot(middle, false)}`, words.empty],
    [has.area, html`<rect x="2" y="2" width="24" height="12" ${DASHED}/>`, words.area],
  ];
  return html`<ul class="key"><svg width="0" height="0" aria-hidden="true"><defs>${patterns('lake-key', 1)}</defs></svg>${rows
    .filter(([shown]) => shown)
    .map(
      ([, drawing, text]) =>
        html`<li><svg width="28" height="16" viewBox="0 0 28 16" aria-hidden="true">${drawing}</svg>${text}</li>`,
    )}</ul>`;
}
