/** JSON text → its value, with where it breaks off, and the keys that stand twice (which JSON.parse drops in silence). */

import { quoted } from '../../shared/words.ts';

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

export type JsonRead = { json: Json } | { fault: string };

/** `fault` says where the text stops being JSON. Never throws. */
export function parseJson(text: string): JsonRead {
  try {
    return { json: JSON.parse(text) as Json };
  } catch (thrown) {
    return { fault: `not valid JSON${whereBroken(String(thrown), text)}` };
  }
}

export function isObject(value: unknown): value is { [key: string]: Json } {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Engines word the error differently; where they give a position, it is turned into line and column. */
function whereBroken(thrown: string, text: string): string {
  const position = /position (\d+)/.exec(thrown)?.[1];
  if (position !== undefined) {
    const before = text.slice(0, Number(position)).split('\n');
    return `: error at line ${before.length}, character ${(before.at(-1) ?? '').length + 1}`;
  }
  const sign = /Unexpected token '(.)'/u.exec(thrown)?.[1];
  if (sign !== undefined) return `: unexpected ${quoted(sign)}`;
  return /end of JSON/i.test(thrown) ? ': it ends before it is complete' : '';
}

/** Strings, and the signs that open, part and close objects and lists; numbers and words between them do not matter. */
const TOKEN = /"(?:[^"\\]|\\.)*"|[{}[\],:]/g;

/**
 * Keys that an object of the text names again, each as often as it is repeated, dotted from the outermost object
 * (`map.cell_m`). Expects valid JSON.
 */
export function repeatedKeys(text: string): string[] {
  const repeated: string[] = [];
  /** of each open object its keys, of each open list null */
  const open: (Set<string> | null)[] = [];
  /** the key under which each open object or list stands, and the last key read */
  const path: string[] = [];
  let key = '';
  let string: string | null = null;
  for (const [token] of text.matchAll(TOKEN)) {
    if (token.startsWith('"')) {
      string = token;
      continue;
    }
    const keys = open.at(-1);
    if (token === ':' && keys && string !== null) {
      key = JSON.parse(string) as string;
      if (keys.has(key)) repeated.push([...path.slice(1), key].join('.'));
      keys.add(key);
    } else if (token === '{' || token === '[') {
      open.push(token === '{' ? new Set() : null);
      path.push(key);
    } else if (token === '}' || token === ']') {
      open.pop();
      path.pop();
    }
    string = null;
  }
  return repeated;
}
