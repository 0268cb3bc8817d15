/** All lakes of a programme together. */

import { type ProgrammeLake, sharedProgramme } from '../../models/further.ts';
import { hasTransectEffect, intervalQuantile, logNormalQuantity } from '../../models/index.ts';
import type { BatchFile, LakeNumbers, Programme } from '../../shared/batch.ts';
import { habitatsOf } from '../compare/index.ts';
import { estimateSurvey, type Folder } from '../pipeline.ts';

/** Of the programme's interval: lakes may have been given others. */
export const PROGRAMME_LEVEL = 0.95;

/** Lakes are independent: their variances add up. */
export function programmeOf(
  lakes: BatchFile['lakes'],
  listed: number,
  missing: string[],
): Programme {
  const estimated = lakes.flatMap(({ numbers }) => numbers ?? []);
  const numbered = estimated.filter(hasNumber);
  const withNumber = numbered.filter((n) => n.detections > 0);
  const total = withNumber.reduce((sum, n) => sum + (n.mussels?.estimate ?? 0), 0);
  const variance = withNumber.reduce((sum, n) => sum + (n.mussels?.se ?? Number.NaN) ** 2, 0);
  return {
    lakes: listed,
    estimated: estimated.length,
    none_detected: estimated.filter((n) => n.detections === 0).length,
    with_errors: lakes.filter(({ numbers }) => numbers === null).length,
    without_number: lakes.flatMap(({ name, numbers }) =>
      numbers === null || hasNumber(numbers) ? [] : [name],
    ),
    missing,
    surveyed_m2: numbered.reduce((sum, n: LakeNumbers) => sum + (n.surveyed_m2 ?? 0), 0),
    mussels:
      withNumber.length === 0
        ? null
        : logNormalQuantity(
            total,
            Math.sqrt(variance),
            intervalQuantile(PROGRAMME_LEVEL, false, 0),
          ),
  };
}

/** Of the whole lake. Where nothing was detected there is none of mussels, but ground that was searched. */
function hasNumber({ detections, mussels, surveyed_m2: surveyedM2 }: LakeNumbers): boolean {
  return surveyedM2 !== null && (detections === 0 || mussels !== null);
}

/**
 * The total with the detection of observers in common, where the same name is the same person. Each lake is estimated again,
 * one after the other; those without a number are left out.
 * @throws RangeError where the lakes are too many for one fit
 */
export async function programmeTogether(
  folders: readonly (() => Promise<Folder | null>)[],
): Promise<NonNullable<Programme['shared_detection']>> {
  const lakes: ProgrammeLake[] = [];
  const names: (readonly string[])[] = [];
  let transects = 0;
  let effect = false;
  for (const read of folders) {
    const folder = await read();
    const done = folder === null ? null : await estimateSurvey(folder, { replicates: 0 });
    if (done === null || !done.ok || done.again === null) continue;
    const { rows, members, bed } = done.again;
    lakes.push({
      rows,
      fit: members[0].fit,
      habitats: habitatsOf(bed.habitats, rows.classNames, null, null),
      pieces: bed.pieces,
    });
    names.push(rows.observerNames);
    transects += rows.transectCount;
    effect ||= hasTransectEffect(members.slice(0, 1));
  }
  const people = [...new Set(names.flat())].sort();
  const persons = names.map((own) => own.map((name) => people.indexOf(name)));
  const shared = sharedProgramme(lakes, persons);
  return {
    used: shared?.used ?? false,
    observers: (shared?.persons ?? []).map((person) => people[person]),
    aicc_shared: shared?.aiccShared ?? null,
    aicc_separate: shared?.aiccSeparate ?? null,
    mussels:
      shared === null
        ? null
        : logNormalQuantity(
            shared.mussels,
            shared.se,
            intervalQuantile(PROGRAMME_LEVEL, effect, transects),
          ),
  };
}
