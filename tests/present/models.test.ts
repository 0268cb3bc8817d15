/** Models compared, the one used and its terms in words; expected figures by hand. */

import { describe, expect, it } from 'vitest';
import type { Boundary } from '../../shared/model-notices.ts';
import type { TriedModel } from '../../shared/result.ts';
import { logScoreSentence, modelSentence, readCoefficients } from '../../src/present/model-used.ts';
import { forcedSentence, readModels } from '../../src/present/models.ts';
import { checkedResult } from '../helpers/checked.ts';
import { handMadeResult, nothingFound } from '../helpers/result.ts';

const TAU: Boundary = { parameter: 'tau', limit: 0 };

const model = (
  family: TriedModel['family'],
  transectEffect: boolean,
  aicc: number | null,
  rest: Partial<TriedModel> = {},
): TriedModel => ({
  family,
  transectEffect,
  shape: null,
  depth: 'quadratic',
  depthDf: null,
  weight: 0,
  fit: aicc === null ? null : { logLikelihood: -aicc / 2, parameters: 9, aicc, criterion: aicc },
  boundaries: [],
  why: aicc === null ? { code: 'not-converged', cause: 'no-maximum' } : null,
  chosen: false,
  ...rest,
});

const SEVERAL = [
  model('nb2', false, 102),
  model('nb1', false, 100, { chosen: true }),
  model('nb1', true, 100, { boundaries: [TAU] }),
  model('nb2', true, 102, { boundaries: [TAU] }),
  model('poisson', false, null),
];

describe('models compared', () => {
  const compared = readModels({ models: SEVERAL })!;

  it('stand once each, the lowest AICc first, those without one last', () => {
    expect(compared.lines.map((m) => [m.family, m.delta, m.weight, m.used])).toEqual([
      // 1/(1 + e⁻¹) and e⁻¹/(1 + e⁻¹)
      ['NB1', '0.0', '0.73', true],
      ['NB2', '2.0', '0.27', false],
      ['Poisson', '–', '–', false],
    ]);
    expect(compared.lines[0]).toMatchObject({
      countDistribution: 'Negative binomial (NB1)',
      transectEffect: 'no',
      logLikelihood: '−50.00',
      parameters: '9',
      fitted: true,
    });
    expect(compared.lines[2]).toMatchObject({ logLikelihood: 'not fitted', fitted: false });
    expect(compared.alike).toBe(2);
    expect(compared.single).toBeNull();
    expect(compared.withShapes).toBe(false);
  });

  it('tell boundaries once for all whom they befell, and what did not converge', () => {
    expect(compared.notes).toEqual([
      'NB1 and NB2 with random effect of transect: τ → 0: transects do not differ beyond their habitat; counted once, as the simpler models that they became',
      'Poisson: did not converge',
    ]);
  });

  it('hold a forced model against the automatic choice, whose models stay in the table', () => {
    const forced = readModels({
      models: [
        model('poisson', false, 130.3, { chosen: true }),
        model('nb1', false, 100, { outside: true, automatic: true }),
        model('nb2', false, 102, { outside: true }),
      ],
    })!;
    expect(forced.lines.map((m) => [m.family, m.delta, m.weight, m.mark])).toEqual([
      // what is left out has no weight; of those chosen from there is one
      ['NB1', '0.0', '–', 'left out'],
      ['NB2', '2.0', '–', 'left out'],
      ['Poisson', '30.3', '1.00', 'used'],
    ]);
    expect(forced.forced).toBe(
      'ΔAICc 30.3 against the automatic choice (NB1): beside that one the data give the model used practically no support.',
    );
    expect(forced.notes[0]).toContain('not chosen from');
    // the effect of the transect has no part in it
    expect(forced.kept).toBeNull();
    expect(compared.forced).toBeNull();
  });

  it('name forms of depth where models differ in them, the ranking and what is averaged', () => {
    const forms = readModels({
      models: [
        model('nb1', false, 100, { chosen: true, weight: 0.75 }),
        model('nb1', false, 102.2, { depth: 'curve', depthDf: 3, weight: 0.25 }),
        model('nb1', false, 120, { depth: 'none' }),
      ],
    })!;
    expect(forms.lines.map((m) => [m.depth, m.weight])).toEqual([
      ['parabola', '0.75'],
      ['spline, 3 df', '0.25'],
      ['not used', '< 0.01'],
    ]);
    expect(forms.averaged).toContain('are averaged over 2 models by their weights');
    expect(forms.kept).toBeNull();
    expect(compared.averaged).toContain('rest on the best model alone; what the choice among');
    expect(compared.withDepths).toBe(false);
    const far = { depth: 'none', outside: true, automatic: true } as const;
    const forced = [model('nb1', false, 104, { chosen: true }), model('nb1', false, 100, far)];
    expect(forcedSentence({ models: forced })).toContain(
      '(NB1; depth: not used): the data speak less',
    );
  });

  it.each([
    [101.9, false, 'hardly a difference.'],
    [104, false, 'the data speak less for the model used than for that one.'],
    [98.8, true, 'the random effect of transect is kept unless'],
  ])('say what a forced model of AICc %s comes to', (aicc, effect, words) => {
    const models = [
      model('poisson', false, aicc, { chosen: true }),
      model('nb1', effect, 100, { outside: true, automatic: true }),
    ];
    expect(forcedSentence({ models })).toContain(words);
  });

  it('know a model that one of those chosen from became', () => {
    const { lines } = readModels({
      models: [
        model('nb1', false, 100, { boundaries: [TAU], chosen: true }),
        model('poisson', false, 100, { outside: true, automatic: true }),
      ],
    })!;
    expect(lines.map((m) => [m.family, m.mark])).toEqual([['Poisson', 'used']]);
  });

  it('name models one by one where not all combinations are meant', () => {
    const some = [
      model('nb1', true, 100, { boundaries: [TAU], shape: 'half-normal', chosen: true }),
      model('nb2', true, 101, { boundaries: [TAU], shape: 'hazard-rate' }),
      model('nb2', false, 103, { shape: 'hazard-rate' }),
    ];
    expect(readModels({ models: some })!.notes[0]).toMatch(
      /^NB1 with random effect of transect, half-normal; NB2 with random effect of transect, hazard-rate: τ/,
    );
  });

  it('mark the one used also when it was asked for and became a simpler one', () => {
    const only = readModels({
      models: [model('nb1', true, 100, { boundaries: [TAU], chosen: true })],
    })!;
    expect(only.lines).toHaveLength(1);
    expect(only.lines[0]).toMatchObject({ used: true, weight: '1.00' });
    expect(only.single).toBe('NB1 with random effect of transect: no other was asked for.');
  });

  it('mark the plain one where the one chosen became it', () => {
    const both = [
      model('nb1', false, 100),
      model('nb1', true, 100, { boundaries: [TAU], chosen: true }),
    ];
    expect(readModels({ models: both })!.lines.map((m) => [m.transectEffect, m.used])).toEqual([
      ['no', true],
    ]);
  });

  it('keep the random effect within 2 of the lowest AICc, and say so', () => {
    const close = [model('nb1', false, 100), model('nb1', true, 101.5, { chosen: true })];
    const kept = readModels({ models: close })!;
    expect(kept.lines.map((m) => m.used)).toEqual([false, true]);
    expect(kept.kept).toBe(
      'The random effect of transect is kept unless leaving it out lowers AICc by more than 2: dropping it makes confidence intervals too narrow.',
    );
    expect(compared.kept).toBeNull();
  });

  it('have weights that round to nothing as less than 0.01', () => {
    const far = readModels({ models: [model('nb1', false, 100), model('nb2', false, 112)] })!;
    // e⁻⁶ = 0.0025
    expect(far.lines.map((m) => m.weight)).toEqual(['1.00', '< 0.01']);
  });

  it('are null where nothing was fitted', () => {
    expect(readModels({ models: [] })).toBeNull();
    expect(readModels({ models: [model('nb1', false, null)] })).toBeNull();
    expect(readModels(nothingFound())).toBeNull();
  });
});

