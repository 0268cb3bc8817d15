/** How a slip is made in the sound survey, judged, and its repair held against what stood there. */

import { expect } from 'vitest';
import type { Repair } from '../../shared/repairs.ts';
import { makeEdit } from '../../src/app/state/edits.ts';
import { judge } from '../../src/pipeline.ts';
import { textTables } from '../../src/read/index.ts';
import { baseSurvey, type Texts, toFolder } from '../helpers/base-survey.ts';
import { all, type Bend } from '../helpers/bend.ts';

export const T = 'transects.csv';
export const H = 'habitat.csv';
export const D = 'detections.csv';
export const MAPS = ['outline.geojson', 'substrate.geojson', 'depth.geojson'];

export function bent(...bends: Bend[]): Texts {
  const texts = baseSurvey();
  all(...bends)(texts);
  return texts;
}

export async function judged(texts: Texts) {
  const { findings, repairs } = await judge(toFolder(texts));
  return { codes: findings.map(({ code }) => code), findings, repairs: await repairs() };
}

export function applied(texts: Texts, { edits, title }: Repair) {
  const { files } = toFolder(texts);
  return edits.reduce(
    (work, { table, row, column, old, new: after }) => {
      const made = makeEdit(work, { file: table, row, column, after, reason: title, at: '' });
      expect(made.edits.at(-1)?.before).toBe(old);
      return made;
    },
    { name: 'x', files, edits: [] } as Parameters<typeof makeEdit>[0],
  ).files;
}

/** The repair of the slip gives back the sound survey, and every error and notice goes with it. */
export async function restores(
  bend: Bend,
  code: string,
  pick: (repair: Repair) => boolean = () => true,
  sound = baseSurvey(),
) {
  const texts = { ...sound };
  bend(texts);
  const before = await judged(texts);
  expect(before.codes, before.findings.map((f) => JSON.stringify(f)).join('\n')).toContain(code);
  const proposed = before.repairs.filter(
    ({ edits, answers }) => edits.length > 0 && answers.some((a) => a.code === code),
  );
  const chosen = proposed.filter(pick);
  expect(chosen.map(({ title }) => title)).toHaveLength(1);
  expect(chosen[0]!.why.length).toBeGreaterThan(20);
  const files = applied(texts, chosen[0]!);
  expect(textTables(files)).toEqual(textTables(toFolder(sound).files));
  return chosen[0]!;
}

/** Nothing is proposed, and it is said why. */
export async function cannotKnow(bend: Bend, code: string, why: RegExp) {
  const { codes, repairs } = await judged(bent(bend));
  expect(codes).toContain(code);
  const own = repairs.filter(({ answers }) => answers.some((a) => a.code === code));
  expect(own.flatMap(({ edits }) => edits)).toEqual([]);
  expect(own.map((repair) => repair.why).join('\n')).toMatch(why);
}
