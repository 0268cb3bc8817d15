/** The lake's bed as a planned rope meets it, and the bed that the plan is for: without what cannot be dived. */

import type { MappedHabitat, SurveyRows } from '../../models/index.ts';
import { median } from '../../shared/extent.ts';
import { type Bed, type BedPieces, REASONS, type XY, type XYPolygon } from '../../shared/survey.ts';
import type { Ground } from './lay.ts';
import { isWithin } from './polygons.ts';

export interface GroundInput {
  bed: Bed;
  /** its habitats with classes by index */
  habitats: readonly MappedHabitat[];
  rows: SurveyRows;
  depthAt(p: XY): number | null;
  noDive: readonly XYPolygon[];
  maxLengthM: number | null;
}

const NO_DIVE = REASONS.indexOf('no dive');

/** The pieces, those where nobody may dive outside of the surveyed habitat by the middle of their cell; and how much that is. */
export function diveable(
  { bed: { frame, pieces } }: Pick<GroundInput, 'bed'>,
  noDive: readonly XYPolygon[],
): { pieces: BedPieces; habitatM2: number; noDiveM2: number } {
  const reason = Uint8Array.from(pieces.reason);
  let [habitatM2, noDiveM2] = [0, 0];
  const barred = new Map<number, boolean>();
  const isBarred = (cell: number): boolean => {
    let known = barred.get(cell);
    if (known === undefined) {
      const [column, row] = [cell % frame.nx, Math.floor(cell / frame.nx)];
      const x = frame.x0 + (column + 0.5) * frame.cellM;
      const y = frame.y0 - (row + 0.5) * frame.cellM;
      known = isWithin([x, y], noDive);
      barred.set(cell, known);
    }
    return known;
  };
  for (let i = 0; i < pieces.count; i++) {
    // the survey's own places are out of its bed already
    if (reason[i] === NO_DIVE) noDiveM2 += pieces.areaM2[i];
    if (reason[i] !== 0) continue;
    if (noDive.length > 0 && isBarred(pieces.cell[i])) {
      reason[i] = NO_DIVE;
      noDiveM2 += pieces.areaM2[i];
    } else habitatM2 += pieces.areaM2[i];
  }
  return { pieces: { ...pieces, reason }, habitatM2, noDiveM2 };
}

/** Habitats to the width of the grid's cells: of each the one with most of the surveyed habitat in it. */
export function groundOf(input: GroundInput): Ground {
  const { bed, habitats, rows, depthAt, noDive, maxLengthM } = input;
  const { frame, pieces } = bed;
  const most = new Float64Array(frame.nx * frame.ny);
  const habitatOf = new Int32Array(frame.nx * frame.ny).fill(-1);
  for (let i = 0; i < pieces.count; i++) {
    const cell = pieces.cell[i];
    if (pieces.reason[i] !== 0 || pieces.areaM2[i] <= most[cell]) continue;
    most[cell] = pieces.areaM2[i];
    habitatOf[cell] = pieces.habitat[i];
  }
  const known = habitats.map(({ classes, plantCover }) => ({
    classes,
    plantCover: plantCover ?? recordedPlants(rows, classes),
  }));
  const clarity = rows.segments.flatMap((s) => s.clarityM ?? []);
  return {
    depthAt,
    habitatAt([x, y]) {
      const column = Math.floor((x - frame.x0) / frame.cellM);
      const row = Math.floor((frame.y0 - y) / frame.cellM);
      if (column < 0 || row < 0 || column >= frame.nx || row >= frame.ny) return null;
      return known[habitatOf[row * frame.nx + column]] ?? null;
    },
    isBarred: (p) => isWithin(p, noDive),
    maxLengthM,
    clarityM: clarity.length === 0 ? null : median(clarity),
  };
}

/** Of a habitat that is mapped without plants: the mean that observers recorded on its classes, a whole score. */
function recordedPlants({ segments }: SurveyRows, classes: readonly number[]): number {
  let [sum, area] = [0, 0];
  for (const s of segments) {
    if (!s.classes.some((c) => classes.includes(c))) continue;
    sum += s.areaM2 * s.plantCover;
    area += s.areaM2;
  }
  return area === 0 ? 0 : Math.round(sum / area);
}
