/** What is believed of a lake before any survey, as it is typed: kept in this browser for its survey, and handed on as stated.json. */

import { keptBySurvey } from './kept-by-survey.ts';

/** Least, likely, most; null = blank. */
export type Three = [least: number | null, likely: number | null, most: number | null];

export interface StatedFields {
  /** clusters per m² of each class; all blank: no dives are for it */
  classes: Record<string, Three>;
  /** of a belt or on the line, % */
  p: Three;
  depthFromM: number | null;
  depthToM: number | null;
  clusterSize: number | null;
  dispersion: number | null;
  transectSd: number | null;
  sigmaM: number | null;
  setupMin: number | null;
  searchMinPerM2: number | null;
  observers: [string, string];
}

const BLANK: Three = [null, null, null];

/** Nothing is believed for anybody; how counts vary is as in surveys that are common (stated.json's own defaults). */
export const NOTHING_STATED: StatedFields = {
  classes: {},
  p: BLANK,
  depthFromM: 1,
  depthToM: null,
  clusterSize: 1,
  dispersion: 1,
  transectSd: 0.3,
  sigmaM: null,
  setupMin: null,
  searchMinPerM2: null,
  observers: ['A', 'B'],
};

const kept = keptBySurvey(
  'shoalwise-stated',
  (value): value is Partial<StatedFields> => typeof value === 'object' && value !== null,
);

export const statedOf = (survey: string): StatedFields => ({
  ...NOTHING_STATED,
  ...kept.of(survey),
});
export const keepStated = kept.keep;

/** The text of stated.json; or what is still to be stated, in words. */
export function statedText({
  classes,
  p,
  ...fields
}: StatedFields): { ok: true; text: string } | { ok: false; why: string } {
  const densities: Record<string, Three | number> = {};
  for (const [name, three] of Object.entries(classes)) {
    if (three.every((x) => x === null)) continue;
    const whole = wholeRange(three);
    if (whole === null) return { ok: false, why: `${name}: ${PARTS}` };
    densities[name] = whole;
  }
  if (Object.keys(densities).length === 0)
    return { ok: false, why: 'a density of one substrate at least is expected' };
  const shares = wholeRange(p);
  if (shares === null) return { ok: false, why: `detection: ${PARTS}` };
  if (fields.depthToM === null)
    return { ok: false, why: 'the greatest depth that the dives are for is expected' };
  const { setupMin, searchMinPerM2, sigmaM } = fields;
  return {
    ok: true,
    text: JSON.stringify({
      clusters_per_m2: densities,
      p: shares.map((percent) => percent / 100),
      depth_from_m: fields.depthFromM ?? 0,
      depth_to_m: fields.depthToM,
      cluster_size: fields.clusterSize ?? 1,
      dispersion: fields.dispersion ?? 0,
      transect_sd: fields.transectSd ?? 0,
      observers: fields.observers,
      ...(sigmaM === null ? {} : { sigma_m: sigmaM }),
      ...(setupMin === null || searchMinPerM2 === null
        ? {}
        : { setup_min: setupMin, search_min_per_m2: searchMinPerM2 }),
    }),
  };
}

const PARTS = 'the likely one alone, or least, likely and most in rising order, are expected';

/** The likely one alone is sure. */
function wholeRange([least, likely, most]: Three): [number, number, number] | null {
  if (likely === null) return null;
  if (least === null && most === null) return [likely, likely, likely];
  if (least === null || most === null || least > likely || likely > most) return null;
  return [least, likely, most];
}
