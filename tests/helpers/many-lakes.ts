/** Small invented lakes in a folder, some with errors, and the list of them. */

import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { beltSurvey, pondSurvey, type Texts } from './base-survey.ts';

/** Few models, quickly fitted. */
const QUICK = {
  density: { family: 'poisson', transect_effect: false, depth: 'none', plant_cover: 'none' },
};

/**
 * Lakes of a few transects each, neighbours in the list with other counts; or small ones of two, with nothing detected but on
 * every fourth, as in most programmes; every `faultyEvery`-th has an error.
 * @returns path of the list
 */
export function writeLakes(
  folder: string,
  count: number,
  { faultyEvery, small = false }: { faultyEvery: number; small?: boolean },
): string {
  const base = small ? pondSurvey() : beltSurvey();
  const rows = ['folder,name'];
  for (let i = 1; i <= count; i++) {
    const name = `lake-${String(i).padStart(4, '0')}`;
    const texts = small && i % 4 !== 1 ? undetected(base) : base;
    writeLake(join(folder, name), texts, i, i % faultyEvery === 0);
    rows.push(`${name},${name}`);
  }
  const list = join(folder, 'lakes.csv');
  writeFileSync(list, `${rows.join('\n')}\n`);
  return list;
}

function undetected(texts: Texts): Texts {
  const [header] = texts['detections.csv'].split('\n');
  return { ...texts, 'detections.csv': `${header}\n` };
}

function writeLake(path: string, base: Texts, number: number, faulty: boolean): void {
  mkdirSync(path, { recursive: true });
  const texts: Texts = {
    ...base,
    'analysis.json': JSON.stringify({ lake: `Lake ${number}`, ...QUICK }),
  };
  // one cluster is larger from lake to lake
  texts['detections.csv'] = texts['detections.csv'].replace(
    /,1(\r?\n|,)/,
    `,${1 + (number % 7)}$1`,
  );
  if (faulty) texts['habitat.csv'] = texts['habitat.csv'].replace('sand', 'sannd');
  for (const [name, text] of Object.entries(texts)) writeFileSync(join(path, name), text);
}

/** Every file below a folder with its bytes, by its path in it: hidden ones too, for nothing may be left behind. */
export function filesBelow(folder: string): Map<string, string> {
  const found = new Map<string, string>();
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort()) {
    const path = join(folder, name);
    if (statSync(path).isFile()) found.set(relative(folder, path), readFileSync(path, 'latin1'));
  }
  return found;
}
