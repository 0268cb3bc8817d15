/** Labels take their terms from shared/glossary.ts: held over all that shows something, and shown to catch what does not. */

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { GLOSSARY } from '../../shared/glossary.ts';
import { wordsAgainstTheRule } from './labels.ts';

const ROOT = join(import.meta.dirname, '../..');

const shown = ['src/app', 'src/cli', 'src/publish', 'src/present']
  .filter((folder) => existsSync(join(ROOT, folder)))
  .flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.tsx?$/.test(name))
      .map((name) => `${folder}/${name.replaceAll('\\', '/')}`),
  );

describe('words that people read', () => {
  it.each(shown)('%s', (path) => {
    expect(wordsAgainstTheRule(path, readFileSync(join(ROOT, path), 'utf8'))).toEqual([]);
  });
});

describe('the rule catches', () => {
  it.each([
    ['a label that spells a term', "export const title = 'Searched area';", 'searchedArea'],
    ['a plural', "const columns = [{ title: 'Transects' }];", 'transect'],
    ['a label in JSX', 'const x = <h2>Detection probability</h2>;', 'detectionProbability'],
    ['a counted noun', `const x = \`$\{n} transects\`;`, 'transect'],
    ['a spoken label', '<div aria-label="Depth band" />;', 'depthBand'],
    ['another name for a term', "const s = 'On this rope nothing was detected.';", 'transect'],
    [
      'another name inside of a template',
      `const s = \`$\{n} of the offsets are at 0\`;`,
      'perpendicular',
    ],
    ['a gendered observer', "const s = 'what he missed is not in this number';", 'they'],
  ])('%s', (_, source, says) => {
    const wrong = wordsAgainstTheRule('src/app/case.tsx', source);
    expect(wrong).toHaveLength(1);
    expect(wrong[0]).toContain(says);
  });

  it('and lets through what is not for people, and sentences that use the terms', () => {
    const fine = [
      "import x from './transects.ts';",
      "const key = 'transect'; const file = 'transects.csv'; const column = 'offset_m';",
      'const x = <p className="depth band">…</p>;',
      "throw new Error('got no transect, expected one');",
      "const s = 'Every transect that was searched counts, also those without a detection.';",
      "type T = 'Searched area';",
    ];
    for (const source of fine) expect(wordsAgainstTheRule('src/app/case.tsx', source)).toEqual([]);
  });
});

describe('the glossary', () => {
  it('has no two entries with one term', () => {
    const terms = Object.values(GLOSSARY).map((e) => e.term);
    expect(new Set(terms).size).toBe(terms.length);
  });

  it('has glosses that are phrases, not sentences', () => {
    for (const { gloss } of Object.values(GLOSSARY))
      if (gloss !== null) expect(gloss).toMatch(/^[^\p{Lu}].*[^.]$/u);
  });
});
