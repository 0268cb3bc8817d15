/** Every error of analysis.json can be dealt with in the page, and what was done comes back byte for byte. */

import { describe, expect, it } from 'vitest';
import type { Work } from '../../src/app/contract.ts';
import { makeEdit, takeBack } from '../../src/app/state/edits.ts';
import { remediesFor } from '../../src/app/state/remedies.ts';
import { readFolder } from '../../src/read/index.ts';

function work(json: string): Work {
  const files = new Map([['analysis.json', new TextEncoder().encode(json)]]);
  return { name: 'pond', files, edits: [] };
}
const textOf = (w: Work) => new TextDecoder().decode(w.files.get('analysis.json'));
const errorsOf = async (w: Work) =>
  (await readFolder(w)).findings.filter(
    (f) => f.table === 'analysis.json' && f.severity === 'error',
  );
async function offered(json: string) {
  const w = work(json);
  const [first] = await errorsOf(w);
  return first === undefined ? [] : remediesFor(first, w);
}
/** What stands in the file after the remedy of that name; spaces taken out. */
async function textAfter(json: string, words: string): Promise<string> {
  const remedy = (await offered(json)).find((r) => r.words === words);
  if (remedy === undefined) return `no remedy ${words}`;
  return textOf(makeEdit(work(json), { ...remedy.edit, at: '' })).replace(/\s/g, '');
}

describe('a key that is not known', () => {
  it.each([
    [
      '{"density": {"familly": "nb1", "depth": "linear"}}',
      'Rename it to density.family',
      '{"density":{"family":"nb1","depth":"linear"}}',
    ],
    ['{"seeds": 7, "interval": 0.9}', 'Rename it to seed', '{"seed":7,"interval":0.9}'],
    [
      '{"family": "nb1", "density": {"depth": "linear"}}',
      'Rename it to density.family',
      '{"density":{"depth":"linear","family":"nb1"}}',
    ],
    ['{"density.family": "nb1"}', 'Rename it to density.family', '{"density":{"family":"nb1"}}'],
    ['{"colour": "red", "seed": 2}', 'Remove colour', '{"seed":2}'],
    ['{"map": {"colour": 1, "cell_m": 10}}', 'Remove map.colour', '{"map":{"cell_m":10}}'],
  ])('%s: %s', async (json, words, expected) => {
    expect(await textAfter(json, words)).toBe(expected);
  });

  it('is not renamed to one that stands there already', async () => {
    const remedies = await offered('{"density": {"familly": "nb1", "family": "nb2"}}');
    expect(remedies.map((r) => r.words)).toEqual(['Remove density.familly']);
  });
});

describe('a value that is not allowed', () => {
  it('is set to its default, which is named', async () => {
    const remedies = await offered('{"interval": "0.9", "seed": 3}');
    expect(remedies.map((r) => r.words)).toEqual(['Set it to the default, 0.95']);
    expect(await textAfter('{"interval": "0.9", "seed": 3}', 'Set it to the default, 0.95')).toBe(
      '{"seed":3}',
    );
  });

  it('is set to the nearest of those listed', async () => {
    const json = '{"density": {"depth": "quadratc"}}';
    expect(await textAfter(json, 'Set it to quadratic')).toBe('{"density":{"depth":"quadratic"}}');
  });
});

describe('every error', () => {
  it.each([
    '{"density": {"familly": "nb1"}}',
    '{"family": "nb1", "density": {"depth": "linear"}}',
    '{"density.family": "nb1"}',
    '{"seed": 1, "seed": 2}',
    '{"density": 5}',
    '{"interval": 95}',
    '{"interval": "0.9"}',
    '{"density": {"family": "nb"}}',
    '{"density": {"transect_effect": "true "}}',
    '{"segments": {"max_length_m": 0}}',
    '{"lake": {"name": "Pond"}}',
    '{"substrates": "mud, silt"}',
    '{"substrates": []}',
    '{"substrates": ["mud", "Mud"]}',
    '{"__proto__": 1}',
    '{"a\\u0007b": 1}',
    `{"${'x'.repeat(100)}": 1}`,
    '[]',
    '{"seed": 1,}',
    '',
    `{${Array.from({ length: 30 }, (_, i) => `"odd${i}": ${i}`).join(', ')}}`,
  ])(
    '%s is gone after one or several remedies, and undone the file is what it was',
    async (json) => {
      let now = work(json);
      for (
        let errors = await errorsOf(now), n = 0;
        errors.length > 0;
        errors = await errorsOf(now)
      ) {
        expect(n++).toBeLessThan(40);
        const [remedy] = remediesFor(errors.at(-1)!, now);
        expect(remedy, errors.at(-1)!.message).toBeDefined();
        now = makeEdit(now, { ...remedy!.edit, at: '' });
      }
      for (let back = takeBack(now); back !== null; back = takeBack(now)) now = back.work;
      const same = textOf(now) === json;
      // a single value is put back in its place; only the spacing of the file may differ then
      if (!same) expect(JSON.parse(textOf(now))).toEqual(JSON.parse(json));
    },
  );
});
