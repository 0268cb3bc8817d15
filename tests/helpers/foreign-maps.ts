/** The demo lake as GDAL writes it in other formats and systems, made once for all tests of a process; GDAL is the reference for what they hold. */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import type { GivenFile } from '../../shared/importing.ts';

const DEMO = join(import.meta.dirname, '../../demo-lake');

export const hasForeignMaps = ['ogr2ogr', 'gdal_translate', 'gdalwarp', 'cs2cs'].every(
  (tool) => !spawnSync(tool, ['--version']).error,
);

const made = new Map<string, GivenFile[]>();

/** Files that ogr2ogr makes of a map of the demo lake: those of a shapefile together. */
export function ogrFiles(map: string, target: string, options: string[] = []): GivenFile[] {
  return once(['ogr', map, target, ...options], (folder) =>
    run('ogr2ogr', [...options, join(folder, target), join(DEMO, map)]),
  );
}

/** What GDAL makes of text of our own. */
export function ogrOf(
  text: string,
  source: string,
  target: string,
  options: string[] = [],
): GivenFile[] {
  return once(['text', text, source, target, ...options], (folder) =>
    run('ogr2ogr', [...options, join(folder, target), '/vsistdin/'], text),
  );
}

export function givenFolder(folder: string): GivenFile[] {
  return readdirSync(folder)
    .sort()
    .map((name) => ({
      name: basename(name),
      bytes: new Uint8Array(readFileSync(join(folder, name))),
    }));
}

/** Runs GDAL in a folder of its own and reads what it left there. */
export function gdalFiles(key: string[], work: (folder: string) => void): GivenFile[] {
  return once(key, work);
}

export function demoText(name: string): string {
  return readFileSync(join(DEMO, name), 'utf8');
}

export function run(tool: string, args: string[], input = ''): string {
  const done = spawnSync(tool, args, { encoding: 'utf8', input, maxBuffer: 1 << 26 });
  if (done.status !== 0) throw new Error(`${tool} ${args.join(' ')}: ${done.stderr || done.error}`);
  return done.stdout;
}

function once(key: string[], work: (folder: string) => void): GivenFile[] {
  const name = JSON.stringify(key);
  const known = made.get(name);
  if (known !== undefined) return known;
  const folder = mkdtempSync(join(tmpdir(), 'foreign-maps-'));
  try {
    work(folder);
    const files = givenFolder(folder);
    made.set(name, files);
    return files;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
