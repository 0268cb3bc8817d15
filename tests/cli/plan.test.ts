/** `plan` on a reference lake: its folder, read back by our reader and by GDAL; the same seed; earlier dives are never replaced. */

import { appendFileSync, cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import { beforeAll, describe, expect, it } from 'vitest';
import type { PlanFile } from '../../shared/planning.ts';
import { main } from '../../src/cli/main.ts';
import { planSurvey } from '../../src/pipeline/plan.ts';
import { isWithin } from '../../src/plan/polygons.ts';
import { readPlanned } from '../../src/read/planned.ts';
import { testFolder } from '../helpers/folder.ts';
import { hasGdal, runTool } from '../helpers/gdal.ts';
import { lakePath } from '../helpers/reference-lake.ts';
import { keepingTerminal } from './terminal.ts';

const room = testFolder();
const lake = join(room, 'lake');
const out = join(room, 'next');

async function run(...argv: string[]) {
  const terminal = keepingTerminal();
  const code = await main(['plan', ...argv], terminal);
  return { code, stdout: terminal.stdout, stderr: terminal.stderr };
}

const filesOf = (path: string): Map<string, Uint8Array> =>
  new Map(readdirSync(path).map((name) => [name, new Uint8Array(readFileSync(join(path, name)))]));

/** A square over the west of the lake, where nobody may dive. */
const WEST: [number, number][] = [
  [-92.2, 46.8],
  [-92.1035, 46.8],
  [-92.1035, 47],
  [-92.2, 47],
  [-92.2, 46.8],
];

describe('a plan', () => {
  let done: Awaited<ReturnType<typeof run>>;
  let plan: PlanFile;
  beforeAll(async () => {
    cpSync(lakePath('belt-nb1'), lake, { recursive: true });
    const feature = {
      type: 'Feature',
      properties: {},
      geometry: { type: 'Polygon', coordinates: [WEST] },
    };
    writeFileSync(join(lake, 'no-dive.geojson'), JSON.stringify(feature));
    done = await run(lake, '--transects', '12', '--sections', '3', '--even', '--out', out);
    plan = JSON.parse(readFileSync(join(out, 'plan.json'), 'utf8'));
  }, 240_000);

  it('is told in 80 columns, with the cautions', () => {
    expect(done.code, done.stderr).toBe(0);
    expect(done.stdout).toContain('12 transects are expected to give a CV of');
    expect(done.stdout.replace(/\s+/g, ' ')).toContain('nothing here sets a dive limit');
    for (const line of done.stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('has a row without a date for each dive, its roles exchanged from one to the next', () => {
    const { survey, findings } = readPlanned(filesOf(out), 'next');
    expect(findings).toEqual([]);
    expect(survey.planned).toHaveLength(12);
    const roles = survey.planned.map((p) => `${p.cells.primary} ${p.cells.secondary}`);
    expect(roles.slice(0, 4)).toEqual(['KT MB', 'MB KT', 'KT MB', 'MB KT']);
    const { data } = Papa.parse<Record<string, string>>(
      readFileSync(join(out, 'transects.csv'), 'utf8').trim(),
      { header: true },
    );
    expect(data.every((row) => row.date === '' && Number(row.length_m) > 15)).toBe(true);
  });

  it('keeps out of where nobody may dive, and takes that bed out of its number', () => {
    expect(plan.no_dive_m2).toBeGreaterThan(0);
    for (const t of plan.transects)
      for (const place of [t.start, t.end]) expect(isWithin(place, [[WEST]])).toBe(false);
  });

  it('has a curve that falls, and a zone for each third of the shore that is left', () => {
    const told = plan.curve.flatMap((p) => p.cv ?? []);
    expect(told.length).toBeGreaterThan(15);
    for (const [i, cv] of told.entries()) if (i > 0) expect(cv).toBeLessThan(told[i - 1] * 1.1);
    // an even design of K: twice as many, √2 as precise, but for what designs differ by (some 10 % with so few)
    const at = (k: number): number => plan.curve.find((p) => p.transects >= k)?.cv ?? Number.NaN;
    const ratio = Math.sqrt(
      (plan.curve.find((p) => p.transects >= 100)?.transects ?? 0) /
        (plan.curve.find((p) => p.transects >= 25)?.transects ?? 1),
    );
    expect(Math.abs(at(25) / at(100) / ratio - 1)).toBeLessThan(0.15);
    expect(plan.zones.reduce((sum, z) => sum + z.transects, 0)).toBe(12);
  });

  it.skipIf(!hasGdal)('has two waypoints and a route a dive, as GDAL reads them', () => {
    const layer = (name: string) => runTool('ogrinfo', ['-ro', '-so', join(out, 'plan.gpx'), name]);
    expect(layer('waypoints')).toContain('Feature Count: 24');
    expect(layer('routes')).toContain('Feature Count: 12');
  });

  it('is the same for the same seed', { timeout: 240_000 }, async () => {
    const again = (seed: number) =>
      planSurvey(
        { name: 'lake', files: filesOf(lake) },
        { ...plan.request, seed, noDive: null, surveys: 0 },
      );
    const same = await again(plan.request.seed);
    if (!same.ok) throw new Error('no plan');
    expect(same.plan.transects).toEqual(plan.transects);
    expect(same.plan.curve).toEqual(plan.curve);
  });

  it('is not replaced once dives were typed into it', async () => {
    appendFileSync(join(out, 'habitat.csv'), 'P01,0,sand,1,1.2\r\n');
    const refused = await run(lake, '--transects', '12', '--out', out);
    expect(refused.code).toBe(64);
    expect(refused.stderr).toContain('habitat.csv was changed since it was planned');
  });
});

describe('a plan before any survey', () => {
  it('follows from the maps and stated figures', { timeout: 240_000 }, async () => {
    const stated = join(room, 'stated.json');
    const figures = {
      clusters_per_m2: { sand: [0.05, 0.4, 3] },
      p: 0.7,
      depth_to_m: 6,
    };
    writeFileSync(stated, JSON.stringify(figures));
    const to = join(room, 'stated-plan');
    const done = await run(lake, '--stated', stated, '--transects', '10', '--out', to);
    expect(done.code, done.stderr).toBe(0);
    expect(done.stdout).toContain('10 transects are expected to give a CV of');
    const plan: PlanFile = JSON.parse(readFileSync(join(to, 'plan.json'), 'utf8'));
    expect(plan).toMatchObject({ stated: true, current_cv: null, minutes: null });
    // 51 strips of 30 m² hold some 80 clusters at the least density, by which a CV is 11 % at best, and 4,600 at the most
    const [first] = plan.curve.filter((p) => p.transects === 51);
    expect((first.upper ?? 0) / (first.lower ?? 1)).toBeGreaterThan(1.2);
    // the lake has silt as well, of which nothing is stated
    expect(done.stderr).toMatch(/notice: stated\.json.*no density is stated for .*silt \(/);
    // no magnetic bearing without a day; the crew is told
    expect(done.stdout.replace(/\s+/g, ' ')).toContain('Bearings are from true north');
    const added = await run(lake, '--stated', stated, '--cv', '0.2', '--add', '--out', to);
    expect(added.code).toBe(64);
    writeFileSync(stated, JSON.stringify({ ...figures, clusters_per_m2: { sannd: 1 } }));
    const unknown = await run(lake, '--stated', stated, '--transects', '10', '--out', to);
    expect(unknown.code).toBe(2);
    expect(unknown.stderr).toContain('sannd is no substrate class');
  });
});

describe('a plan for a CV', () => {
  it('meets it with the places drawn, not by the means of its stretches alone', async () => {
    const stated = join(room, 'two-classes.json');
    writeFileSync(
      stated,
      JSON.stringify({ clusters_per_m2: { sand: 0.4, silt: 0.1 }, p: 0.7, depth_to_m: 6 }),
    );
    const to = join(room, 'for-a-cv');
    // by the means of its two stretches 19 dives would do; those drawn come to 15.3 %
    const argv = ['--stated', stated, '--cv', '0.15', '--sections', '2', '--out', to];
    const done = await run(lakePath('belt-nb1'), ...argv);
    expect(done.code, done.stderr).toBe(0);
    const plan: PlanFile = JSON.parse(readFileSync(join(to, 'plan.json'), 'utf8'));
    expect(plan.reached).toBe(true);
    expect(plan.expected_cv).toBeLessThanOrEqual(0.15);
    expect(plan.transects.length).toBeGreaterThan(19);
  });
});

describe('what cannot be planned', () => {
  it('by a file of no-dive places that is not there: the option takes one', async () => {
    const refused = await run(lake, '--cv', '0.1', '--no-dive', 'nowhere.geojson', '--out', 'x');
    expect(refused.stderr).toBe('nowhere.geojson: there is no such file (--no-dive)\n');
    expect(refused.code).toBe(2);
  });

  it.each([
    [['--out', 'x'], 'one of --cv X, --transects K and --minutes M is expected'],
    [['--cv', '15', '--out', 'x'], 'is not a number above 0 up to 1 (a share: 0.15 for 15 %)'],
    [['--cv', '.1', '--minutes', '5', '--out', 'x'], 'one of --cv X'],
    [['--cv', '0.1', '--minutes', '5', '--out', 'x'], 'one of --cv X'],
    [['--cv', '0.1', '--direction', 'up', '--out', 'x'], 'neither down, nor across'],
    [['--cv', '0.1', '--start-depths', '1;2', '--out', 'x'], 'is not a number above 0'],
  ])('%j', async (argv, why) => {
    const refused = await run(lake, ...argv);
    expect(refused.code).toBe(64);
    expect(refused.stderr).toContain(why);
  });
});
