/** The methods paragraph: facts of the hand-made result by hand, and no reference that models/METHOD.md does not list. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import packageJson from '../../package.json' with { type: 'json' };
import { VERSION } from '../../shared/version.ts';
import { readMethods } from '../../src/present/methods-paragraph.ts';
import { REFERENCES } from '../../src/present/references.ts';
import { handMadeResult, nothingFound, withoutLake } from '../helpers/result.ts';

const METHOD = readFileSync(join(import.meta.dirname, '../../models/METHOD.md'), 'utf8');

describe('methods paragraph', () => {
  const { paragraph, references, text } = readMethods(handMadeResult());

  it.each([
    'Mussels of Quillback Lake were surveyed on 1 belt transect and 1 distance transect (2026-07-01 to 2026-07-04; 60.0 m² searched',
    '3 detected clusters held 12 mussels.',
    'negative binomial (NB1) count regression (Cameron & Trivedi 1998)',
    'dependent double-observer (removal) survey (Cook & Jacobson 1979; Nichols et al. 2000)',
    'The model (NB1) was chosen from 2 by AICc (Hurvich & Tsai 1989).',
    '(14.8 ha, 0.5 to 6.1 m deep)',
    '184,000 mussels (95 % confidence interval 121,000 to 279,000)',
    `Computed with Shoalwise ${packageJson.version} (random seed 1; all settings at their defaults).`,
  ])('says: %s', (words) => {
    expect(paragraph).toContain(words.replace('60.0 m²', '60 m²'));
  });

  it('lists what it cites and nothing else, under it', () => {
    const cited = Object.entries(REFERENCES).filter(([work]) => paragraph.includes(work));
    expect(references).toEqual(cited.map(([, entry]) => entry));
    expect(references.length).toBeGreaterThan(4);
    expect(text).toBe(`${paragraph}\n\nReferences\n${references.join('\n')}\n`);
  });

  it('names each setting that is not the default', () => {
    const result = handMadeResult();
    result.analysis.density.depth_df = 4;
    result.analysis.seed = 7;
    expect(readMethods(result).paragraph).toContain(
      '(random seed 7; settings other than the defaults: degrees of freedom 4).',
    );
  });

  it('cites the detection function and the random effect where they are used', () => {
    const result = handMadeResult();
    result.estimate.model.transect_effect = true;
    result.estimate.detection = { ...result.estimate.detection!, shape: 'hazard-rate' };
    const said = readMethods(result).paragraph;
    expect(paragraph).not.toContain('Buckland');
    expect(said).toContain(
      'hazard-rate detection function (Buckland et al. 2001) under point independence (Laake & Borchers 2004; Borchers et al. 2006)',
    );
    expect(said).toContain('(Liu & Pierce 1994)');
  });

  it('has no model where nothing was detected, and no total without a lake', () => {
    const none = readMethods(nothingFound());
    expect(none.paragraph).toContain('No model was fitted');
    expect(none.references).toHaveLength(1);
    expect(readMethods(withoutLake()).paragraph).not.toContain('summed over');
  });

  it('is of the version that package.json names', () => {
    expect(VERSION).toBe(packageJson.version);
  });

  it.each(Object.values(REFERENCES))('METHOD.md lists: %s', (entry) => {
    expect(METHOD.replaceAll('*', '')).toContain(entry);
  });
});
