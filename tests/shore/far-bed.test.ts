/** Bed far from any transect, reported and, when asked, left out. The base survey lies on the west shore of a square lake. */

import { describe, expect, it } from 'vitest';
import { estimateSurvey } from '../../src/pipeline.ts';
import { answer } from '../../src/present/answer.ts';
import { exclusions } from '../../src/present/exclusions.ts';
import { baseSurvey, toFolder } from '../helpers/base-survey.ts';

async function estimated(far_from_transects: 'include' | 'exclude') {
  const density = { family: 'poisson', transect_effect: false, depth: 'linear' };
  const analysis = { lake: 'Minnow Pond', density, map: { far_from_transects } };
  const texts = { ...baseSurvey(), 'analysis.json': JSON.stringify(analysis) };
  const done = await estimateSurvey(toFolder(texts));
  if (!done.ok) throw new Error(done.findings.map((f) => f.message).join('\n'));
  return done.result;
}

describe('bed far from any transect', async () => {
  const all = await estimated('include');
  const near = await estimated('exclude');
  const { far_from_transects: far, abundance, outside } = all.estimate;
  if (far === null || !abundance?.mussels) throw new Error('the base survey has a lake');

  it('lies beyond the usual distance of neighbours, with its shares of area and mussels', () => {
    // six transects 30 m apart, but for what their bearings move the starts; round the shore the last and the first are
    // neighbours too, which a median does not mind
    expect(Math.abs(far.spacing_m - 30)).toBeLessThan(0.2);
    expect(far.area_share).toBeCloseTo(far.area_m2 / abundance.area_m2, 12);
    expect(far.area_share).toBeGreaterThan(0.5);
    expect(answer(all).text).toContain(
      `${Math.round(100 * far.area_share)} % of this surveyed habitat, with ${Math.round(100 * (far.mussels_share ?? 0))} % of the number, lies farther from any transect than neighbouring transects usually lie apart (30 m).`,
    );
  });

  it('is taken out of the surveyed habitat when asked, and nothing else is', () => {
    const left = near.estimate.abundance;
    expect(near.estimate.outside).toEqual([
      ...(outside ?? []),
      { reason: 'far from any transect', area_m2: expect.closeTo(far.area_m2, 6) },
    ]);
    expect(left?.area_m2).toBeCloseTo(abundance.area_m2 - far.area_m2, 6);
    // the model is the same; only what it is summed over is not. Bins of 2 cm of depth: 1e-5
    const share = (left?.mussels?.estimate ?? 0) / (abundance.mussels?.estimate ?? 1);
    expect(Math.abs(share - (1 - (far.mussels_share ?? 0)))).toBeLessThan(1e-5);
    expect(near.estimate.far_from_transects?.area_share).toBe(0);
    expect(exclusions(near)?.text).toContain('farther from any transect than neighbouring ones');
    expect(answer(near).text).not.toContain('farther from any transect');
  });
});
