/** Mutations of analysis.json: choices at their limits and beyond, other types, spoilt objects. */

import type { Random } from '../../../models/numbers/random.ts';
import { CHOICES, type Choice } from '../../../shared/analysis.ts';
import { type Mutation, NUMBERS, one, setText, textOf, WORDS } from './draw.ts';

const FILE = 'analysis.json';

/** Values of the right type, but of any size; a lawful one half of the time. */
const choice: Mutation = (random, files) => {
  const asked = one(random, CHOICES);
  const value = textFor(random, asked);
  const text = files.has(FILE) ? textOf(files, FILE) : '{}';
  setText(files, FILE, withChoice(text, asked.path, value));
  return `${FILE} ${asked.path}: ${value.slice(0, 60)}`;
};

/** As JSON text: 1e400 is no number of ours, but of a file. */
function textFor(random: Random, { type, choices, min = 0, max = 10 }: Choice): string {
  if (random.integer(4) === 0) return other(random);
  if (choices !== undefined) return JSON.stringify(one(random, choices));
  if (type === 'flag') return one(random, ['true', 'false']);
  if (type === 'text') return JSON.stringify(one(random, WORDS));
  if (type === 'classes')
    return JSON.stringify(Array.from({ length: random.integer(4) }, () => one(random, WORDS)));
  if (type === 'limits')
    return one(random, ['[0, 0.25, 0.75, 1]', '[0, 0.5, 100]', '[0, 0.5, 0.5]', '[]']);
  if (random.integer(3) === 0) return String(min + random.uniform() * Math.min(max - min, 10));
  return one(random, [...NUMBERS, '0.9999999999999999', '0.5', '2', '7', '1e5']);
}

function other(random: Random): string {
  return one(random, [
    'null',
    'true',
    '"x"',
    '[]',
    '{}',
    '[1]',
    '{"a":{"b":[]}}',
    '"1"',
    ...NUMBERS,
  ]);
}

/** The text with one choice set: by hand, so that what JSON cannot hold comes through. */
function withChoice(text: string, path: string, value: string): string {
  const [section = '', key] = path.split('.');
  const member =
    key === undefined ? `"${section}": ${value}` : `"${section}": { "${key}": ${value} }`;
  let rest: string;
  try {
    const kept = JSON.parse(text) as Record<string, unknown>;
    delete kept[section];
    rest = JSON.stringify(kept).slice(1, -1);
  } catch {
    return `{ ${member} }`; // spoilt by an earlier mutation, or too deep
  }
  return `{ ${rest}${rest === '' ? '' : ', '}${member} }`;
}

const object: Mutation = (random, files) => {
  const deep = one(random, [50, 5000, 100_000]);
  const texts = [
    '[]',
    'null',
    '7',
    '"x"',
    '{',
    '{ "lake": }',
    '{ "__proto__": { "seed": 3 } }',
    '{ "__proto__": { "__proto__": 1 }, "density": { "__proto__": null } }',
    '{ "constructor": { "prototype": { "x": 1 } } }',
    '{ "density": { "constructor": 1, "toString": 2, "hasOwnProperty": 3 } }',
    '{ "seed": 1, "seed": 2 }',
    '{ "map": { "cell_m": 5 }, "map": { "cell_m": 10 } }',
    '{ "map": { "cell_m": 5, "cell_\\u006d": 10 } }',
    `${'['.repeat(deep)}${']'.repeat(deep)}`,
    `{ "density": ${'{"a":'.repeat(deep)}1${'}'.repeat(deep)} }`,
    `{ "lake": "${'x'.repeat(20 * deep)}" }`,
    `{ ${Array.from({ length: 500 }, (_, k) => `"k${k}": ${k}`).join(', ')} }`,
    `{ "substrates": ${JSON.stringify(Array.from({ length: 3000 }, (_, k) => `class ${k}`))} }`,
  ];
  setText(files, FILE, one(random, texts));
  return `${FILE}: ${textOf(files, FILE).slice(0, 60)}`;
};

export const CHOICE_MUTATIONS: Record<string, Mutation> = { choice, object };