describe('the model used', () => {
  it('is said with what density and detection depend on', () => {
    expect(modelSentence(handMadeResult())).toBe(
      'The detected clusters of a segment have the count distribution negative binomial (NB1), clumped, with a variance linear in the mean. Density depends on substrate; the detection probability depends on observer.',
    );
  });

  it('depends on nothing where only intercepts are left', () => {
    const result = handMadeResult();
    result.estimate.model.family = 'poisson';
    result.estimate.model.transect_effect = true;
    result.estimate.coefficients = result.estimate.coefficients.slice(0, 1);
    expect(modelSentence(result)).toContain(
      'with a random effect of transect. Density is the same',
    );
  });

  it('is none where nothing was detected', () => {
    expect(modelSentence(nothingFound())).toBe('Nothing was detected, so no model was fitted.');
  });

  it('has coefficients by the part that they are of, the terms as in estimate.json', () => {
    expect(readCoefficients(handMadeResult())).toEqual([
      { part: 'density', term: 'intercept', estimate: '−1.250', se: '0.300' },
      { part: 'density', term: 'substrate:rock', estimate: '1.500', se: '0.200' },
      { part: 'detection probability', term: 'observer:Ada:belt', estimate: '1.000', se: '–' },
    ]);
  });

  it('has a log score, where it could be computed', () => {
    expect(logScoreSentence(checkedResult())).toContain('Log score −3.2:');
    const result = checkedResult();
    result.estimate.checks.log_score = null;
    expect(logScoreSentence(result)).toBeNull();
  });
});
