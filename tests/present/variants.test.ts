/** Variants side by side; figures by hand from 184,321 mussels and an AICc of 266.25 of the hand-made result. */

import { describe, expect, it } from 'vitest';
import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { parseVariants, type Variant, variantEntry, variantsText } from '../../shared/variants.ts';
import { VERSION } from '../../shared/version.ts';
import { choicesOf, compareVariants, outcomeOf } from '../../src/present/variants.ts';
import { handMadeResult } from '../helpers/result.ts';

const result = handMadeResult();
const now = outcomeOf(result);
const checks = [
  { name: 'overdispersion', verdict: 'fails' },
  { name: 'depth', verdict: 'holds' },
  { name: 'substrate', verdict: 'holds' },
] as const;
const poisson: Variant = {
  name: 'Poisson',
  choices: { ...choicesOf(DEFAULT_ANALYSIS), 'density.family': 'poisson' },
  outcome: {
    ...now,
    aicc: 296.25,
    total: { of: 'mussels', estimate: 202_753, se: 40_000, lower: 138_000, upper: 298_000 },
    checks: [...checks],
  },
};
const current = { analysis: DEFAULT_ANALYSIS, data: result.fingerprint, outcome: now };
const compared = (...variants: Variant[]) => compareVariants(variants, current);
const second = (change: Partial<Variant>) => compared({ ...poisson, ...change })?.lines[1];

describe('variants beside the analysis', () => {
  it('stand against it in AICc, total and checks', () => {
    // 296.25 − 266.25 = 30; 202,753 / 184,321 = 1.1000
    const [first, other] = compared(poisson)?.lines ?? [];
    expect(first).toMatchObject({ isAnalysis: true, name: 'As chosen now', total: '184,000' });
    expect(other).toMatchObject({
      name: 'Poisson',
      isAnalysis: false,
      choices: 'count distribution: Poisson',
      delta: '+30.0',
      total: '203,000',
      interval: '138,000 to 298,000',
      change: '+10.0 %',
      checks: 'fails: overdispersion; 2 hold',
      remark: null,
    });
    expect(compared(poisson)?.axis).toBe(298_000);
  });

  it('one of them is the analysis when its choices are: what the analysis gives is shown, not what was kept', () => {
    const same = { ...poisson, name: 'As usual', choices: choicesOf(DEFAULT_ANALYSIS) };
    const lines = compared(poisson, same)?.lines ?? [];
    expect(lines.map((l) => [l.name, l.isAnalysis, l.total])).toEqual([
      ['As usual', true, '184,000'],
      ['Poisson', false, '203,000'],
    ]);
    // a choice that the file does not name has its default
    expect(compared({ ...same, choices: {} })?.lines).toHaveLength(1);
  });

  it.each([
    [{ ...poisson.outcome!, data: 'other' }, "from before a change of the survey's files"],
    [{ ...poisson.outcome!, version: `${VERSION}9` }, `computed with version ${VERSION}9`],
    [null, 'not estimated, or no estimate could be made'],
  ])('is not compared where it was computed otherwise (%#)', (outcome, remark) => {
    expect(second({ outcome })).toMatchObject({ remark, isStale: true, delta: '–', change: '–' });
  });

  it('AICc does not compare other segments, the total does', () => {
    const choices = { ...poisson.choices, 'segments.max_length_m': 10 };
    expect(second({ choices })).toMatchObject({ isStale: false, delta: '–', change: '+10.0 %' });
    expect(second({ choices })?.remark).toContain('AICc does not compare');
  });

  it('are told in a sentence, those that are not compared too', () => {
    const low = {
      ...poisson,
      name: 'low',
      outcome: { ...poisson.outcome!, total: { ...poisson.outcome!.total!, estimate: 147_457 } },
    };
    // 147,457 / 184,321 = 0.8000
    expect(compared(poisson, low, { ...poisson, name: 'old', outcome: null })?.sentence).toBe(
      'The analysis gives 184,000 mussels; 2 variants give 147,000 to 203,000 (−20.0 % to +10.0 %). One is not compared: estimated from other files, by another version, or not at all.',
    );
    expect(compared()).toBeNull();
  });
});

describe('variants.json', () => {
  const placed = { ...poisson, place: 1 };
  const textOf = (...variants: object[]) => variantsText(variants);
  const entry = variantEntry(poisson);

  it('is read as it was written, its choices nested as in analysis.json', () => {
    expect(entry.choices).toMatchObject({ density: { family: 'poisson' }, interval: 0.95 });
    expect(parseVariants(textOf(entry))).toEqual({ variants: [placed], problems: [] });
    expect(parseVariants('')).toEqual({ variants: [], problems: [] });
  });

  it.each([
    ['no JSON', '{', 'not valid JSON'],
    ['another schema', '{"schema": "x", "variants": []}', 'schema shoalwise/variants/1 expected'],
    ['a list', '[]', 'no list of variants'],
    ['too many', textOf(...Array.from({ length: 101 }, () => entry)), 'at most 100 expected'],
    ['too long', `"${'x'.repeat(1_000_001)}"`, 'more than 1,000,000 characters'],
    ['no object', textOf([]), 'variant 1: an object'],
    ['no name', textOf({ ...entry, name: ' ' }), 'variant 1: no name'],
    ['no choices', textOf({ ...entry, choices: [] }), 'variant 1: no choices'],
    [
      'an unknown choice',
      textOf({ ...entry, choices: { density: { colour: 1 } } }),
      '"density.colour"',
    ],
    ['classes', textOf({ ...entry, choices: { substrates: ['mud'] } }), '"substrates"'],
    ['a value off its limits', textOf({ ...entry, choices: { interval: 7 } }), 'value of interval'],
    [
      'a total that is text',
      textOf(spoilt({ total: { of: 'mussels', estimate: '1' } })),
      'outcome',
    ],
    ['no such verdict', textOf(spoilt({ checks: [{ name: 'depth', verdict: 'x' }] })), 'outcome'],
    ['no such family', textOf(spoilt({ model: { family: 'normal' } })), 'outcome'],
  ])('%s is told and gives no variant', (_, text, problem) => {
    const read = parseVariants(text);
    expect(read.variants).toEqual([]);
    expect(read.problems).toHaveLength(1);
    expect(read.problems[0]).toContain(problem);
  });

  it('keeps the sound ones in their places, and the first of two with one name', () => {
    const { variants, problems } = parseVariants(textOf({}, entry, entry));
    expect(variants).toEqual([{ ...placed, place: 2 }]);
    expect(problems).toHaveLength(2);
  });

  function spoilt(change: object) {
    return { ...entry, outcome: { ...poisson.outcome, ...change } };
  }
});
