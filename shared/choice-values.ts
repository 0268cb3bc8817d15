/** Values of the choices of analysis.json: what a file may hold at each, and how they nest. */

import { type Analysis, CHOICES, type Choice, DEFAULT_ANALYSIS } from './analysis.ts';
import { SECTIONS } from './choice-keys.ts';

export type ChoiceValue = string | number | boolean | readonly number[] | null;

/** Dotted key of analysis.json → value. */
export type ChoiceValues = Readonly<Record<string, ChoiceValue>>;

/** Choices that an analysis can have otherwise on the same survey: not the lake's name and the classes. */
export const VARIABLE: readonly string[] = CHOICES.filter(
  ({ type }) => type !== 'text' && type !== 'classes',
).map(({ path }) => path);

/** Distances are measured to 1 cm at best, on strips of a metre or two. */
export const MOST_LIMITS = 200;

/** Whether a number lies within the limits of its choice. */
export function isWithin({ type, min, max, above, below }: Choice, value: number): boolean {
  return (
    Number.isFinite(value) &&
    (type !== 'whole' || Number.isSafeInteger(value)) &&
    value >= (min ?? value) &&
    value <= (max ?? value) &&
    (above === undefined || value > above) &&
    (below === undefined || value < below)
  );
}

/** Whether a value of a file is one that the choice can have, written as the program writes it. */
export function isAllowed(choice: Choice, value: unknown): value is ChoiceValue {
  if (value === null) return choice.nullMeans !== undefined;
  switch (choice.type) {
    case 'flag':
      return typeof value === 'boolean';
    case 'choice':
      return (choice.choices ?? []).some((listed) => listed === value);
    case 'number':
    case 'whole':
      return typeof value === 'number' ? isWithin(choice, value) : value === (choice.word ?? null);
    case 'limits':
      return areLimits(choice, value);
    default:
      return false;
  }
}

/** Limits of classes: at least two classes, ascending from 0. */
export function areLimits({ max }: Choice, value: unknown): value is number[] {
  return (
    Array.isArray(value) &&
    value.length >= 3 &&
    value.length <= MOST_LIMITS &&
    value[0] === 0 &&
    value.every(
      (limit: unknown, i) =>
        typeof limit === 'number' &&
        Number.isFinite(limit) &&
        limit <= (max ?? limit) &&
        (i === 0 || limit > value[i - 1]),
    )
  );
}

/** Whether two values of a choice are the same; lists are so by what they hold. */
export function isSame(a: unknown, b: unknown): boolean {
  return (
    a === b || (Array.isArray(a) && Array.isArray(b) && JSON.stringify(a) === JSON.stringify(b))
  );
}

/** The value of a choice; `path` is its dotted key. */
export function valueAt(analysis: Analysis, path: string): ChoiceValue {
  let value: unknown = analysis;
  for (const key of path.split('.')) value = (value as Record<string, unknown>)[key];
  return value as ChoiceValue;
}

/** `density.family` and others → objects in objects, as analysis.json has them. */
export function nested(values: ChoiceValues): Record<string, unknown> {
  const root: Record<string, unknown> = {};
  for (const [path, value] of Object.entries(values)) {
    const [first, second] = path.split('.');
    if (second === undefined) root[first] = value;
    else root[first] = { ...(root[first] as object | undefined), [second]: value };
  }
  return root;
}

/** The other way: dotted keys → values as they stand, known or not. */
export function flat(root: Record<string, unknown>): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(root).flatMap(([key, value]): [string, unknown][] =>
      SECTIONS.has(key) && isSection(value)
        ? Object.entries(value).map(([inner, own]) => [`${key}.${inner}`, own])
        : [[key, value]],
    ),
  );
}

/**
 * analysis.json with these choices, each that is not named at its default. A key that says so already stays as it is written;
 * others are set, or taken out where the default is wanted. What a variant cannot have otherwise stays.
 * @param before the file as an object
 */
export function analysisWith(
  before: Record<string, unknown>,
  choices: ChoiceValues,
): Record<string, unknown> {
  const after = structuredClone(before);
  const standing = flat(before);
  for (const path of VARIABLE) {
    const standard = valueAt(DEFAULT_ANALYSIS, path);
    const wanted = path in choices ? choices[path] : standard;
    const stands = path in standing ? standing[path] : standard;
    if (!isSame(stands, wanted)) put(after, path, isSame(wanted, standard) ? undefined : wanted);
  }
  return after;
}

/** Undefined takes the key out, and a section that is left empty with it. */
function put(root: Record<string, unknown>, path: string, value: ChoiceValue | undefined): void {
  const [first, second] = path.split('.');
  if (second === undefined) {
    if (value === undefined) delete root[first];
    else root[first] = value;
    return;
  }
  const section = isSection(root[first]) ? root[first] : {};
  if (value === undefined) delete section[second];
  else section[second] = value;
  if (Object.keys(section).length === 0) delete root[first];
  else root[first] = section;
}

function isSection(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
