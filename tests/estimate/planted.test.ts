/** A survey with planted shells from its files to the words: by hand, N/a with a = found ÷ expected. */

import { describe, expect, it } from 'vitest';
import type { SurveyResult } from '../../shared/result.ts';
import { estimateSurvey } from '../../src/pipeline.ts';
import { readDetection } from '../../src/present/detection.ts';
import { readWhatIf } from '../../src/present/what-if.ts';
import { beltSurvey, toFolder } from '../helpers/base-survey.ts';

const SHELLS = 'transect,planted,found_first,found_second_only\nT1,20,9,2\nT2,20,10,3\n';

/** A model that is fitted at once; one alone, so that its share is that of the total. */
async function estimated(availability: 'planted' | null, shells = SHELLS): Promise<SurveyResult> {
  const texts = beltSurvey();
  texts['planted_shells.csv'] = shells;
  texts['analysis.json'] = JSON.stringify({
    lake: 'Minnow Pond',
    models: 'best',
    density: { family: 'poisson', transect_effect: false, depth: 'none' },
    detection: { availability },
  });
  const done = await estimateSurvey(toFolder(texts));
  if (!done.ok) throw new Error(done.findings.map((f) => f.message).join('; '));
  return done.result;
}

const musselsOf = ({ estimate }: SurveyResult): number =>
  estimate.abundance?.mussels?.estimate ?? 0;

describe('planted shells', () => {
  it('divide all numbers where the analysis asks for it, and are told by notice, detection and assumptions', async () => {
    const [plain, used] = [await estimated(null), await estimated('planted')];
    const shells = used.estimate.detection?.planted_shells;
    expect(shells).toMatchObject({ planted: 40, found: 24, transects: 2, used: true });
    const share = shells?.share ?? 0;
    // 24 of 40, and the pairs of this survey detect less than all
    expect(share).toBeGreaterThan(0.6);
    expect(share).toBeLessThan(1);
    expect(musselsOf(used) / musselsOf(plain)).toBeCloseTo(1 / share, 9);
    expect(used.estimate.coefficients).toEqual(plain.estimate.coefficients);
    const notice = used.estimate.warnings.find((w) => w.code === 'availability-planted');
    expect(notice?.message).toContain(`divided by ${share.toFixed(2)}`);
    expect(notice?.message).toContain('24 of 40 planted shells on 2 transects were found');
    expect(readDetection(used)?.planted).toMatch(
      /^Of 40 planted shells on 2 transects 24 were found, where \d\d were expected .* an availability of \d\d % .*All numbers are divided by it/,
    );
    const line = readWhatIf(used)?.lines.find((l) => l.of === 'planted');
    expect(line?.from).toBeCloseTo(share - 1, 12);

    // without being asked for they are beside the number
    const beside = plain.estimate.detection?.planted_shells;
    expect(beside).toEqual({ ...shells, used: false });
    expect(plain.estimate.warnings.map((w) => w.code)).toContain('planted-not-used');
    expect(readDetection(plain)?.planted).toContain('It is in no number');
    const other = readWhatIf(plain)?.lines.find((l) => l.of === 'planted');
    expect(other?.from).toBeCloseTo(1 / (beside?.upper ?? 0) - 1, 12);
    expect(other?.to).toBeCloseTo(1 / (beside?.lower ?? 0) - 1, 12);
  });

  it('more of which were found than the detection allows leave the number as it is, and say so', async () => {
    const all = SHELLS.replaceAll(/\d+,\d+$/gm, '18,2');
    const [plain, used] = [await estimated(null, all), await estimated('planted', all)];
    expect(used.estimate.detection?.planted_shells).toMatchObject({ share: 1, upper: 1 });
    expect(musselsOf(used)).toBeCloseTo(musselsOf(plain), 6);
    expect(used.estimate.abundance?.mussels?.cv).toBeGreaterThan(
      plain.estimate.abundance?.mussels?.cv ?? 0,
    );
    const notice = used.estimate.warnings.find((w) => w.code === 'availability-planted');
    expect(notice?.message).toContain('is taken as 1, never above it');
    expect(readDetection(used)?.planted).toContain('is taken as 1, never above it');
  });
});
