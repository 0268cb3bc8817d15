/** Polygons of one map that overlap: an error, or a notice where it is no more than borders that do not quite meet. */

import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import { plain } from '../../shared/words.ts';

/** An overlap above both is an error (METHOD.md: Areas): an area, and a share of the smaller polygon. */
const TOLERATED_M2 = 1;
const TOLERATED_SHARE = 0.001;
/** Areas below this, in m², are rounding of the sums. */
const NO_AREA_M2 = 1e-6;
/** So many overlapping pairs are listed; with more the bed is not laid out any further. */
export const MOST_LISTED = 20;

export interface Overlap {
  /** GeoJSON file of both */
  table: string;
  /** feature numbers, from 1; the first counts where they overlap. They may be the same feature. */
  first: number;
  second: number;
  areaM2: number;
  smallerM2: number;
}

/** Whether an overlap is an error. */
export function isFar(areaM2: number, smallerM2: number): boolean {
  return areaM2 > TOLERATED_M2 && areaM2 > TOLERATED_SHARE * smallerM2;
}

/** One error a pair that overlaps too far, and one notice for all the others of a file together. */
export function judgeOverlaps(overlaps: readonly Overlap[]): Finding[] {
  const real = overlaps.filter((o) => o.areaM2 > NO_AREA_M2);
  const far = real.filter(isError).sort((a, b) => a.second - b.second || a.first - b.first);
  const findings = far.slice(0, MOST_LISTED).map(tooFar);
  if (far.length > MOST_LISTED) {
    const message =
      'more pairs of polygons overlap; the map was not looked at any further, so areas given here may be larger';
    findings.push(errorAt({ table: far[0].table }, 'polygons-overlap', message));
  }
  for (const table of new Set(real.map((o) => o.table))) {
    const slight = real.filter((o) => o.table === table && !isError(o));
    if (slight.length > 0) findings.push(slightly(table, slight));
  }
  return findings;
}

function isError(o: Overlap): boolean {
  return isFar(o.areaM2, o.smallerM2);
}

function tooFar(o: Overlap): Finding {
  const spot = { table: o.table, row: o.second };
  const area = `${areaText(o.areaM2)}, ${plain(Number(((100 * o.areaM2) / o.smallerM2).toPrecision(2)))} % of the smaller`;
  if (o.first !== o.second) {
    const message = `overlaps feature ${o.first} by ${area} (polygons side by side expected)`;
    return errorAt(spot, 'polygons-overlap', message);
  }
  const other = o.table === 'outline.geojson' ? 'another polygon of the outline' : 'itself';
  const message = `one of its polygons overlaps ${other} by ${area} (polygons side by side expected, islands as holes)`;
  return errorAt(spot, 'polygons-overlap', message);
}

function slightly(table: string, overlaps: readonly Overlap[]): Finding {
  const total = overlaps.reduce((sum, o) => sum + o.areaM2, 0);
  const largest = overlaps.reduce((a, b) => (b.areaM2 > a.areaM2 ? b : a));
  const pairs =
    overlaps.length === 1 ? '1 pair of polygons' : `${overlaps.length} pairs of polygons`;
  const where =
    largest.first === largest.second
      ? `within feature ${largest.second}`
      : `features ${largest.first} and ${largest.second}`;
  const message =
    `${pairs} overlap slightly, by ${areaText(total)} in all (most: ${where}); ` +
    'the first in the file counts there';
  return noticeAt({ table }, 'polygons-overlap-slightly', message);
}

function areaText(areaM2: number): string {
  return `${plain(Number(areaM2.toPrecision(3)))} m²`;
}
