/** Bed where nobody may dive. The northern half of the base survey's lake mirrors the southern one, so that shares of it are known by hand. */

import { describe, expect, it } from 'vitest';
import { estimateSurvey, judge } from '../../src/pipeline.ts';
import { exclusions } from '../../src/present/exclusions.ts';
import { spotAt, spotWords } from '../../src/present/spot.ts';
import { baseSurvey, lakePoint, toFolder } from '../helpers/base-survey.ts';

const HEIGHT_M = 333;
const BARRED_FROM_M = HEIGHT_M / 2;
/** Cells go with their middle: at the border half a row of them, 5 m wide, of the lake's height. */
const HALF_A_ROW = 2.5 / HEIGHT_M;

/** From the west shore eastwards, and beyond the lake in the other directions. */
function north(fromM: number): string {
  const corners = [
    [-50, fromM],
    [400, fromM],
    [400, 400],
    [-50, 400],
    [-50, fromM],
  ].map(([east, up]) => lakePoint(east, up));
  return JSON.stringify({
    type: 'FeatureCollection',
    features: [
      {
        type: 'Feature',
        properties: { name: 'all of it' },
        geometry: { type: 'Polygon', coordinates: [corners] },
      },
    ],
  });
}

function folder(files: Record<string, string>) {
  const density = { family: 'poisson', transect_effect: false, depth: 'linear' };
  const analysis = JSON.stringify({ lake: 'Minnow Pond', density });
  return toFolder({ ...baseSurvey(), 'analysis.json': analysis, ...files });
}

async function estimated(files: Record<string, string>) {
  const done = await estimateSurvey(folder(files));
  if (!done.ok) throw new Error(done.findings.map((f) => f.message).join('\n'));
  return done;
}

describe('bed where nobody may dive', async () => {
  const treatments = { 'treatments.geojson': north(BARRED_FROM_M) };
  const all = await estimated(treatments);
  const left = await estimated({ ...treatments, 'no-dive.geojson': north(BARRED_FROM_M) });
  const [whole, part] = [all.result.estimate, left.result.estimate];
  if (!whole.abundance?.mussels || !part.abundance?.mussels)
    throw new Error('the base survey has a lake');
  const lost = whole.abundance.area_m2 - part.abundance.area_m2;

  it('is out of the surveyed habitat by a reason of its own, and nothing else is', () => {
    expect(part.outside).toEqual([
      ...(whole.outside ?? []),
      { reason: 'no dive', area_m2: expect.closeTo(lost, 6) },
    ]);
    expect(Math.abs(lost / whole.abundance!.area_m2 - 1 / 2)).toBeLessThan(HALF_A_ROW);
  });

  it('takes its mussels out of the number and changes no model', () => {
    expect(part.coefficients).toEqual(whole.coefficients);
    const share = part.abundance!.mussels!.estimate / whole.abundance!.mussels!.estimate;
    expect(Math.abs(share - 1 / 2)).toBeLessThan(HALF_A_ROW);
  });

  it('is out of areas too, which keep their water', () => {
    const [before] = all.held?.candidates ?? [];
    const [after] = left.held?.candidates ?? [];
    expect(before.surveyed_m2).toBeGreaterThan(0);
    const row = 2 * HALF_A_ROW * whole.abundance!.area_m2;
    expect(after.surveyed_m2).toBeLessThan(row);
    expect(after.water_m2).toBe(before.water_m2);
  });

  it('is told: in a notice with its size, beside the number, at a spot', () => {
    const told = left.result.findings.filter((f) => f.table === 'no-dive.geojson');
    expect(told.map((f) => [f.severity, f.code])).toEqual([['notice', 'no-dive']]);
    expect(told[0].message).toContain('lie where nobody may dive');
    expect(exclusions(left.result)?.text).toContain('(where nobody may dive)');
    const spot = spotAt(left.result, lakePoint(20, 250));
    expect(spotWords(spot, 'metric').why).toContain('where nobody may dive');
  });

  it('names each transect that was searched there, and the place', () => {
    const told = left.result.findings.filter((f) => f.code === 'searched-where-no-dive');
    // by hand: the northern half holds the transects whose middle lies north of its border
    const there = left.result.placed.filter((p) => {
      const [a, b] = [p.start[1], p.end[1]];
      const border = left.result.plane.forward(lakePoint(0, BARRED_FROM_M))[1];
      return (a + b) / 2 > border;
    });
    expect(there.length).toBeGreaterThan(0);
    expect(new Set(told.map((f) => f.row))).toEqual(new Set(there.map((p) => p.transect.row)));
    expect(told[0].message).toContain('in "all of it" of no-dive.geojson');
  });

  it('says so where it is none of the habitat, and stops at a file without a polygon', async () => {
    const beyond = await judge(folder({ 'no-dive.geojson': north(350) }));
    const messages = beyond.findings.map((f) => f.message);
    expect(messages).toEqual([expect.stringContaining('nothing is left out')]);
    const empty = JSON.stringify({ type: 'FeatureCollection', features: [] });
    const faulty = await judge(folder({ 'no-dive.geojson': empty }));
    expect(faulty.ok).toBe(false);
    expect(faulty.findings.find((f) => f.code === 'no-polygon')?.table).toBe('no-dive.geojson');
  });
});
