/** A case of the fuzzer: which survey is spoilt by which mutations. The seed and the case's number alone decide. */

import { type Random, seeded, stream } from '../../models/numbers/random.ts';
import { BYTE_MUTATIONS, copied } from './mutate/bytes.ts';
import { CHOICE_MUTATIONS } from './mutate/choices.ts';
import { type Files, type Mutation, one } from './mutate/draw.ts';
import { MAP_MUTATIONS } from './mutate/maps.ts';
import { hasRaster, RASTER_MUTATIONS } from './mutate/rasters.ts';
import { TABLE_MUTATIONS } from './mutate/tables.ts';
import type { Sound } from './surveys.ts';

export type Kind = 'check' | 'estimate';

export interface Case {
  kind: Kind;
  survey: string;
  /** each by its name and a seed of its own, so that one can be left out and the others stay as they are */
  mutations: { name: string; seed: number }[];
}

const MUTATIONS: Record<string, Mutation> = {
  ...TABLE_MUTATIONS,
  ...BYTE_MUTATIONS,
  ...MAP_MUTATIONS,
  ...CHOICE_MUTATIONS,
  ...RASTER_MUTATIONS,
};

/** How often a large survey is drawn when nothing else is asked for. */
export const LARGE_SHARE = { check: 0.3, estimate: 0.15 };
/** Mutations that mostly leave a survey that can be estimated. */
const GENTLE = [
  'cell: slip',
  'column',
  'rows',
  'few transects',
  'choice',
  'choice',
  'vertex: near',
  'property',
  'label',
];

/** Case `number` of a seed; `largeShare` of the cases spoil a large survey. */
export function caseOf(
  kind: Kind,
  seed: number,
  number: number,
  surveys: readonly Sound[],
  largeShare: number,
): Case {
  const random = stream(seed, number);
  const large = random.uniform() < largeShare;
  const survey = one(
    random,
    surveys.filter((s) => s.large === large),
  );
  const count = 1 + [0, 0, 0, 1, 1, 2][random.integer(6)];
  const raster = hasRaster(survey.files());
  const mutations = Array.from({ length: count }, () => ({
    name: drawn(random, kind, raster),
    seed: random.bits(),
  }));
  return { kind, survey: survey.name, mutations };
}

function drawn(random: Random, kind: Kind, raster: boolean): string {
  if (raster && random.integer(2) === 0) return one(random, Object.keys(RASTER_MUTATIONS));
  if (kind === 'estimate' && random.integer(5) > 0) return one(random, GENTLE);
  const groups = [
    TABLE_MUTATIONS,
    BYTE_MUTATIONS,
    MAP_MUTATIONS,
    CHOICE_MUTATIONS,
    TABLE_MUTATIONS,
    MAP_MUTATIONS,
  ];
  return one(random, Object.keys(one(random, groups)));
}

/** The folder of a case, and what was done to it in words. */
export function folderOf(asked: Case, surveys: readonly Sound[]): { files: Files; done: string[] } {
  const sound = surveys.find(({ name }) => name === asked.survey);
  if (sound === undefined)
    throw new Error(`folderOf: got the survey "${asked.survey}", expected a known one`);
  const files = copied(sound.files());
  const done: string[] = [];
  for (const { name, seed } of asked.mutations) {
    const mutation = MUTATIONS[name];
    if (mutation === undefined)
      throw new Error(`folderOf: got the mutation "${name}", expected a known one`);
    const words = mutation(seeded(seed), files);
    if (words !== null) done.push(words);
  }
  return { files, done };
}
