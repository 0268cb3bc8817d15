/** Where detection would make the number by itself there is none. */

import { describe, expect, it } from 'vitest';
import { estimateSurvey } from '../../src/pipeline.ts';
import { baseSurvey, toFolder } from '../helpers/base-survey.ts';
import { all, dropRows, setCell } from '../helpers/bend.ts';
import { D } from '../hostile/cases.ts';

describe('two clusters next to the line of a strip of 2 m, on three transects', () => {
  it('give no number, and it is said why', async () => {
    const texts = baseSurvey();
    // rows 17 to 31 are of the distance transects; two of them stay
    all(
      dropRows(D, 19, 31),
      setCell(D, 17, 'offset_m', '0.00001'),
      setCell(D, 18, 'offset_m', '0.00001'),
    )(texts);
    for (const name of ['transects.csv', 'habitat.csv', 'detections.csv'])
      texts[name] = (texts[name] ?? '')
        .split('\n')
        .filter((line) => !/^T[123],/.test(line))
        .join('\n');
    const estimated = await estimateSurvey(toFolder(texts));
    expect(estimated.ok).toBe(false);
    const errors = estimated.ok ? [] : estimated.findings.filter((f) => f.severity === 'error');
    expect(errors.map((f) => f.message)).toEqual([
      expect.stringMatching(
        /^not estimable, because the detection probability comes out at \S+ on average, so that each detected cluster would stand for /,
      ),
    ]);
  });
});
