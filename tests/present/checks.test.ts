/** The checks in words: each sentence once, from a record written by hand. */

import { describe, expect, it } from 'vitest';
import type { Check, TestedVerdict } from '../../shared/result.ts';
import { checkOf, checksSentence, readChecks } from '../../src/present/checks.ts';
import { checkedResult } from '../helpers/checked.ts';
import { handMadeResult } from '../helpers/result.ts';

function words(check: Check) {
  const result = checkedResult();
  result.checks!.checks = [check];
  return readChecks(result)![0];
}

const FIT = { chi2: 7.25, df: 3, p: 0.0643 };
const NORMAL = { skewness: 0.123, kurtosis: 2.987, p: 0.4 };
const ODD = { transect: 1, detected: 20, secondary: 15, expected: 2.61 };

const MORAN = {
  name: 'spatial-autocorrelation',
  verdict: 'doubtful',
  p: 0.02,
  cvBySuccessiveDifferences: 0.149,
  cvByModel: 0.189,
} as const;

const CASES: [Check, string, string][] = [
  [
    { name: 'observer', verdict: 'holds', ...FIT },
    'Goodness of fit by observer',
    'χ² 7.3 on 3 degrees of freedom, p = 0.064: each observer detected about what the model expects in each role.',
  ],
  [
    { name: 'perpendicular-distance', verdict: 'fails', chi2: 40, df: 4, p: 4e-8 },
    'Goodness of fit by perpendicular distance',
    'χ² 40.0 on 4 degrees of freedom, p < 0.001: the perpendicular distances do not follow the fitted detection function (heaped at 0 or 1 m, or too few near the line); the density from distance transects may be off: distances that were rounded can be taken by classes with the rounded values inside (detection.distance_classes; to 0.5 m: 0, 0.25, 0.75, 1).',
  ],
  [
    { name: 'substrate', verdict: 'holds', ...FIT },
    'Goodness of fit by substrate',
    'χ² 7.3 on 3 degrees of freedom, p = 0.064: detected and expected clusters agree on every substrate.',
  ],
  [
    { name: 'depth', verdict: 'doubtful', chi2: 4.1, df: 1, p: 0.0429 },
    'Goodness of fit by depth',
    'χ² 4.1 on 1 degree of freedom, p = 0.043: some depths hold more or fewer clusters than the model says; give the curve of depth more degrees of freedom (density.depth_df).',
  ],
  [
    {
      name: 'cluster-size',
      verdict: 'fails',
      chi2: 12.1,
      df: 1,
      p: 0.0005,
      secondaryMean: 1.52,
      expectedMean: 2.31,
    },
    'Cluster size by role',
    "Secondary observers' clusters hold 1.52 mussels on average, 2.31 expected, p < 0.001: the primary takes the large ones, so small ones are missed more often than the model says and the total may be too low: let detection depend on cluster size (detection.cluster_size).",
  ],
  [
    { name: 'transect', verdict: 'holds', transects: 24, p: 0.31, oddest: ODD },
    'Goodness of fit by transect',
    'Over 24 transects, p = 0.31: on every transect the secondary observer detected about the share that the model expects.',
  ],
  [
    { name: 'transect', verdict: 'fails', transects: 24, p: 0.0001, oddest: ODD },
    'Goodness of fit by transect',
    'Over 24 transects, p < 0.001: on some transects the secondary observer detected far more or less than the model expects, most of all on =T2 (15 of 20 clusters, 2.6 expected); detection, and with it the total, may be far off: check whether roles were exchanged on their sheets.',
  ],
  [
    { name: 'overdispersion', verdict: 'doubtful', dispersion: 1.5 },
    'Overdispersion',
    'Pearson dispersion 1.50 (1 is right): the counts vary more than the model says; the confidence interval may be somewhat too narrow.',
  ],
  [
    { name: 'overdispersion', verdict: 'doubtful', dispersion: 0.4 },
    'Overdispersion',
    'Pearson dispersion 0.40 (1 is right): the counts vary less than the model says; the confidence interval may be wider than needed.',
  ],
  [
    { name: 'residuals', verdict: 'holds', ...NORMAL },
    'Distribution of residuals',
    'Quantile residuals with skewness 0.12 and kurtosis 2.99 (0 and 3 are right), p = 0.40: the counts of single segments follow the count distribution.',
  ],
  [
    { ...MORAN, moranI: 0.31, spread: 'round' },
    "Spatial autocorrelation (Moran's I)",
    "Moran's I 0.31, p = 0.020; standard error of the total 14.9 % by successive differences along the shore, 18.9 % by the best model: neighbouring transects err alike: something that the model does not know changes along the shore; as transects lie all along the shore, its rich and its poor stretches were both searched, and the confidence interval is likely too wide (the model can follow such a change: density.shore).",
  ],
  [
    { ...MORAN, moranI: 0.31, spread: 'part', cvBySuccessiveDifferences: null },
    "Spatial autocorrelation (Moran's I)",
    "Moran's I 0.31, p = 0.020: neighbouring transects err alike: something that the model does not know changes along the shore; as transects lie on a part of the shore only, the rest may be richer or poorer, and the confidence interval is likely too narrow for the whole lake.",
  ],
  [
    { ...MORAN, moranI: -0.31, spread: null, cvByModel: null },
    "Spatial autocorrelation (Moran's I)",
    "Moran's I −0.31, p = 0.020: neighbouring transects err in opposite ways, as where density changes within short distances; the confidence interval may be too narrow.",
  ],
  [
    { name: 'influence', verdict: 'fails', transect: 0, change: -0.4 },
    'Influence of single transects',
    'Without T1 the total would be 40 % lower: this transect decides the total; check its sheet, and add transects like it before acting on the total.',
  ],
  [
    { name: 'design-based', verdict: 'holds', model: 0.5, design: 0.46123 },
    'Model against design-based estimate',
    '0.500 clusters per m² of searched bed by the model, 0.461 by the design-based estimate: they agree within their errors.',
  ],
];

