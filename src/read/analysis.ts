/** analysis.json → the choices, merged with the defaults. Strict: a key or value that is not known is an error. */

import { type Analysis, CHOICES, type Choice, DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { likelyKey, SECTIONS } from '../../shared/choice-keys.ts';
import { areLimits, isWithin, MOST_LIMITS } from '../../shared/choice-values.ts';
import { errorAt, type Finding } from '../../shared/findings.ts';
import { LONGEST_LABEL } from '../../shared/tables.ts';
import { formatCount } from '../../shared/units.ts';
import { listed, quoted, visible } from '../../shared/words.ts';
import { isObject, type Json, parseJson, repeatedKeys } from './json.ts';
import { decodeText } from './text.ts';

export const ANALYSIS_FILE = 'analysis.json';
const BY_PATH = new Map(CHOICES.map((choice) => [choice.path, choice]));

/** A larger file holds more than choices. */
const MOST_BYTES = 1_000_000;
/** Of a key that is not known, so much is shown. */
const LONGEST_PATH = 80;
/** More classes, and longer names, than a table of results can show. */
const MOST_CLASSES = 200;
/** Of errors of one kind, more than this are counted, not listed. */
const MOST_LISTED = 20;

export interface AnalysisRead {
  analysis: Analysis;
  findings: Finding[];
  /** false when the list of classes could not be read: then no class of the tables can be judged */
  classesKnown: boolean;
}

/** `bytes` undefined: no such file, all defaults. A choice with an error keeps its default. Never throws. */
export function readAnalysis(bytes: Uint8Array | undefined, folderName: string): AnalysisRead {
  const analysis = structuredClone(DEFAULT_ANALYSIS);
  analysis.lake = folderName;
  if (bytes === undefined) return { analysis, findings: [], classesKnown: true };
  const parsed = parseChoices(bytes);
  if ('findings' in parsed) return { analysis, findings: parsed.findings, classesKnown: false };
  const findings: Finding[] = parsed.repeated.map(repeatedKey);
  if (isObject(parsed.json)) readObject(parsed.json, '', analysis, findings);
  else findings.push(wrongType(null, parsed.json, 'an object { … }'));
  const classesKnown = !findings.some(({ column }) => column === null || column === 'substrates');
  return { analysis, findings: shortened(findings), classesKnown };
}

function parseChoices(
  bytes: Uint8Array,
): { json: Json; repeated: string[] } | { findings: Finding[] } {
  const refused = (code: string, message: string) => ({
    findings: [errorAt({ table: ANALYSIS_FILE }, code, message)],
  });
  if (bytes.length > MOST_BYTES) {
    const message = `${formatCount(bytes.length)} bytes (choices take a few hundred, at most ${formatCount(MOST_BYTES)} expected)`;
    return refused('file-too-large', message);
  }
  const decoded = decodeText(bytes, ANALYSIS_FILE);
  if (decoded.text === null) return { findings: decoded.findings };
  const parsed = parseJson(decoded.text);
  if ('fault' in parsed) return refused('invalid-json', parsed.fault);
  return { json: parsed.json, repeated: repeatedKeys(decoded.text) };
}

function repeatedKey(path: string): Finding {
  const spot = { table: ANALYSIS_FILE, column: visible(path.slice(0, LONGEST_PATH)) };
  return errorAt(
    spot,
    'repeated-key',
    'the key stands here more than once (each key once expected)',
  );
}

/** The first errors of each kind, then how many more there are. */
function shortened(findings: Finding[]): Finding[] {
  const counts = new Map<string, number>();
  const listed = findings.filter(({ code }) => {
    const n = (counts.get(code) ?? 0) + 1;
    counts.set(code, n);
    return n <= MOST_LISTED;
  });
  for (const [code, n] of counts) {
    if (n <= MOST_LISTED) continue;
    const message = `${formatCount(n - MOST_LISTED)} more keys like those listed`;
    listed.push(errorAt({ table: ANALYSIS_FILE }, code, message));
  }
  return listed;
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
      for (const f of problem ?? []) findings.push(f);
    } else if (section === '' && SECTIONS.has(key)) {
      if (isObject(value)) readObject(value, key, analysis, findings);
      else findings.push(wrongType(key, value, 'an object { … }'));
    } else findings.push(unknownKey(section, key, path));
  }
}

