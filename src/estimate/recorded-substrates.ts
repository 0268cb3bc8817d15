/**
 * Substrates that observers recorded against the polygon of the map under the transect, in metres, and the total if what they
 * recorded holds wherever the map says the same (METHOD.md: Substrates recorded and mapped).
 */

import {
  bedTotal,
  condense,
  logNormalQuantity,
  type MappedHabitat,
  type Member,
  reclassifiedTotal,
  recordedShares,
  type Stretch,
  type SurveyRows,
} from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { SubstrateRecords } from '../../shared/estimate.ts';
import type { Bed, Segment } from '../../shared/survey.ts';
import { mappedHabitats } from './rows.ts';

/** Spots along a segment, about so far apart, m. */
const STEP_M = 1;

/** Cells whose block of 3 × 3 holds bed of one class only: index of the class, or one of these. */
const [NO_BED, SEVERAL] = [-1, -2];

/**
 * Null without a stretch that lies a cell from every border of the map: nearer ones may be on either side of it, since
 * neither transects nor borders are known so well.
 */
export function recordedSubstrates(
  rows: SurveyRows,
  members: readonly Member[],
  segments: readonly Segment[],
  analysis: Analysis,
  bed: Bed,
  quantile: number | null,
): SubstrateRecords | null {
  const names: string[] = [];
  const classOf = (substrate: readonly string[]): number => {
    const name = [...substrate].sort().join('+');
    const known = names.indexOf(name);
    return known >= 0 ? known : names.push(name) - 1;
  };
  const habitatClass = bed.habitats.map((h) => classOf(h.substrate));
  const { stretches, nearBorderM } = compare(segments, classOf, mappedClass(bed, habitatClass));
  if (stretches.length === 0) return null;
  const lengthBy = new Map<string, SubstrateRecords['stretches'][number]>();
  let alikeM = 0;
  let comparedM = 0;
  for (const { mapped, recorded, lengthM } of stretches) {
    comparedM += lengthM;
    if (mapped === recorded) alikeM += lengthM;
    const key = `${recorded} ${mapped}`;
    const row = lengthBy.get(key) ?? {
      recorded: names[recorded],
      mapped: names[mapped],
      length_m: 0,
    };
    row.length_m += lengthM;
    lengthBy.set(key, row);
  }
  return {
    compared_m: comparedM,
    near_border_m: nearBorderM,
    agreement: alikeM / comparedM,
    stretches: [...lengthBy.values()].sort(
      (a, b) =>
        a.recorded.localeCompare(b.recorded, 'en') || a.mapped.localeCompare(b.mapped, 'en'),
    ),
    mussels: movedTotal(),
  };

  /** The bed of a mapped class is shared out among the classes recorded on it; what nobody searched stays as mapped. */
  function movedTotal(): SubstrateRecords['mussels'] {
    const habitats = mappedHabitats(bed.habitats, analysis);
    const pieces = condense(bed.pieces);
    const shares = recordedShares(stretches);
    // each habitat of the map, then as each class that was recorded
    const taken: MappedHabitat[] = [
      ...habitats,
      ...names.flatMap((name) =>
        habitats.map((h) => ({
          ...h,
          classes: name.split('+').map((one) => analysis.substrates.indexOf(one)),
        })),
      ),
    ];
    const recordedAs = (h: number, recorded: number): number =>
      (recorded + 1) * habitats.length + h;
    const totalOf = (parts: readonly Part[]) =>
      bedTotal(rows, members, taken, {
        count: parts.length,
        habitat: parts.map((part) => part.as),
        areaM2: parts.map((part) => part.share * pieces.areaM2[part.piece]),
        depthM: parts.map((part) => pieces.depthM[part.piece]),
        band: parts.map(() => 0),
        reason: parts.map(() => 0),
      });
    const numbers = Array.from({ length: pieces.count }, (_, i) => i);
    const values = new Map<string, number>();
    const value = (mapped: number, recorded: number): number => {
      const key = `${mapped} ${recorded}`;
      const known = values.get(key);
      if (known !== undefined) return known;
      const parts = numbers
        .filter((i) => habitatClass[pieces.habitat[i]] === mapped)
        .map((piece) => ({ piece, share: 1, as: recordedAs(pieces.habitat[piece], recorded) }));
      const mussels = parts.length === 0 ? 0 : totalOf(parts).mussels;
      values.set(key, mussels);
      return mussels;
    };
    const whole = totalOf(
      numbers.flatMap((piece): Part[] => {
        const h = pieces.habitat[piece];
        const own = shares.get(habitatClass[h]);
        if (own === undefined) return [{ piece, share: 1, as: h }];
        return [...own].map(([recorded, share]) => ({ piece, share, as: recordedAs(h, recorded) }));
      }),
    );
    const { se } = reclassifiedTotal(stretches, value);
    if (se === null || !(whole.mussels > 0)) return null;
    return logNormalQuantity(whole.mussels, Math.hypot(whole.musselsSe, se), quantile);
  }
}

/** A piece of bed, or a share of it, taken as one habitat. */
interface Part {
  piece: number;
  share: number;
  /** place in the list of habitats */
  as: number;
}

function compare(
  segments: readonly Segment[],
  classOf: (substrate: readonly string[]) => number,
  mappedAt: (x: number, y: number) => number,
): { stretches: Stretch[]; nearBorderM: number } {
  let nearBorderM = 0;
  const stretches = segments.flatMap(({ start, end, horizontalM, substrate, transectIndex }) => {
    const spots = Math.max(1, Math.round(horizontalM / STEP_M));
    const recorded = classOf(substrate);
    return Array.from({ length: spots }, (_, i): Stretch | null => {
      const share = (i + 0.5) / spots;
      const lengthM = horizontalM / spots;
      const mapped = mappedAt(
        start[0] + share * (end[0] - start[0]),
        start[1] + share * (end[1] - start[1]),
      );
      if (mapped === SEVERAL) nearBorderM += lengthM;
      return mapped < 0 ? null : { transect: transectIndex, mapped, recorded, lengthM };
    }).filter((s) => s !== null);
  });
  return { stretches, nearBorderM };
}

/** The one class mapped in the 3 × 3 cells around a spot. */
function mappedClass(
  { frame: { x0, y0, cellM, nx, ny }, pieces }: Bed,
  habitatClass: readonly number[],
): (x: number, y: number) => number {
  const only = new Int32Array(nx * ny).fill(NO_BED);
  for (let i = 0; i < pieces.count; i++) {
    const own = habitatClass[pieces.habitat[i]];
    const before = only[pieces.cell[i]];
    only[pieces.cell[i]] = before === NO_BED || before === own ? own : SEVERAL;
  }
  return (x, y) => {
    const column = Math.floor((x - x0) / cellM);
    const row = Math.floor((y0 - y) / cellM);
    let found = NO_BED;
    for (let j = Math.max(0, row - 1); j <= Math.min(ny - 1, row + 1); j++) {
      for (let i = Math.max(0, column - 1); i <= Math.min(nx - 1, column + 1); i++) {
        const own = only[j * nx + i];
        if (own === NO_BED) continue;
        if (own === SEVERAL || (found !== NO_BED && found !== own)) return SEVERAL;
        found = own;
      }
    }
    return found;
  };
}
