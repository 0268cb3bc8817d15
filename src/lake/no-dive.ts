/** Bed where nobody may dive: out of the surveyed habitat by the middle of its cell, and told. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import { term } from '../../shared/glossary.ts';
import { type Bed, type GridFrame, REASONS, type XYPolygon } from '../../shared/survey.ts';
import { NO_DIVE_FILE } from '../../shared/survey-files.ts';
import { formatArea } from '../../shared/units.ts';

const NO_DIVE = REASONS.indexOf('no dive');

/** The bed given stays as it is; without polygons it is handed back. */
export function withoutNoDive(bed: Bed, polygons: readonly XYPolygon[]): Bed {
  if (polygons.length === 0) return bed;
  const barred = cellsWithin(bed.frame, polygons);
  const { pieces } = bed;
  const reason = new Uint8Array(pieces.reason);
  for (let i = 0; i < pieces.count; i++)
    if (reason[i] === 0 && barred[pieces.cell[i]] === 1) reason[i] = NO_DIVE;
  return { ...bed, pieces: { ...pieces, reason } };
}

export function tellNoDive({ pieces }: Bed): Finding {
  let areaM2 = 0;
  for (let i = 0; i < pieces.count; i++)
    if (pieces.reason[i] === NO_DIVE) areaM2 += pieces.areaM2[i];
  const habitat = term('surveyedHabitat');
  return noticeAt(
    { table: NO_DIVE_FILE },
    'no-dive',
    areaM2 > 0
      ? `${formatArea(areaM2)} of the ${habitat} lie where nobody may dive: left out of it, and of every number of the lake`
      : `the places where nobody may dive lie on none of the ${habitat}: nothing is left out`,
  );
}

/** 1 for a cell whose middle lies in a polygon, by the even-odd rule along each row. */
function cellsWithin(frame: GridFrame, polygons: readonly XYPolygon[]): Uint8Array {
  const { nx, ny, x0, cellM } = frame;
  const within = new Uint8Array(nx * ny);
  const cellAfter = (x: number): number =>
    Math.min(nx, Math.max(0, Math.ceil((x - x0) / cellM - 0.5)));
  for (const rings of polygons)
    for (const [row, xs] of crossings(frame, rings)) {
      xs.sort((a, b) => a - b);
      for (let k = 1; k < xs.length; k += 2)
        within.fill(1, row * nx + cellAfter(xs[k - 1]), row * nx + cellAfter(xs[k]));
    }
  return within;
}

/** By row of the grid: where the rings cross the line through the middles of its cells. */
function crossings({ ny, y0, cellM }: GridFrame, rings: XYPolygon): ReadonlyMap<number, number[]> {
  const ofRow = new Map<number, number[]>();
  const rowAt = (y: number): number => (y0 - y) / cellM - 0.5;
  for (const ring of rings)
    for (let i = 1; i < ring.length; i++) {
      const [[ax, ay], [bx, by]] = [ring[i - 1], ring[i]];
      const first = Math.max(0, Math.floor(rowAt(Math.max(ay, by))));
      const last = Math.min(ny - 1, Math.ceil(rowAt(Math.min(ay, by))));
      for (let row = first; row <= last; row++) {
        const y = y0 - (row + 0.5) * cellM;
        if (ay > y === by > y) continue;
        const x = ax + ((y - ay) * (bx - ax)) / (by - ay);
        const xs = ofRow.get(row);
        if (xs === undefined) ofRow.set(row, [x]);
        else xs.push(x);
      }
    }
  return ofRow;
}
