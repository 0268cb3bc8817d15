/**
 * The lake for the public as SVG: shore, depth in shades, a hatch where nobody searched, and the places that were searched:
 * a filled mark where mussels were detected, an open ring where not. Told by shape as well as by colour.
 */

import type { PublicPlace } from '../../shared/public-map.ts';
import type { PublicMap } from '../present/public-map.ts';
import type { Ring } from '../present/public-shapes.ts';
import { type Html, html } from './html.ts';

/** With more places than this their marks are smaller. */
const MANY_PLACES = 120;

/** Radius of a mark in CSS pixels. */
export const markRadius = (places: number): number => (places > MANY_PLACES ? 4.5 : 6);

/**
 * What stands inside of the map's `<svg>`, in units of the drawing.
 * @param unit units a CSS pixel at which it is shown first: marks and hatch keep their size on the screen
 */
export function publicDrawing({ facts, shapes }: PublicMap, unit: number): Html {
  const shore = ringsPath(shapes.shore);
  const radius = markRadius(facts.places.length) * unit;
  return html`<defs><pattern id="hatch" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="scale(${round(unit)})"><path class="hatch-lines" d="M-2 2L2 -2M-1 10L10 -1M7 11L11 7"/></pattern><clipPath id="in-lake"><path d="${shore}" clip-rule="evenodd"/></clipPath></defs>
<g clip-path="url(#in-lake)"><path class="water depth-0" id="water" d="${shore}" fill-rule="evenodd"/>
${shapes.depths.map(({ rings }, i) => html`<path class="shade depth-${i + 1}" d="${ringsPath(rings)}" fill-rule="evenodd"/>\n`)}<path d="${shore}" fill="url(#hatch)" fill-rule="evenodd"/>
${shapes.edge.length === 0 ? null : surveyedEdge(ringsPath(shapes.edge))}</g>
<path class="shore" d="${shore}"/>
<g id="places">${facts.places.map((place) => placeMark(place, facts.coarseM === null ? 0 : facts.coarseM / facts.unitM, round(radius)))}</g>`;
}

/** A line with a band along its inner side, that tells which side is the surveyed one. */
function surveyedEdge(rings: string): Html {
  return html`<clipPath id="in-edge"><path d="${rings}" clip-rule="evenodd"/></clipPath><path class="edge-band" d="${rings}" clip-path="url(#in-edge)"/><path class="edge" id="edge" d="${rings}" fill-rule="evenodd"/>`;
}

function placeMark({ at: [x, y], line, counted }: PublicPlace, side: number, radius: number): Html {
  const kind = counted > 0 ? 'detected' : 'not-detected';
  const extent =
    line === null
      ? html`<rect class="square ${kind}" x="${round(x - side / 2)}" y="${round(y - side / 2)}" width="${round(side)}" height="${round(side)}"/>`
      : html`<path class="line" d="M${line[0]} ${line[1]}L${line[2]} ${line[3]}"/>`;
  return html`${extent}<circle class="mark ${kind}" cx="${x}" cy="${y}" r="${radius}"/>\n`;
}

const round = (x: number): number => Math.round(x * 100) / 100;

/** Each ring from its first point on by steps: shorter than places. */
function ringsPath(rings: readonly Ring[]): string {
  return rings
    .map((ring) => {
      const [first, ...others] = ring.slice(0, -1);
      if (first === undefined) return '';
      let [x, y] = first;
      const steps = others.map(([toX, toY]) => {
        const step = `${toX - x} ${toY - y}`;
        [x, y] = [toX, toY];
        return step;
      });
      return `M${first[0]} ${first[1]}l${steps.join(' ')}z`.replaceAll(' -', '-');
    })
    .join('');
}
