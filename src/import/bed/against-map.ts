/** What divers recorded against what the map has under them, in metres of transect. */

import Flatbush from 'flatbush';
import { term, terms } from '../../../shared/glossary.ts';
import type { ImportPicture } from '../../../shared/importing.ts';
import type { XY } from '../../../shared/survey.ts';
import { formatCount, formatPercent } from '../../../shared/units.ts';
import type { Regions } from './bed-regions.ts';
import { type Divers, placeAlong } from './divers.ts';

/** Spots along a transect, about so far apart, m: as the estimate compares them (METHOD.md: Substrates recorded and mapped). */
const STEP_M = 1;
/** Nearer than this to another area of the map neither transect nor border is known well enough; cells of 5 m reach 5 to 10 m. */
const BORDER_M = 7.5;
/** Directions in which borders are looked for. */
const AROUND = 8;

export interface AgainstMap {
  /** by recorded, then mapped */
  rows: { recorded: string; mapped: string; lengthM: number }[];
  comparedM: number;
  alikeM: number;
  nearBorderM: number;
  offMapM: number;
}

/** @param mapped class of an area of the map by its number; null: left out of the map */
export function diverAgainstMap(
  divers: Divers,
  regions: Regions,
  mapped: (area: number) => string | null,
): AgainstMap {
  const result = tallied();
  const classAt = (at: XY): string | null => {
    const area = regions.at(at);
    return area === null ? null : mapped(area);
  };
  for (const { at, recorded, lengthM } of spotsOf(divers)) {
    const own = classAt(at);
    if (own === null) result.parts.offMapM += lengthM;
    else if (around(at).some((p) => (classAt(p) ?? own) !== own))
      result.parts.nearBorderM += lengthM;
    else result.add(recorded, own, lengthM);
  }
  return result.done();
}

/** Adds up lengths by what was recorded and what is mapped. */
function tallied() {
  const lengths = new Map<string, AgainstMap['rows'][number]>();
  const parts = { comparedM: 0, alikeM: 0, nearBorderM: 0, offMapM: 0 };
  return {
    parts,
    add: (recorded: string, mapped: string, lengthM: number): void => {
      parts.comparedM += lengthM;
      if (inOrder(mapped) === recorded) parts.alikeM += lengthM;
      const key = `${recorded}\n${mapped}`;
      const row = lengths.get(key) ?? { recorded, mapped, lengthM: 0 };
      row.lengthM += lengthM;
      lengths.set(key, row);
    },
    done: (): AgainstMap => ({
      rows: [...lengths.values()].sort(
        (a, b) =>
          a.recorded.localeCompare(b.recorded, 'en') || a.mapped.localeCompare(b.mapped, 'en'),
      ),
      ...parts,
    }),
  };
}

function around([x, y]: XY): XY[] {
  return Array.from({ length: AROUND }, (_, k): XY => {
    const angle = (k / AROUND) * 2 * Math.PI;
    return [x + BORDER_M * Math.cos(angle), y + BORDER_M * Math.sin(angle)];
  });
}

/** A place of a transect and what divers recorded there: as written, and in one order. */
export interface Spot {
  at: XY;
  substrate: string;
  recorded: string;
  plantCover: number | null;
  lengthM: number;
  transect: string;
}

/** The same for samples: every spot against the nearest sample, where one lies within `withinM`. */
export function diverAgainstSamples(
  divers: Divers,
  samples: readonly { at: XY; code: string }[],
  withinM: number,
): AgainstMap {
  const result = tallied();
  if (samples.length === 0) return result.done();
  const index = new Flatbush(samples.length);
  for (const { at } of samples) index.add(at[0], at[1]);
  index.finish();
  for (const { at, recorded, lengthM } of spotsOf(divers)) {
    const [found] = index.neighbors(at[0], at[1], 1, withinM);
    if (found !== undefined) result.add(recorded, samples[found].code, lengthM);
    else result.parts.offMapM += lengthM;
  }
  return result.done();
}

/** Places a metre apart with what was recorded there. */
export function spotsOf(divers: Divers): Spot[] {
  return divers.lines.flatMap((line) =>
    line.breaks.flatMap(({ distanceM, substrate, plantCover }, i) => {
      const endM = Math.min(line.breaks[i + 1]?.distanceM ?? line.lengthM, line.lengthM);
      if (substrate === null || !(endM > distanceM)) return [];
      const spots = Math.max(1, Math.round((endM - distanceM) / STEP_M));
      const lengthM = (endM - distanceM) / spots;
      return Array.from({ length: spots }, (_, k) => ({
        at: placeAlong(line, distanceM + (k + 0.5) * lengthM),
        substrate: substrate.toLowerCase(),
        recorded: inOrder(substrate),
        plantCover,
        lengthM,
        transect: line.transect,
      }));
    }),
  );
}

/** Classes of a mixture in one order, so that sand+gravel is gravel+sand. */
export function inOrder(substrate: string): string {
  return substrate
    .toLowerCase()
    .split('+')
    .map((one) => one.trim())
    .sort()
    .join('+');
}

/** Recorded by divers down, of the map across, in m. */
export function agreementTable(against: AgainstMap, mappedAs: string): ImportPicture {
  const recorded = [...new Set(against.rows.map((r) => r.recorded))];
  const mapped = [...new Set(against.rows.map((r) => r.mapped))];
  return {
    kind: 'table',
    caption: `Metres of ${terms('transect')} by what divers recorded (rows) and by ${mappedAs} (columns)`,
    header: ['recorded', ...mapped],
    rows: recorded.map((r) => [
      r,
      ...mapped.map((m) => {
        const row = against.rows.find((one) => one.recorded === r && one.mapped === m);
        return row === undefined ? '' : formatCount(row.lengthM);
      }),
    ]),
  };
}

/** The same in words, one sentence for each class that divers recorded. */
export function lengthsTold({ rows }: AgainstMap): string[] {
  return [...new Set(rows.map((r) => r.recorded))].map((recorded) => {
    const own = rows.filter((r) => r.recorded === recorded);
    const parts = [...own]
      .sort((a, b) => b.lengthM - a.lengthM)
      .map((r) => `${r.mapped} ${formatCount(r.lengthM)} m`);
    return `Recorded as ${recorded}, on the map: ${parts.join(', ')}.`;
  });
}

/** What was compared and what a disagreement does to the total; null where nothing could be compared. */
export function agreementTold({
  comparedM,
  alikeM,
  nearBorderM,
  offMapM,
}: AgainstMap): string | null {
  if (comparedM === 0) return null;
  return (
    `On ${formatPercent(alikeM / comparedM)} of ${formatCount(comparedM)} m of ${terms('transect')} the map has the ${term('substrate')} that divers recorded ` +
    `(${formatCount(nearBorderM)} m near its borders and ${formatCount(offMapM)} m off it are not compared). Where they differ, the total takes the density from what ` +
    'was recorded and the area from the map: its interval does not cover that, and the estimate says what the total would be if each mapped ' +
    `${term('substrate')} held what was recorded on it.`
  );
}
