/**
 * Variants of an analysis, kept beside it in variants.json: choices under a name, with what they gave when they were last
 * estimated. No number of an estimate depends on them; what cannot be read is told and left as it is.
 */

import { CHOICES, DEPTH_FORMS, type DepthForm } from './analysis.ts';
import type { CheckName, Verdict } from './checks.ts';
import { type ChoiceValues, flat, isAllowed, nested, VARIABLE } from './choice-values.ts';
import type { Family, Shape } from './estimate.ts';
import { formatCount } from './units.ts';
import { quoted } from './words.ts';

export const VARIANTS_FILE = 'variants.json';
const SCHEMA = 'shoalwise/variants/1';

/** Some thousands are usual; a longer file holds something else. */
const MOST_CHARACTERS = 1_000_000;
export const MOST_VARIANTS = 100;
export const LONGEST_NAME = 80;

/** What the choices gave. Comparable with others of the same files and version. */
export interface VariantOutcome {
  version: string;
  /** of the survey's files, choices aside */
  data: string;
  /** the best model, and over how many the total was averaged (1 where it rests on that one) */
  model: {
    family: Family;
    transect_effect: boolean;
    shape: Shape | null;
    depth: DepthForm | null;
    depth_df: number | null;
    averaged_over: number;
  };
  /** null where it does not exist */
  aicc: number | null;
  /** null without a number for the lake */
  total: {
    of: 'mussels' | 'clusters';
    estimate: number;
    se: number | null;
    lower: number | null;
    upper: number | null;
  } | null;
  /** null when the model was not checked */
  checks: { name: CheckName; verdict: Verdict }[] | null;
}

export interface Variant {
  name: string;
  /** of those of analysis.json that a variant can have otherwise; one that is not named has its default */
  choices: ChoiceValues;
  /** null when it was never estimated, or gave no estimate */
  outcome: VariantOutcome | null;
}

export interface PlacedVariant extends Variant {
  /** its place in the file's list, from 1 */
  place: number;
}

const BY_PATH = new Map(CHOICES.map((choice) => [choice.path, choice]));

/** The entries of the file's list as they stand, one by one; what is wrong with the file as a whole in words. Never throws. */
export function variantEntries(text: string): { entries: unknown[] } | { problem: string } {
  if (text === '') return { entries: [] };
  if (text.length > MOST_CHARACTERS)
    return {
      problem: `more than ${formatCount(MOST_CHARACTERS)} characters (some thousands expected)`,
    };
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return { problem: 'not valid JSON' };
  }
  if (!isObject(json) || json.schema !== SCHEMA || !Array.isArray(json.variants))
    return { problem: `no list of variants (schema ${SCHEMA} expected)` };
  if (json.variants.length > MOST_VARIANTS)
    return {
      problem: `${json.variants.length} variants (at most ${MOST_VARIANTS} expected)`,
    };
  return { entries: json.variants };
}

/** The variants that can be read, and what is wrong with the others, each in words. Never throws. */
export function parseVariants(text: string): { variants: PlacedVariant[]; problems: string[] } {
  const read = variantEntries(text);
  if ('problem' in read) return { variants: [], problems: [read.problem] };
  const variants: PlacedVariant[] = [];
  const problems: string[] = [];
  read.entries.forEach((entry, i) => {
    const variant = variantOf(entry);
    if (typeof variant === 'string') problems.push(`variant ${i + 1}: ${variant}`);
    else if (variants.some((v) => v.name === variant.name))
      problems.push(`variant ${i + 1}: the name ${quoted(variant.name)} stands there already`);
    else variants.push({ ...variant, place: i + 1 });
  });
  return { variants, problems };
}

/** A variant as an entry of the file. */
export function variantEntry({ name, choices, outcome }: Variant): Record<string, unknown> {
  return { name, choices: nested(choices), outcome };
}

/** The file; blank when there is nothing to write. */
export function variantsText(entries: readonly unknown[]): string {
  return entries.length === 0
    ? ''
    : `${JSON.stringify({ schema: SCHEMA, variants: entries }, null, 2)}\n`;
}

