/** What if an assumption is wrong: figures by hand from the hand-made result (184,321 mussels, 121,234 to 279,456, on 14.8 ha). */

import { describe, expect, it } from 'vitest';
import { readWhatIf } from '../../src/present/what-if.ts';
import { checkedResult } from '../helpers/checked.ts';
import { handMadeResult, nothingFound, withoutLake } from '../helpers/result.ts';

const lineOf = (of: string, undetected?: number) =>
  readWhatIf(handMadeResult(), 'metric', undetected)?.lines.find((l) => l.of === of);

describe('what if an assumption is wrong', () => {
  it('divides by the share that can be detected', () => {
    // 184,321 / 0.9 = 204,801; / 0.7 = 263,316
    expect(lineOf('undetected')).toMatchObject({
      otherwise: 'if 10 % of the clusters can be detected by neither observer',
      total: '205,000',
      change: '+11 %',
    });
    expect(lineOf('undetected', 0.3)).toMatchObject({ total: '263,000', change: '+43 %' });
    expect(lineOf('undetected', 0)).toMatchObject({ total: '184,000', change: '0 %' });
  });

  it('lets clusters differ as far as that could be computed', () => {
    // 195,380 / 184,321 = 1.0600; 186,164 / 184,321 = 1.0100
    expect(lineOf('alike')).toMatchObject({
      otherwise:
        'if some clusters are harder to detect than others, by a standard deviation of up to 1 of the logit of detection',
      total: '184,000 to 195,000',
      change: '0 % to +6.0 %',
    });
    expect(lineOf('alike')?.how).toContain('With 0.5: +1.0 %; 1: +6.0 %.');
  });

  it('gives the rest of the lake from none to as many', () => {
    // (42,000 + 23,000) / 148,000 = 0.4392; 184,321 × 1.4392 = 265,273
    expect(lineOf('unsurveyed')).toMatchObject({
      total: '184,000 to 265,000',
      change: '0 % to +44 %',
      from: 0,
      to: 65_000 / 148_000,
    });
    expect(lineOf('unsurveyed')?.otherwise).toContain('6.50 ha');
  });

  it('takes the recorded substrates for those of the map', () => {
    // 169,575 / 184,321 = 0.9200
    const line = lineOf('recorded');
    expect(line).toMatchObject({ total: '170,000', change: '−8.0 %' });
    expect(line?.otherwise).toContain('the same on 90 % of the length');
    expect(line?.how).toContain('60 m of transects');
    expect(line?.how).toContain('silt on mapped rock 6 m');
    expect(line?.how).not.toContain('samples');
    const made = handMadeResult();
    made.estimate.interpolated_substrate = {
      points: 96,
      greatest_distance_m: 40,
      leave_one_out_share: null,
      neighbours_within_m: null,
      leave_neighbours_out_share: null,
    };
    const same = readWhatIf(made)?.lines.find((l) => l.of === 'recorded');
    expect(same?.how).toContain('The map was made from samples');
  });

  it('moves borders to either side', () => {
    // 184,321 − 9,200 = 175,121 (−5.0 %); + 18,400 = 202,721 (+10.0 %)
    expect(lineOf('borders')).toMatchObject({
      total: '175,000 to 203,000',
      change: '−5.0 % to +10 %',
    });
    expect(lineOf('borders')?.otherwise).toContain('5 to 10 m');
  });

  it('leaves out the transect that weighs most, where that was computed', () => {
    expect(lineOf('transect')).toBeUndefined();
    const read = readWhatIf({ ...handMadeResult(), checks: checkedResult().checks });
    // −12.5 %: 184,321 × 0.875 = 161,281
    expect(read?.lines.find((l) => l.of === 'transect')).toMatchObject({
      otherwise: 'if transect =T2 had not been dived',
      total: '161,000',
      change: '−13 %',
    });
  });

  it('names each other model with its own interval', () => {
    // 202,400 / 184,321 = 1.0981
    expect(lineOf('model')).toMatchObject({
      otherwise: 'if NB2 is the right model',
      total: '202,000',
      change: '+9.8 %',
      how: 'ΔAICc 1.3, against the model used. Its own 95 % CI: 138,000 to 298,000.',
    });
  });

  it('says that none of it is in the interval, and gives that for scale', () => {
    const read = readWhatIf(handMadeResult());
    // 121,234 / 184,321 = 0.658; 279,456 / 184,321 = 1.516
    expect(read?.interval?.change).toBe('−34 % to +52 %');
    expect(read?.opening).toContain('None of this is in the confidence interval');
    expect(read?.reach).toEqual({ from: 121_234 / 184_321 - 1, to: 279_456 / 184_321 - 1 });
  });

  it('says what could not be computed', () => {
    const bare = { ...handMadeResult(), whatIf: { models: [], borders: null } };
    expect(readWhatIf(bare)?.missing).toHaveLength(3);
  });

  it('has nothing to say without a number', () => {
    expect(readWhatIf(withoutLake())).toBeNull();
    expect(readWhatIf(nothingFound())).toBeNull();
  });
});
