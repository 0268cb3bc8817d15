/**
 * What every plan of one kind of dive is drawn from: zones with their places, and what a transect at each is expected to
 * tell. The costly part; targets are then answered from it at once.
 */

import {
  type Allocation,
  type AllocationInput,
  allocations,
  evenAllocations,
  expectedCv,
  type PlanningModel,
  type Roles,
  transectInformation,
} from '../../models/further.ts';
import { type MappedHabitat, type SurveyRows, stream } from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import { CURVE_TO, type PlannedDive, type PlanRequest } from '../../shared/planning.ts';
import type { Bed, BedPieces, Plane, Survey, XY, XYPolygon } from '../../shared/survey.ts';
import { diveable, groundOf } from './ground.ts';
import type { LaidRope } from './lay.ts';
import { type DiveMinutes, diveMinutes, minutesFor } from './minutes.ts';
import { type Zone, zonesOf } from './places.ts';

/** A survey that was estimated, on its lake. */
export interface PlanGround {
  survey: Survey;
  analysis: Analysis;
  rows: SurveyRows;
  /** what is known, for the total of some pieces of the bed */
  modelOn(pieces: BedPieces): PlanningModel;
  /** dive minutes that were stated; left out: those of the sheets */
  minutes?: DiveMinutes;
  bed: Bed;
  /** of the bed, with classes by index */
  habitats: readonly MappedHabitat[];
  plane: Plane;
  depthAt(p: XY): number | null;
  /** along the shore, from 0 to 1 */
  shareAt(p: XY): number;
  /** degrees that magnetic north lies east of true north; null where the survey had no use for it */
  declinationDeg: number | null;
  noDive: readonly XYPolygon[];
}

export interface FrameAsked {
  dive: PlannedDive;
  added: boolean;
  sections: number;
  startDepthsM: readonly number[];
  allocation: PlanRequest['allocation'];
  seed: number;
  /** places looked at; left out: as many as a plan wants */
  places?: number;
  /** transects up to which they are shared among zones; left out: CURVE_TO */
  most?: number;
}

export interface FrameZone extends Zone {
  /** expected information of the rope at each place */
  information: Float64Array[];
  /** its mean */
  mean: Float64Array;
  minutes: number | null;
  lineM: number;
  /** transects that it has places for, also where only some of them were looked at */
  room: number;
}

export interface PlanFrame {
  asked: FrameAsked;
  /** `inHand` only where the dives are added */
  model: PlanningModel;
  /** of the survey as it is */
  currentCv: number | null;
  /** one observer alone, on no other survey, cannot tell how much is missed */
  isTelling: boolean;
  zones: FrameZone[];
  roles: readonly Roles[];
  /** by number of transects, from two a zone on */
  allocations: Allocation[];
  /** so many transects shared by the length of the zones; null without a zone */
  evenly(transects: number): Allocation | null;
  /** of the bed, those where nobody may dive outside */
  pieces: BedPieces;
  habitatM2: number;
  noDiveM2: number;
}

/** Streams of the seed: of the places, and of the plan's own start among them. */
export const STREAMS = { places: 1, plan: 2 } as const;

/**
 * A zone has at least this share of what its length would give, however little it tells by the model: density may change along the
 * shore where the model knows nothing of it.
 */
const LEAST_OF_LENGTH = 0.5;

/**
 * @throws RangeError where the model has no hold: as planningModel and transectInformation
 * @returns no zones where no rope can be laid
 */
