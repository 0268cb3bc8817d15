/** Models compared, and how sure, in words; expected figures by hand. */

import { describe, expect, it } from 'vitest';
import type { ModelRow } from '../../shared/estimate.ts';
import {
  boundaryNotes,
  compareModels,
  keptEffectSentence,
  modelName,
  weightWords,
} from '../../src/publish/compared-models.ts';
import { handMadeEstimate } from '../helpers/result.ts';

const row = (
  family: ModelRow['family'],
  transect_effect: boolean,
  aicc: number | null,
  boundary: string | null = null,
): ModelRow => ({
  family,
  transect_effect,
  shape: null,
  log_likelihood: aicc === null ? null : -aicc / 2,
  parameters: aicc === null ? null : 9,
  aicc,
  boundary,
});

const TAU = 'τ → 0: transects do not differ beyond chance';

function estimateWith(models: ModelRow[], used: ModelRow) {
  const estimate = handMadeEstimate();
  estimate.models = models;
  Object.assign(estimate.model, {
    family: used.family,
    transect_effect: used.transect_effect,
    log_likelihood: used.log_likelihood,
    parameters: used.parameters,
  });
  return estimate;
}

describe('models compared', () => {
  const models = [
    row('nb2', false, 102),
    row('nb1', false, 100),
    row('nb1', true, 100, TAU),
    row('nb2', true, 102, TAU),
    row('poisson', false, null, 'did not converge'),
  ];
  const compared = compareModels(estimateWith(models, models[1]!));

  it('are ordered by AICc, with weights exp(−Δ/2)/Σ over those that differ', () => {
    expect(compared.map((c) => c.delta)).toEqual([0, 0, 2, 2, null]);
    // 1/(1 + e⁻¹) and e⁻¹/(1 + e⁻¹)
    expect(compared[0]!.weight).toBeCloseTo(0.7310585786, 9);
    expect(compared[2]!.weight).toBeCloseTo(0.2689414214, 9);
    expect(compared[1]!.weight).toBeNull();
    expect(compared[4]!.weight).toBeNull();
  });

  it('mark the one used, and what became another on its boundary', () => {
    expect(compared.map((c) => c.used)).toEqual([true, false, false, false, false]);
    expect(compared[1]!.sameAs).toBe(models[1]);
    expect(compared[3]!.sameAs).toBe(models[0]);
    expect(compared[0]!.sameAs).toBeNull();
  });

  it('tell boundaries once for all whom they befell, and what did not converge', () => {
    expect(boundaryNotes(compared)).toEqual([
      `nb1 and nb2 with transect effect: ${TAU}; counted once, as the simpler models that they became`,
      'Poisson: did not converge',
    ]);
  });

  it('mark the one used also when it was asked for and became a simpler one', () => {
    const only = row('nb1', true, 100, TAU);
    const used = { ...only, transect_effect: false };
    const [single] = compareModels(estimateWith([only], used));
    expect(single).toMatchObject({ used: true, weight: 1, sameAs: null });
  });

  it('keep the transect effect within 2 of the lowest AICc, and say so', () => {
    const close = [row('nb1', false, 100), row('nb1', true, 101.5)];
    const kept = compareModels(estimateWith(close, close[1]!));
    expect(kept.map((c) => c.used)).toEqual([false, true]);
    expect(keptEffectSentence(kept)).toContain('The transect effect is kept unless');
    expect(keptEffectSentence(compared)).toBeNull();
  });

  it('have neither difference nor weight where AICc is not defined', () => {
    const few = { ...row('poisson', false, 50), aicc: null };
    expect(compareModels(estimateWith([few], few))[0]).toMatchObject({
      used: true,
      delta: null,
      weight: null,
    });
  });

  it('have names and weights in words', () => {
    expect(modelName({ ...row('nb1', true, 1), shape: 'half-normal' })).toBe(
      'nb1 with transect effect, half-normal',
    );
    expect(modelName(row('poisson', false, 1))).toBe('Poisson');
    expect([null, 0.001, 0.005, 0.7311].map(weightWords)).toEqual(['–', '< 0.01', '0.01', '0.73']);
  });
});
