/** A simulation study in words; figures made up for the words. */

import { describe, expect, it } from 'vitest';
import { type RehearsalSummary, readStudy } from '../../src/present/simulation-study.ts';

const STUDY: RehearsalSummary = {
  surveys: 1200,
  notEstimable: 0,
  reasons: [],
  detections: 148.26,
  mussels: {
    truth: 184_321,
    bias: -0.0123,
    biasSe: 0.004,
    rmse: 0.21,
    spread: 0.2096,
    reported: 0.2,
    coverage: 0.9417,
    coverageSe: 0.0068,
  },
  clusters: null,
};

describe('a simulation study', () => {
  const read = readStudy('my-lake', STUDY, false, 0.95);

  it('names its size and what it was simulated from', () => {
    expect(read.title).toBe(
      'my-lake: simulation study of 1,200 surveys from the fitted model, 148 detections on average',
    );
    expect(readStudy('my-lake', STUDY, true, 0.95).title).toContain('from truth.json');
  });

  it('has bias, RMSE and coverage a row a quantity, dashes for what there was too little for', () => {
    expect(read.rows).toEqual([
      ['', 'truth', 'bias', 'RMSE', 'CV', 'reported', 'coverage'],
      ['mussels', '184,000', '−1.2 % ± 0.4 %', '21.0 %', '21.0 %', '20.0 %', '94.2 % ± 0.7 %'],
      ['clusters', '–', '–', '–', '–', '–', '–'],
    ]);
  });

  it('says what it comes to, and what so many surveys cannot tell', () => {
    // −1.23 % is 3 of its standard errors off; 0.9417 − 0.95 = −0.0083, below 2 √(0.95 · 0.05 / 1200) + 1/2400 = 0.0130
    expect(read.sentence).toBe(
      'On average the estimate of mussels is 1.2 % too low; of the 95 % confidence intervals 94.2 % hold the truth, as many as they should, as far as so many surveys can tell.',
    );
    const mussels = { ...STUDY.mussels!, biasSe: 0.01, coverage: 0.9 };
    expect(readStudy('x', { ...STUDY, mussels }, false, 0.95).sentence).toBe(
      'On average the estimate of mussels is right as far as so many surveys can tell; of the 95 % confidence intervals 90.0 % hold the truth, fewer than they should: they are too narrow for this design.',
    );
    // 17 of 20: as few or fewer have a probability of 0.075 under 0.95 (binomial, by hand), which is no proof
    const few = { ...STUDY, surveys: 20, mussels: { ...mussels, coverage: 0.85 } };
    expect(readStudy('x', few, false, 0.95).sentence).toContain('as many as they should');
    expect(readStudy('x', { ...STUDY, mussels: null }, false, 0.95).sentence).toBeNull();
  });

  it('says what the figures mean', () => {
    expect(read.notes[0]).toBe('Every survey gave a valid estimate.');
    expect(read.notes[1]).toContain('Bias: how far estimates are off on average. RMSE: ');
    expect(read.notes[1]).toContain('Coverage: share of the intervals that hold the truth.');
  });

  it('says how many surveys gave no estimate, and why', () => {
    const reasons = [
      { why: 'nothing-found', surveys: 20 },
      { why: 'density-not-identified', surveys: 4 },
    ];
    expect(readStudy('x', { ...STUDY, notEstimable: 0.02, reasons }, false, 0.95).notes[0]).toBe(
      '2.0 % of the surveys gave no valid estimate (nothing detected: 20, density not estimable: 4).',
    );
  });
});