describe('a check has a title and a sentence', () => {
  it.each(CASES)('$name, $verdict', (check, title, sentence) => {
    expect(words(check)).toMatchObject({ name: check.name, title, sentence });
  });

  it('and a gloss where the title is not plain', () => {
    expect(words({ name: 'overdispersion', verdict: 'holds', dispersion: 1 }).gloss).toBe(
      'whether counts vary more than the count distribution says',
    );
    expect(words({ name: 'depth', verdict: 'holds', ...FIT }).gloss).toBeNull();
  });

  it('that a saturated table was not tested', () => {
    const c = { name: 'substrate', verdict: 'saturated', chi2: null, df: null, p: null } as const;
    expect(words(c).sentence).toBe(
      'No degrees of freedom left: the fitted model reproduces these rows whatever was observed, so they cannot show whether it is right.',
    );
  });

  it('that says something else for each verdict', () => {
    const sentences = (verdict: TestedVerdict) =>
      CASES.map(([c]) => words({ ...c, verdict }).meaning);
    const [holds, fails] = [sentences('holds'), sentences('fails')];
    holds.forEach((sentence, i) => {
      expect(sentence).not.toBe(fails[i]);
    });
  });
});

describe('all of them', () => {
  it('come gravest first, otherwise in their order', () => {
    expect(readChecks(checkedResult())!.map((c) => c.name)).toEqual([
      'overdispersion',
      'depth',
      'observer',
      'perpendicular-distance',
      'influence',
      'design-based',
    ]);
  });

  it('are null where the model was not checked', () => {
    expect(readChecks(handMadeResult())).toBeNull();
    expect(checkOf(handMadeResult(), 'depth')).toBeNull();
    expect(checkOf(checkedResult(), 'substrate')).toBeNull();
  });

  it('are counted in one sentence, the grave ones named', () => {
    const checks = readChecks(checkedResult())!;
    expect(checksSentence(checks)).toBe(
      'Of 6 checks on the model 4 hold, 1 is doubtful (goodness of fit by depth) and 1 fails (overdispersion).',
    );
    expect(checksSentence(checks.slice(2))).toBe('All 4 checks on the model hold.');
    expect(checksSentence(checks.slice(2, 3))).toBe('The one check on the model holds.');
    expect(checksSentence([])).toBeNull();
    expect(checksSentence(null)).toBeNull();
  });
});
