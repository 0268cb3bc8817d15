/** analysis.json → the choices, merged with the defaults. Strict: a key or value that is not known is an error. */

import { type Analysis, CHOICES, type Choice, DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { errorAt, type Finding } from '../../shared/findings.ts';
import { listed, nearest, quoted, visible } from '../../shared/words.ts';
import { decodeText } from './text.ts';

export const ANALYSIS_FILE = 'analysis.json';
const BY_PATH = new Map(CHOICES.map((choice) => [choice.path, choice]));
const SECTIONS = new Set(
  CHOICES.filter(({ path }) => path.includes('.')).map(({ path }) => path.split('.')[0]!),
);

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

export interface AnalysisRead {
  analysis: Analysis;
  findings: Finding[];
  /** false when the list of classes could not be read: then no class of the tables can be judged */
  classesKnown: boolean;
}

/** `bytes` undefined: no such file, all defaults. A choice with a fault keeps its default. Never throws. */
export function readAnalysis(bytes: Uint8Array | undefined, folderName: string): AnalysisRead {
  const analysis = structuredClone(DEFAULT_ANALYSIS);
  analysis.lake = folderName;
  if (bytes === undefined) return { analysis, findings: [], classesKnown: true };
  const parsed = parseJson(bytes);
  if ('findings' in parsed) return { analysis, findings: parsed.findings, classesKnown: false };
  const findings: Finding[] = [];
  if (isObject(parsed.json)) readObject(parsed.json, '', analysis, findings);
  else findings.push(wrongType(null, parsed.json, 'an object { … }'));
  const classesKnown = !findings.some(({ column }) => column === null || column === 'substrates');
  return { analysis, findings, classesKnown };
}

function parseJson(bytes: Uint8Array): { json: Json } | { findings: Finding[] } {
  const decoded = decodeText(bytes, ANALYSIS_FILE);
  if (decoded.text === null) return { findings: decoded.findings };
  try {
    return { json: JSON.parse(decoded.text) as Json };
  } catch (thrown) {
    const message = `not valid JSON${whereBroken(String(thrown), decoded.text)}`;
    return { findings: [errorAt({ table: ANALYSIS_FILE }, 'invalid-json', message)] };
  }
}

/** Engines word the fault differently; the position, where they give one, is turned into line and column. */
function whereBroken(thrown: string, text: string): string {
  const position = /position (\d+)/.exec(thrown);
  if (position === null)
    return /end of JSON/i.test(thrown) ? ': it ends before it is complete' : '';
  const before = text.slice(0, Number(position[1])).split('\n');
  return `: fault at line ${before.length}, character ${before.at(-1)!.length + 1}`;
}

function readObject(
  object: { [key: string]: Json },
  section: string,
  analysis: Analysis,
  findings: Finding[],
): void {
  for (const [key, value] of Object.entries(object)) {
    const path = section === '' ? key : `${section}.${key}`;
    const choice = BY_PATH.get(path);
    if (choice !== undefined && !(section === '' && key.includes('.'))) {
      const problem = readChoice(choice, value, analysis);
      if (problem !== null) findings.push(...problem);
    } else if (section === '' && SECTIONS.has(key)) {
      if (isObject(value)) readObject(value, key, analysis, findings);
      else findings.push(wrongType(key, value, 'an object { … }'));
    } else findings.push(unknownKey(section, key, path));
  }
}

function unknownKey(section: string, key: string, path: string): Finding {
  const siblings = [...BY_PATH.keys(), ...SECTIONS]
    .filter((known) => known.includes('.') === (section !== ''))
    .filter((known) => section === '' || known.startsWith(`${section}.`));
  const elsewhere = [...BY_PATH.keys()].find((known) => known.split('.').at(-1) === key);
  const close = nearest(path, siblings) ?? elsewhere ?? null;
  const hint = close === null ? '' : `; did you mean ${close}?`;
  const spot = { table: ANALYSIS_FILE, column: visible(path) };
  return errorAt(spot, 'unknown-key', `unknown key ${quoted(key)}${hint}`);
}

/** Writes the value into the analysis, or tells what is wrong with it. */
function readChoice(choice: Choice, value: Json, analysis: Analysis): Finding[] | null {
  if (value === null) {
    if (choice.nullMeans === undefined) return [wrongType(choice.path, value, expected(choice))];
    return write(analysis, choice.path, null);
  }
  switch (choice.type) {
    case 'text':
      if (typeof value !== 'string') break;
      return value.trim() === '' ? null : write(analysis, choice.path, value.trim());
    case 'flag':
      if (typeof value !== 'boolean') break;
      return write(analysis, choice.path, value);
    case 'choice':
      return readListed(choice, value, analysis);
    case 'classes':
      if (!Array.isArray(value)) break;
      return readClassList(choice, value, analysis);
    default:
      if (typeof value !== 'number') break;
      return readNumber(choice, value, analysis);
  }
  return [wrongType(choice.path, value, expected(choice))];
}

function readListed(choice: Choice, value: Json, analysis: Analysis): Finding[] | null {
  const choices = choice.choices ?? [];
  const typed = typeof value === 'string' ? value.trim().toLowerCase() : value;
  const found = choices.find((listedValue) => listedValue === typed);
  if (found !== undefined) return write(analysis, choice.path, found);
  const ofOneType = choices.every((listedValue) => typeof listedValue === 'string');
  if (typeof value === 'string' || (typeof value === 'boolean' && !ofOneType)) {
    const message = `${shown(value)} is none of the listed values (${expected(choice)} expected)`;
    return [errorAt({ table: ANALYSIS_FILE, column: choice.path }, 'not-listed', message)];
  }
  return [wrongType(choice.path, value, expected(choice))];
}

function readNumber(choice: Choice, value: number, analysis: Analysis): Finding[] | null {
  const { min, max, above, below } = choice;
  const off =
    !Number.isFinite(value) ||
    (choice.type === 'whole' && !Number.isSafeInteger(value)) ||
    value < (min ?? value) ||
    value > (max ?? value) ||
    (above !== undefined && value <= above) ||
    (below !== undefined && value >= below);
  if (!off) return write(analysis, choice.path, value);
  const message = `${value} is out of range (${expected(choice)} expected)`;
  return [errorAt({ table: ANALYSIS_FILE, column: choice.path }, 'out-of-range', message)];
}

/** Class names are trimmed; two that differ in case only are one class twice. */
function readClassList(choice: Choice, value: Json[], analysis: Analysis): Finding[] | null {
  const spot = { table: ANALYSIS_FILE, column: choice.path };
  const findings: Finding[] = [];
  const names: string[] = [];
  if (value.length === 0) {
    findings.push(
      errorAt(spot, 'bad-class-name', 'the list is empty; at least one class expected'),
    );
  }
  value.forEach((entry, i) => {
    const which = `entry ${i + 1}`;
    if (typeof entry !== 'string') {
      const message = `${which}: ${shown(entry)} is not a text (class names expected)`;
      findings.push(errorAt(spot, 'wrong-type', message));
      return;
    }
    const name = entry.trim();
    if (name === '' || name.includes('+')) {
      const message = `${which}: ${quoted(entry)} is no class name (a name, not blank and without +, expected)`;
      findings.push(errorAt(spot, 'bad-class-name', message));
    } else if (names.some((known) => known.toLowerCase() === name.toLowerCase())) {
      const message = `${which}: the class ${quoted(name)} is repeated (each class once expected, whatever its case)`;
      findings.push(errorAt(spot, 'repeated-class', message));
    } else names.push(name);
  });
  return findings.length > 0 ? findings : write(analysis, choice.path, names);
}

function wrongType(path: string | null, value: Json, what: string): Finding {
  const spot = { table: ANALYSIS_FILE, column: path };
  return errorAt(spot, 'wrong-type', `${shown(value)} is of the wrong type (${what} expected)`);
}

/** What may stand at a key, in words. */
function expected(choice: Choice): string {
  const orNull = choice.nullMeans === undefined ? '' : ` or null (${choice.nullMeans})`;
  if (choice.type === 'flag') return 'true or false';
  if (choice.type === 'text') return 'a text';
  if (choice.type === 'classes') return 'a list of class names';
  if (choice.type === 'choice') {
    return `${listed((choice.choices ?? []).map((value) => JSON.stringify(value)))}${orNull}`;
  }
  return `${choice.type === 'whole' ? 'a whole number' : 'a number'}${limits(choice)}${orNull}`;
}

function limits({ min, max, above, below, unit }: Choice): string {
  const of = unit === undefined ? '' : ` of ${unit}`;
  if (min !== undefined && max !== undefined) return `${of} from ${min} to ${max}`;
  if (above !== undefined && below !== undefined) return `${of} between ${above} and ${below}`;
  if (above !== undefined) return `${of} above ${above}`;
  return min === undefined ? of : `${of}, at least ${min}`;
}

function shown(value: Json): string {
  if (typeof value === 'string') return quoted(value);
  if (Array.isArray(value)) return 'a list';
  return isObject(value) ? 'an object' : String(value);
}

function isObject(value: Json): value is { [key: string]: Json } {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function write(analysis: Analysis, path: string, value: unknown): null {
  const [first, second] = path.split('.') as [string, string | undefined];
  const root = analysis as unknown as Record<string, unknown>;
  if (second === undefined) root[first] = value;
  else (root[first] as Record<string, unknown>)[second] = value;
  return null;
}