/** The variant, or what is wrong with it. */
function variantOf(value: unknown): Variant | string {
  if (!isObject(value)) return 'an object { … } expected';
  const name = typeof value.name === 'string' ? value.name.trim() : '';
  if (name === '' || name.length > LONGEST_NAME)
    return `no name (1 to ${LONGEST_NAME} characters expected)`;
  if (!isObject(value.choices)) return 'no choices (an object { … } as analysis.json expected)';
  const choices: Record<string, ChoiceValues[string]> = {};
  for (const [path, own] of Object.entries(flat(value.choices))) {
    const choice = BY_PATH.get(path);
    if (choice === undefined || !VARIABLE.includes(path))
      return `choices: ${quoted(path)} is none that a variant can have`;
    if (!isAllowed(choice, own)) return `choices: the value of ${path} is not allowed`;
    choices[path] = own;
  }
  if (value.outcome === null || value.outcome === undefined)
    return { name, choices, outcome: null };
  const outcome = outcomeOf(value.outcome);
  return outcome === null ? 'an outcome that cannot be read' : { name, choices, outcome };
}

const FAMILIES: readonly Family[] = ['poisson', 'nb1', 'nb2'];
const SHAPES: readonly (Shape | null)[] = ['half-normal', 'hazard-rate', null];
const VERDICTS: readonly Verdict[] = ['holds', 'saturated', 'doubtful', 'fails'];
const COUNTED = ['mussels', 'clusters'] as const;
/** Every check by its name, or the types do not hold. */
const CHECKS: Readonly<Record<CheckName, true>> = {
  observer: true,
  transect: true,
  'perpendicular-distance': true,
  substrate: true,
  depth: true,
  'cluster-size': true,
  overdispersion: true,
  residuals: true,
  'spatial-autocorrelation': true,
  influence: true,
  'design-based': true,
};
const CHECK_NAMES = Object.keys(CHECKS) as CheckName[];

/** Null when anything in it is not as expected. */
function outcomeOf(value: unknown): VariantOutcome | null {
  if (!isObject(value)) return null;
  const { version, data, aicc } = value;
  const [model, total, checks] = [
    modelOf(value.model),
    totalOf(value.total),
    checksOf(value.checks),
  ];
  if (typeof version !== 'string' || typeof data !== 'string' || !isFiniteOrNull(aicc)) return null;
  if (model === undefined || total === undefined || checks === undefined) return null;
  return { version, data, model, aicc, total, checks };
}

function modelOf(value: unknown): VariantOutcome['model'] | undefined {
  if (!isObject(value)) return undefined;
  const { family, transect_effect, shape, depth, depth_df, averaged_over } = value;
  return isOneOf(FAMILIES, family) &&
    isOneOf(SHAPES, shape) &&
    typeof transect_effect === 'boolean' &&
    isOneOf([...DEPTH_FORMS, null], depth) &&
    isNumberOrNull(depth_df) &&
    isNumber(averaged_over)
    ? { family, transect_effect, shape, depth, depth_df, averaged_over }
    : undefined;
}

function totalOf(value: unknown): VariantOutcome['total'] | undefined {
  if (value === null) return null;
  if (!isObject(value)) return undefined;
  const { of, estimate, se, lower, upper } = value;
  return isOneOf(COUNTED, of) &&
    isNumber(estimate) &&
    isNumberOrNull(se) &&
    isNumberOrNull(lower) &&
    isNumberOrNull(upper)
    ? { of, estimate, se, lower, upper }
    : undefined;
}

function checksOf(value: unknown): VariantOutcome['checks'] | undefined {
  if (value === null) return null;
  if (!Array.isArray(value)) return undefined;
  const checks = value.flatMap((c: unknown) =>
    isObject(c) && isOneOf(CHECK_NAMES, c.name) && isOneOf(VERDICTS, c.verdict)
      ? [{ name: c.name, verdict: c.verdict }]
      : [],
  );
  return checks.length === value.length ? checks : undefined;
}

function isOneOf<T>(list: readonly T[], value: unknown): value is T {
  return (list as readonly unknown[]).includes(value);
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Counts and sums are never negative. */
function isNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value) && value >= 0;
}

function isNumberOrNull(value: unknown): value is number | null {
  return value === null || isNumber(value);
}

function isFiniteOrNull(value: unknown): value is number | null {
  return value === null || (typeof value === 'number' && Number.isFinite(value));
}
