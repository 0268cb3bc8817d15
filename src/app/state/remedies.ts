/**
 * What can be done about an error in analysis.json without opening the file: a key renamed to the one that was meant, a key
 * taken out, a value set to the nearest that is allowed or to its default. Each is a change like any other, and taken back like
 * any other; what touches keys keeps the whole text of the file, so that it comes back byte for byte.
 */

import { CHOICES, DEFAULT_ANALYSIS } from '../../../shared/analysis.ts';
import { likelyKey, SECTIONS } from '../../../shared/choice-keys.ts';
import type { Finding } from '../../../shared/findings.ts';
import { nearest, visible } from '../../../shared/words.ts';
import type { Edit, Work } from '../contract.ts';
import { ANALYSIS_FILE, currentValue, WHOLE_FILE } from './edits.ts';

export interface Remedy {
  /** on its button */
  words: string;
  edit: Omit<Edit, 'before' | 'at'>;
}

type Keys = Record<string, unknown>;

/** In the order in which they are offered; empty for what is not an error of analysis.json. */
export function remediesFor(finding: Finding, work: Work): Remedy[] {
  const { table, severity, code, column } = finding;
  if (table !== ANALYSIS_FILE || severity !== 'error') return [];
  const keys = keysOf(work);
  if (keys === null || (column === null && code !== 'unknown-key')) return [allDefaults(finding)];
  switch (code) {
    case 'unknown-key':
      return column === null ? [withoutUnknown(keys)] : forUnknown(column, keys);
    case 'repeated-key':
      return [
        wholeFile(
          'Keep the last of each',
          keys,
          `${column} stood there more than once: the last kept`,
        ),
      ];
    default:
      return column === null ? [] : forValue(column, keys, work);
  }
}

/** null when the file is no JSON object. */
function keysOf(work: Work): Keys | null {
  try {
    const value: unknown = JSON.parse(
      currentValue(work, { file: ANALYSIS_FILE, row: null, column: WHOLE_FILE }),
    );
    return isKeys(value) ? value : null;
  } catch {
    return null;
  }
}

function allDefaults({ message }: Finding): Remedy {
  return wholeFile(
    'Set all choices to their defaults',
    {},
    `the file could not be read: ${message}`,
  );
}

function forUnknown(told: string, keys: Keys): Remedy[] {
  const at = placeOf(told, keys);
  if (at === null) return [withoutUnknown(keys)];
  const [section, key] = at;
  const remove = wholeFile(
    `Remove ${told}`,
    without(keys, section, key),
    `${told} is no key, removed`,
  );
  const meant = likelyKey(section, key);
  if (meant === null || (meant !== told && valueAt(keys, meant) !== undefined)) return [remove];
  const renamed =
    section === '' && !meant.includes('.') ? inPlace(keys, key, meant) : moved(keys, at, meant);
  return [wholeFile(`Rename it to ${meant}`, renamed, `${told} renamed to ${meant}`), remove];
}

function forValue(path: string, keys: Keys, work: Work): Remedy[] {
  if (SECTIONS.has(path)) {
    return [wholeFile(`Remove ${path}`, without(keys, '', path), `${path} holds no keys, removed`)];
  }
  const choice = CHOICES.find((c) => c.path === path);
  if (choice === undefined) return [];
  const change = (words: string, after: string, reason: string): Remedy => ({
    words,
    edit: { file: ANALYSIS_FILE, row: null, column: path, after, reason },
  });
  // a text cannot say that something else than a text stood there
  if (choice.type === 'text')
    return [wholeFile(`Remove ${path}`, without(keys, '', path), `${path} is no text, removed`)];
  const stands = currentValue(work, { file: ANALYSIS_FILE, row: null, column: path });
  const meant = nearest(stands, (choice.choices ?? []).map(String));
  return [
    ...(meant === null ? [] : [change(`Set it to ${meant}`, meant, 'the nearest value allowed')]),
    change(`Set it to the default${defaultOf(path)}`, '', 'the value is not allowed: its default'),
  ];
}

/** `, 0.95`; nothing where the default is a name or a list. */
function defaultOf(path: string): string {
  const value = valueAt(keysOfDefault(), path);
  return value === undefined || value === '' || typeof value === 'object'
    ? ''
    : `, ${String(value)}`;
}

function keysOfDefault(): Keys {
  return { ...DEFAULT_ANALYSIS };
}

/** Section and key of a dotted name as it was told; null where it was shortened or made visible. */
function placeOf(told: string, keys: Keys): [section: string, key: string] | null {
  if (Object.hasOwn(keys, told)) return ['', told];
  for (const section of SECTIONS) {
    const inner = keys[section];
    const key = told.slice(section.length + 1);
    if (told.startsWith(`${section}.`) && isKeys(inner) && Object.hasOwn(inner, key))
      return [section, key];
  }
  return null;
}

/** Without every key that is not known, however it is written. */
function withoutUnknown(keys: Keys): Remedy {
  const known = (path: string) => CHOICES.some((c) => c.path === path);
  const kept: Keys = {};
  let removed = 0;
  for (const [key, value] of Object.entries(keys)) {
    if (SECTIONS.has(key) && isKeys(value)) {
      const inner = Object.entries(value).filter(([name]) => known(`${key}.${name}`));
      removed += Object.keys(value).length - inner.length;
      kept[key] = Object.fromEntries(inner);
    } else if (SECTIONS.has(key) || (known(key) && !key.includes('.'))) kept[key] = value;
    else removed++;
  }
  const many = removed === 1 ? '1 key that is not known' : `${removed} keys that are not known`;
  return wholeFile(`Remove ${many}`, kept, `${many}, removed`);
}

function without(keys: Keys, section: string, key: string): Keys {
  const but = (inner: Keys): Keys =>
    Object.fromEntries(Object.entries(inner).filter(([name]) => name !== key));
  if (section === '') return but(keys);
  const inner = keys[section];
  return { ...keys, [section]: isKeys(inner) ? but(inner) : inner };
}

function inPlace(keys: Keys, from: string, to: string): Keys {
  return Object.fromEntries(
    Object.entries(keys).map(([name, value]) => [name === from ? to : name, value]),
  );
}

/** The value at another place; within its section it keeps its turn. */
function moved(keys: Keys, [section, key]: [string, string], to: string): Keys {
  const [first, second] = to.split('.');
  const own = section === '' ? keys : keys[section];
  const inner = isKeys(own) ? own : {};
  if (first === section && second !== undefined)
    return { ...keys, [section]: inPlace(inner, key, second) };
  const rest = without(keys, section, key);
  if (second === undefined) return { ...rest, [to]: inner[key] };
  const there = rest[first ?? ''];
  return { ...rest, [first ?? '']: { ...(isKeys(there) ? there : {}), [second]: inner[key] } };
}

function valueAt(keys: Keys, path: string): unknown {
  const [first = '', second] = path.split('.');
  const outer = Object.hasOwn(keys, first) ? keys[first] : undefined;
  if (second === undefined) return outer;
  return isKeys(outer) && Object.hasOwn(outer, second) ? outer[second] : undefined;
}

function wholeFile(words: string, keys: Keys, reason: string): Remedy {
  const after = `${JSON.stringify(keys, null, 2)}\n`;
  return {
    words: visible(words),
    edit: { file: ANALYSIS_FILE, row: null, column: WHOLE_FILE, after, reason: visible(reason) },
  };
}

function isKeys(value: unknown): value is Keys {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
