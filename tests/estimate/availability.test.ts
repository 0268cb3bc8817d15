/** A share of clusters that can be detected at all, given with its error: by hand, N/a and cv² + (se/a)². */

import { describe, expect, it } from 'vitest';
import type { Estimate } from '../../shared/estimate.ts';
import { estimateSurvey } from '../../src/pipeline.ts';
import { baseSurvey, toFolder } from '../helpers/base-survey.ts';

const SHARE = 0.8;
const SE = 0.05;

async function estimated(detection: object, detections = true): Promise<Estimate> {
  const texts = baseSurvey();
  const analysis = JSON.parse(texts['analysis.json'] ?? '{}');
  // of an average each model has the share's error at its own number: a little more than by hand
  analysis.models = 'best';
  analysis.detection = { ...analysis.detection, ...detection };
  texts['analysis.json'] = JSON.stringify(analysis);
  if (!detections) texts['detections.csv'] = `${(texts['detections.csv'] ?? '').split('\n')[0]}\n`;
  const done = await estimateSurvey(toFolder(texts));
  if (!done.ok) throw new Error(done.findings.map((f) => f.message).join('; '));
  return done.result.estimate;
}

const GIVEN = { availability: SHARE, availability_se: SE };

describe('a share of clusters that can be detected', () => {
  it('raises totals, strata and densities and widens their intervals; the fit stays', async () => {
    const [plain, given] = [await estimated({}), await estimated(GIVEN)];
    const pairs = [
      [plain.abundance?.mussels, given.abundance?.mussels],
      [plain.abundance?.clusters, given.abundance?.clusters],
      [plain.strata?.[0]?.mussels, given.strata?.[0]?.mussels],
    ] as const;
    for (const [before, after] of pairs) {
      if (!before?.cv || !after?.cv) throw new Error('no number');
      expect(after.estimate / before.estimate).toBeCloseTo(1 / SHARE, 9);
      expect(after.cv ** 2 - before.cv ** 2).toBeCloseTo((SE / SHARE) ** 2, 9);
    }
    expect(given.coefficients).toEqual(plain.coefficients);
    expect(given.detection).toEqual(plain.detection);
    const notice = given.warnings.find((w) => w.code === 'availability-given');
    expect(notice?.message).toContain('divided by 0.8');
    expect(notice?.message).toContain('0.05');
  });

  it('raises the upper limit of a survey without a detection', async () => {
    const [plain, given] = [await estimated({}, false), await estimated(GIVEN, false)];
    const upper = (e: Estimate) => e.abundance?.clusters.upper ?? Number.NaN;
    expect(upper(given) / upper(plain)).toBeCloseTo(1 / SHARE, 9);
  });

  it('is refused where it is no share', async () => {
    for (const availability of [0, 1.2, 'most'])
      await expect(estimated({ availability })).rejects.toThrow('a number from 0.05 to 1');
  });
});
