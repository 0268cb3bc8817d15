/**
 * Numbers in, numbers out: models/ hold no sentences. What they meet is told in records (shared/model-notices.ts), and the
 * sentences are made in shared/sentences and src/present. Messages of thrown errors may say what was got and expected.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { textsOf } from './texts.ts';

const ROOT = new URL('../../', import.meta.url);

const sources = readdirSync(new URL('models/', ROOT), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => `models/${name.replaceAll('\\', '/')}`);

/** Literals of three words or more, as `line: text`; an expression inside of a template is no word. */
function sentencesOf(path: string, source: string): string[] {
  return textsOf(path, source)
    .filter(({ text }) => text.split(/\s+/).filter((word) => /\p{L}/u.test(word)).length >= 3)
    .map(({ text, line }) => `${line}: ${text}`);
}

describe('models hold no sentences', () => {
  it('are all read', () => {
    expect(sources.length).toBeGreaterThan(30);
  });

  it.each(sources)('%s', (path) => {
    expect(sentencesOf(path, readFileSync(new URL(path, ROOT), 'utf8'))).toEqual([]);
  });
});

describe('the rule', () => {
  const PATH = 'models/any.ts';

  it.each([
    ['a literal', "const why = 'nothing was detected';", '1: nothing was detected'],
    ['a template', `const why = \`nothing detected on \${name}\`;`, '1: nothing detected on …'],
    [
      'a word on either side of what is put in',
      `\nconst why = \`on \${name} transects nothing\`;`,
      '2: on … transects nothing',
    ],
    [
      'a message that is made before it is thrown',
      "const message = 'got no transect';\nthrow new RangeError(message);",
      '1: got no transect',
    ],
  ])('catches %s', (_, source, told) => {
    expect(sentencesOf(PATH, source)).toEqual([told]);
  });

  it.each([
    [
      'the message of a thrown error',
      `throw new RangeError(\`got \${n} transects, expected one\`);`,
    ],
    ['a type', "type Reason = 'no further rise';"],
    ['a comment', '// nothing was detected here\nconst n = 1;'],
    ['names and codes', `const code = 'nothing-found'; const term = \`plant_cover:\${v}\`;`],
    ['an import', "import { x } from '../some folder/x y z.ts';"],
  ])('lets pass %s', (_, source) => {
    expect(sentencesOf(PATH, source)).toEqual([]);
  });
});