export function planFrame(
  ground: PlanGround,
  asked: FrameAsked,
  progress: (share: number) => void = () => {},
): PlanFrame {
  const { rows, analysis, bed, plane, noDive, shareAt } = ground;
  const { pieces, habitatM2, noDiveM2 } = diveable(ground, noDive);
  const whole = ground.modelOn(pieces);
  const model = asked.added ? whole : { ...whole, inHand: null };
  const { zones, spacingM, usualSpacingM } = zonesOf({
    ...asked,
    frame: bed.frame,
    cellDepthM: bed.cellDepthM,
    shareAt,
    convergenceDeg: (p) => plane.convergenceDeg(plane.inverse(p)),
    ground: groundOf({
      ...ground,
      bed: { ...bed, pieces },
      maxLengthM: analysis.segments.max_length_m,
    }),
    start: stream(asked.seed, STREAMS.places).uniform(),
  });
  const roles = rolesOf(rows, asked.dive);
  const currentCv = whole.inHand === null ? null : expectedCv(whole, []);
  const misses = model.fit.likelihood.layout.divers.some((i) => i >= 0);
  const isTelling = asked.added || !misses || roles.some((r) => r.secondary !== null);
  const base = { asked, model, currentCv, isTelling, roles, pieces, habitatM2, noDiveM2 };
  if (roles.length === 0 || zones.length === 0)
    return { ...base, zones: [], allocations: [], evenly: () => null };
  const tells = transectInformation(model, model.fit, asked.seed);
  const cost =
    ground.minutes ?? diveMinutes(ground.survey.transects, asked.dive.design, asked.dive.observers);
  const all = zones.reduce((sum, z) => sum + z.ropes.length, 0);
  let done = 0;
  const told = zones.map((zone): FrameZone => {
    const information = zone.ropes.map((rope) => {
      progress(done++ / all);
      const shore = shareAt(rope.start);
      return tells(
        rope.segments.map((s) => ({ ...s, shore })),
        roles,
      );
    });
    return {
      ...zone,
      information,
      mean: meanOf(information),
      minutes: cost && meanMinutes(zone.ropes, cost, asked.dive.widthM),
      lineM: zone.ropes.length * spacingM,
      room: Math.round((zone.ropes.length * spacingM) / usualSpacingM),
    };
  });
  const { most = CURVE_TO } = asked;
  const rooms = told.reduce((sum, z) => sum + z.room, 0);
  const input: AllocationInput = {
    // without times every transect costs the same
    zones: told.map((z) => ({
      information: z.mean,
      minutes: z.minutes ?? 1,
      most: z.room,
      least: (LEAST_OF_LENGTH * z.room) / rooms,
    })),
    gradient: model.gradient,
    inHand: model.inHand,
  };
  return {
    ...base,
    zones: told,
    allocations:
      asked.allocation === 'even' ? byLength(input, told, most) : allocations(input, most),
    evenly: (transects) => byLength(input, told, transects).at(-1) ?? null,
  };
}

const byLength = (
  input: AllocationInput,
  zones: readonly FrameZone[],
  most: number,
): Allocation[] =>
  evenAllocations(
    input,
    zones.map((z) => z.room),
    most,
  );

/** The survey's pairs of observers in both orders, or each observer alone; of the design where it was dived. */
function rolesOf({ segments }: SurveyRows, dive: PlannedDive): Roles[] {
  const own = segments.filter((s) => s.design === dive.design);
  const names = new Set(
    own.flatMap((s) => [s.primary, ...(s.secondary === null ? [] : [s.secondary])]),
  );
  if (dive.observers === 1) return [...names].map((primary) => ({ primary, secondary: null }));
  const pairs = new Map<string, [number, number]>();
  for (const { primary, secondary } of own) {
    if (secondary === null) continue;
    const pair: [number, number] =
      primary < secondary ? [primary, secondary] : [secondary, primary];
    pairs.set(pair.join(' '), pair);
  }
  return [...pairs.values()].flatMap(([a, b]) => [
    { primary: a, secondary: b },
    { primary: b, secondary: a },
  ]);
}

function meanOf(matrices: readonly Float64Array[]): Float64Array {
  const mean = new Float64Array(matrices[0]?.length ?? 0);
  for (const m of matrices) for (let i = 0; i < mean.length; i++) mean[i] += m[i] / matrices.length;
  return mean;
}

function meanMinutes(ropes: readonly LaidRope[], cost: DiveMinutes, widthM: number): number {
  const lengthM = ropes.reduce((sum, r) => sum + r.lengthM, 0) / ropes.length;
  return minutesFor(cost, lengthM * widthM);
}
