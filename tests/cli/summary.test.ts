/** The terminal summary; expected lines by hand from the figures in tests/helpers/result.ts. */

import { describe, expect, it } from 'vitest';
import { noticeAt } from '../../shared/findings.ts';
import type { SurveyResult, TriedModel } from '../../shared/result.ts';
import { noticeLines } from '../../src/cli/notices.ts';
import { summary } from '../../src/cli/summary.ts';
import { columns, wrap } from '../../src/cli/text.ts';
import { readNotices } from '../../src/present/notices.ts';
import { reportHtml } from '../../src/publish/report.ts';
import { checkedResult, loneDiver } from '../helpers/checked.ts';
import { handMadeResult, nothingFound, withoutLake } from '../helpers/result.ts';

const NO_MAXIMUM = { code: 'not-converged', cause: 'no-maximum' } as const;

const text = (result: SurveyResult) => summary(result, { bold: false });

describe('the summary', () => {
  it('tells what was searched, seen, dense where, how many, left out, and to be minded, in this order', () => {
    const shown = text(handMadeResult());
    const order = [
      'What was searched\n',
      'Detection probabilities (95 % CI)\n',
      'Abundance by stratum\n',
      'Treatment areas\n',
      'Answer\n',
      'Outside the surveyed habitat\n',
      'Notices (3)\n',
    ];
    const places = order.map((title) => shown.indexOf(title));
    expect(places.every((p) => p >= 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(shown).toContain(
      '  2 transects (1 belt, 1 distance) on 2 days, 2026-07-01 to 2026-07-04\n',
    );
    expect(shown).toContain('  Ada  belt  74 %  58 % to 85 %\n');
    expect(shown).toMatch(
      / {4}1\.0 to 2\.0 m +1\.00 +5\.2 +3\.2 to 8\.1 +52,000 +32,000 to 81,000\n/,
    );
    expect(shown).toMatch(/ {2}North <bay> +2\.00 +0\.050 +2,700 +1,700 to 4,100 +1\.5 %\n/);
    expect(shown).toContain('  4.20 ha  shallower or deeper than was searched\n');
  });

  it.each([
    ['a whole survey', handMadeResult()],
    ['no lake', withoutLake()],
    ['nothing found', nothingFound()],
    ['checks and a bootstrap', checkedResult()],
    ['one diver, lone mussels', loneDiver()],
  ])('fits 80 columns, shows no escape codes, undefined, NaN or null: %s', (_, result) => {
    const shown = text(result);
    expect(Math.max(...shown.split('\n').map((l) => l.length))).toBeLessThanOrEqual(80);
    expect(shown).not.toContain('\u001b');
    expect(shown).not.toMatch(/undefined|NaN|\bnull\b|\[object/);
    expect(shown).not.toMatch(/\b(free|clean|absent)\b/i);
  });

  it('tells the models compared and the checks after what is not in the number', () => {
    const shown = text(checkedResult());
    const places = [
      'Answer',
      'Outside the surveyed habitat',
      'Models compared',
      'Checks on the model',
      'Notices (3)',
    ].map((title) => shown.indexOf(`\n${title}\n`));
    expect(places.every((p) => p >= 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    // the gravest first; the check against the design-based estimate stands with the answer
    const checks = shown.slice(places[3]);
    expect(checks).toContain(
      'Checks on the model\n  FAILS     Overdispersion: Pearson dispersion 2.40 (1 is right): the counts\n',
    );
    expect(checks).toContain('  doubtful  Goodness of fit by depth: χ² 4.1 on 1 degree of freedom');
    expect(checks).not.toContain('by the model, 0.460');
    const answer = shown.slice(places[0], places[1]).replace(/\s+/g, ' ');
    expect(answer).toContain('200 bootstrap replicates');
    expect(answer).toContain('they agree within their errors (design-based estimate:');
  });

  it('lists the models with difference and weight, the one used marked, boundaries in words', () => {
    const result = checkedResult();
    const [first] = result.models;
    const fit = { logLikelihood: -133.125, parameters: 9, aicc: 266.25, criterion: 266.25 };
    result.models = [
      { ...first!, fit, chosen: true },
      { ...first!, family: 'nb2', fit: { ...fit, aicc: 268.25, criterion: 268.25 }, chosen: false },
      { ...first!, family: 'poisson', fit: null, why: NO_MAXIMUM, chosen: false },
    ];
    const shown = text(result);
    // Δ 2: weights 1/(1 + e⁻¹) and e⁻¹/(1 + e⁻¹)
    expect(shown).toContain('  count distribution  random effect  ΔAICc  weight\n');
    expect(shown).toMatch(/ {2}NB1 +no +0\.0 +0\.73 {2}used\n {2}NB2 +no +2\.0 +0\.27\n/);
    expect(shown).toContain('  - Poisson: did not converge\n');
  });

  it('keeps the models that a choice left out, and says what the choice costs, as the report does', () => {
    const result = checkedResult();
    const [first] = result.models;
    const fit = { logLikelihood: -133.125, parameters: 9, aicc: 266.25, criterion: 266.25 };
    result.models = [
      {
        ...first!,
        family: 'poisson',
        shape: 'hazard-rate',
        fit: { ...fit, aicc: 306.05, criterion: 306.05 },
      },
      {
        ...first!,
        shape: 'hazard-rate',
        fit,
        chosen: false,
        outside: true,
        automatic: true,
      },
    ];
    const shown = text(result);
    expect(shown).toMatch(/ {2}NB1 +no +hazard-rate +0\.0 +– {2}left out\n/);
    expect(shown).toContain('  ΔAICc 39.8 against the automatic choice (NB1, hazard-rate): beside');
    expect(Math.max(...shown.split('\n').map((l) => l.length))).toBeLessThanOrEqual(80);
    const report = reportHtml(result);
    expect(report).toContain('NB1 · left out');
    expect(report).toContain('ΔAICc 39.8 against the automatic choice (NB1, hazard-rate): beside');
  });

  it('names the detection function beside belts and distance transects too', () => {
    const result = checkedResult();
    result.models = result.models.map((m) => ({ ...m, shape: 'hazard-rate' }));
    const shown = text(result);
    expect(shown).toContain('detection function');
    expect(shown).toMatch(/ {2}NB1 +no +hazard-rate +0\.0 +1\.00 {2}used\n/);
    expect(Math.max(...shown.split('\n').map((l) => l.length))).toBeLessThanOrEqual(80);
  });

  it('says in a line when no model was compared, and shows six at most but always the one used', () => {
    const one = checkedResult();
    one.models = one.models.slice(0, 1);
    expect(text(one)).toContain('Models compared\n  NB1: no other was asked for.\n');
    const many = checkedResult();
    const [first] = many.models;
    const others: TriedModel[] = Array.from({ length: 9 }, (_, i) => ({
      ...first!,
      transectEffect: true,
      chosen: false,
      fit: { logLikelihood: -90 - i, parameters: 9, aicc: 200 + i, criterion: 200 + i },
    }));
    many.models = [...others, first!];
    const shown = text(many);
    expect(shown.match(/ {2}NB1 +yes/g)).toHaveLength(6);
    expect(shown).toMatch(/ {2}NB1 +no +66\.3 +< 0\.01 {2}used\n/);
    expect(shown).toContain('and 3 more with less weight: see models.csv');
  });

  it('lets no control character of a file reach the terminal', () => {
    const result = handMadeResult();
    result.estimate.lake = 'a\u001b[2Jb';
    result.estimate.detection!.observers[0].observer = 'A\u0007da';
    result.findings = [noticeAt({ table: 'transects.csv' }, 'x', 'x\u009by')];
    const shown = text(result);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is searched for
    expect(shown).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
    expect(shown).toContain('a\\u001b[2Jb\n');
  });

  it('sets headings off on a screen that can', () => {
    expect(summary(handMadeResult(), { bold: true })).toContain('\u001b[1mAnswer\u001b[0m\n');
  });

  it('calls it the density of detectable clusters when nobody followed', () => {
    const result = handMadeResult();
    result.estimate.detection!.fixed = 'p=1';
    expect(text(result).replace(/\s+/g, ' ')).toContain(
      'the densities there are of detectable clusters',
    );
  });

  it('has no mean size where every cluster was a lone mussel', () => {
    expect(text(loneDiver())).toContain('  Every detected cluster was a single mussel.\n');
    expect(text(checkedResult())).toContain(
      '  A cluster holds 2.4 mussels on average (standard error 0.1',
    );
  });

  it('gives the curves where there is no lake', () => {
    // at 4 m the curve of tests/helpers is 5 exp(−(0.7/2.2)²) = 4.52, its limits 1.8 times less and more
    expect(text(withoutLake())).toMatch(/ {2}rock +4\.0 m +4\.5 +2\.5 to 8\.1\n/);
  });

  it('gives substrates only when there are very many strata', () => {
    const result = handMadeResult();
    const stratum = result.estimate.strata![1];
    result.estimate.strata = Array.from({ length: 31 }, (_, i) => ({
      ...stratum,
      depth_from_m: i,
      depth_to_m: i + 1,
    }));
    expect(text(result)).toContain('\n  (by stratum, with intervals: strata.csv)');
    expect(text(result)).toMatch(/ {2}rock +5\.30 +0\.98 .* 32,000 to 81,000\n/);
    expect(text(result)).not.toContain('30.0 to 31.0 m');
  });
});

describe('notices', () => {
  it('are one entry a kind, with the number of the others', () => {
    const row = (n: number) =>
      noticeAt({ table: 'transects.csv', row: n }, 'rope', `the rope of row ${n}`);
    const shown = noticeLines(readNotices([row(2), row(3), row(4)]));
    expect(shown).toBe(
      '  - transects.csv row 2: the rope of row 2 … and 2 more like it (rows 3, 4)',
    );
  });

  it('say how many are not shown', () => {
    const many = Array.from({ length: 26 }, (_, i) =>
      noticeAt({ table: 'habitat.csv', row: 2 }, `c${i % 13}`, 'm'),
    );
    expect(noticeLines(readNotices(many))?.split('\n').at(-1)).toBe(
      '  - … and 6 of other kinds: see warnings.csv',
    );
    expect(noticeLines(readNotices([]))).toBeNull();
  });
});

describe('text', () => {
  it('wraps at spaces and leaves a long word whole', () => {
    expect(wrap('aa bb cc', '  ', '    ', 8)).toBe('  aa bb\n    cc');
    expect(wrap('abcdefghij k', '', '', 4)).toBe('abcdefghij\nk');
  });

  it('aligns columns without space at the end', () => {
    expect(
      columns(
        [
          ['a', 'b'],
          ['ccc', ''],
        ],
        ['left', 'right'],
      ),
    ).toBe('a    b\nccc');
  });
});