function unknownKey(section: string, key: string, path: string): Finding {
  const close = likelyKey(section, key);
  const hint = close === null ? '' : `; did you mean ${close}?`;
  const spot = { table: ANALYSIS_FILE, column: visible(path.slice(0, LONGEST_PATH)) };
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
      return readText(choice, value.trim(), analysis);
    case 'flag':
      if (typeof value !== 'boolean') break;
      return write(analysis, choice.path, value);
    case 'choice':
      return readListed(choice, value, analysis);
    case 'classes':
      if (!Array.isArray(value)) break;
      return readClassList(choice, value, analysis);
    case 'limits':
      if (!Array.isArray(value)) break;
      return readLimits(choice, value, analysis);
    default:
      if (typeof value === 'string' && value.trim().toLowerCase() === choice.word)
        return write(analysis, choice.path, choice.word);
      if (typeof value !== 'number') break;
      return readNumber(choice, value, analysis);
  }
  return [wrongType(choice.path, value, expected(choice))];
}

function readText({ path, longest }: Choice, text: string, analysis: Analysis): Finding[] | null {
  if (longest !== undefined && text.length > longest) {
    const message = `${formatCount(text.length)} characters (at most ${longest} expected)`;
    return [errorAt({ table: ANALYSIS_FILE, column: path }, 'text-too-long', message)];
  }
  return text === '' ? null : write(analysis, path, text);
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
  if (isWithin(choice, value)) return write(analysis, choice.path, value);
  const message = `${shown(value)} is out of range (${expected(choice)} expected)`;
  return [errorAt({ table: ANALYSIS_FILE, column: choice.path }, 'out-of-range', message)];
}

function readLimits(choice: Choice, value: Json[], analysis: Analysis): Finding[] | null {
  if (areLimits(choice, value)) return write(analysis, choice.path, value);
  const message = `the list is none of limits of classes (${expected(choice)} expected)`;
  return [errorAt({ table: ANALYSIS_FILE, column: choice.path }, 'bad-limits', message)];
}

/** Class names are trimmed; two that differ in case only are one class twice. */
function readClassList(choice: Choice, value: Json[], analysis: Analysis): Finding[] | null {
  const spot = { table: ANALYSIS_FILE, column: choice.path };
  const findings: Finding[] = [];
  const names: string[] = [];
  if (value.length > MOST_CLASSES) {
    const message = `${formatCount(value.length)} classes (at most ${MOST_CLASSES} expected)`;
    return [errorAt(spot, 'too-many-classes', message)];
  }
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
    if (name === '' || name.includes('+') || name.length > LONGEST_LABEL) {
      const message = `${which}: ${quoted(entry)} is no class name (a name, not blank, without + and at most ${LONGEST_LABEL} characters long, expected)`;
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
  if (choice.type === 'limits')
    return `a list of 3 to ${MOST_LIMITS} numbers of ${choice.unit}, ascending from 0${orNull}`;
  if (choice.type === 'choice') {
    return `${listed((choice.choices ?? []).map((value) => JSON.stringify(value)))}${orNull}`;
  }
  const orWord = choice.word === undefined ? '' : `, ${JSON.stringify(choice.word)}`;
  return `${choice.type === 'whole' ? 'a whole number' : 'a number'}${limits(choice)}${orWord}${orNull}`;
}

function limits({ min, max, above, below, unit }: Choice): string {
  const of = unit === undefined ? '' : ` of ${unit}`;
  const [low, high] = [min ?? above, max ?? below];
  if (low === undefined) return of;
  if (min !== undefined && max !== undefined) return `${of} from ${min} to ${figure(max)}`;
  if (above !== undefined && below !== undefined) return `${of} between ${above} and ${below}`;
  const from = above === undefined ? `, at least ${min}` : ` above ${above}`;
  return high === undefined ? of + from : `${of}${from} and at most ${figure(high)}`;
}

function figure(value: number): string {
  return Number.isInteger(value) && value >= 10_000 ? formatCount(value) : String(value);
}

function shown(value: Json): string {
  if (typeof value === 'string') return quoted(value);
  if (typeof value === 'number' && !Number.isFinite(value)) return 'a number above 1.8e308';
  if (Array.isArray(value)) return 'a list';
  return isObject(value) ? 'an object' : String(value);
}

function write(analysis: Analysis, path: string, value: unknown): null {
  const [first, second] = path.split('.') as [string, string | undefined];
  const root = analysis as unknown as Record<string, unknown>;
  if (second === undefined) root[first] = value;
  else (root[first] as Record<string, unknown>)[second] = value;
  return null;
}
