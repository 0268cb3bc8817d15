/** Features of depth.geojson → lines and points of known depth. */

import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import type { DepthLines, Positions } from '../../shared/survey.ts';
import { DEEPEST_LAKE_M } from '../../shared/tables.ts';
import { formatCount } from '../../shared/units.ts';
import { quoted } from '../../shared/words.ts';
import { parseNumber } from './cells.ts';
import { withoutSeam } from './geo-seam.ts';
import { type GeoFeature, property, shownValue } from './geojson.ts';
import { strayVertex } from './stray.ts';

/**
 * In an order in which the first counts where two share a point: contours, edges of contour polygons and soundings from
 * the shallowest, then the holes of contour polygons (the next contour's polygon may fill them, with its own depth).
 * `lines` is null when no feature can be used.
 */
export function readDepthLines(
  table: string,
  features: readonly GeoFeature[],
): { lines: DepthLines | null; findings: Finding[] } {
  const findings: Finding[] = [];
  const lines: DepthLines['lines'] = [];
  const holes: DepthLines['lines'] = [];
  for (const f of features) {
    const depthM = readDepthM(table, f, findings);
    if (depthM === null) continue;
    const stray = strayIn(f);
    if (stray !== null) {
      findings.push(errorAt({ table, row: f.feature }, 'vertex-far-off', stray));
      continue;
    }
    const one = (points: Positions) => ({ depthM, points });
    for (let i = 0; i < f.points.length; i += 2) lines.push(one(f.points.slice(i, i + 2)));
    for (const line of f.lines) lines.push(one(line));
    for (const rings of f.polygons) {
      for (const [k, ring] of rings.entries())
        for (const line of withoutSeam(ring)) (k === 0 ? lines : holes).push(one(line));
    }
  }
  const shallowFirst = (a: { depthM: number }, b: { depthM: number }) => a.depthM - b.depthM;
  const all = [...lines.sort(shallowFirst), ...holes.sort(shallowFirst)];
  if (all.length === 0 && !findings.some((f) => f.severity === 'error')) {
    const message = 'no contour and no sounding; abundance, strata and grid are left out';
    findings.push(noticeAt({ table }, 'no-depth', message));
  }
  return { lines: all.length === 0 ? null : { kind: 'lines', lines: all }, findings };
}

function strayIn(f: GeoFeature): string | null {
  for (const line of [...f.lines, ...f.polygons.flat()]) {
    const stray = strayVertex(line);
    if (stray !== null) return stray;
  }
  return null;
}

function readDepthM(table: string, f: GeoFeature, findings: Finding[]): number | null {
  const spot = { table, row: f.feature, column: 'depth_m' };
  const value = property(f, 'depth_m');
  if (value === undefined || value === null || (typeof value === 'string' && value.trim() === '')) {
    findings.push(errorAt(spot, 'missing-value', 'the feature has no depth_m (metres expected)'));
    return null;
  }
  const depthM =
    typeof value === 'number'
      ? value
      : typeof value === 'string'
        ? parseNumber(value.trim())
        : null;
  if (depthM === null || !Number.isFinite(depthM)) {
    const message = `${typeof value === 'string' ? quoted(value) : shownValue(value)} is not a number (metres expected)`;
    findings.push(errorAt(spot, 'not-a-number', message));
    return null;
  }
  if (depthM > DEEPEST_LAKE_M) {
    const deepest = formatCount(DEEPEST_LAKE_M);
    const message = `${depthM} is deeper than any lake (at most ${deepest} metres expected; are these elevations, or is it no data?)`;
    findings.push(errorAt(spot, 'too-deep', message));
    return null;
  }
  if (depthM < 0) {
    const message = `${depthM} is negative (depth in metres, positive down, expected; are these elevations?)`;
    findings.push(errorAt(spot, 'negative-depth', message));
    return null;
  }
  return depthM;
}
