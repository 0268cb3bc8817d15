/** A plan drawn from a frame: in every zone a systematic sample of its places with a random start, named and with its roles. */

import { expectedCv, type Roles, systematic } from '../../models/further.ts';
import { stream } from '../../models/index.ts';
import type { PlannedLine, PlanZone } from '../../shared/planning.ts';
import { type FrameZone, type PlanFrame, type PlanGround, STREAMS } from './frame.ts';

/** Where a planned transect lies in a frame, and who searches it. */
export interface PlannedPlace {
  /** index in the zones */
  zone: number;
  /** index in its ropes */
  place: number;
  roles: Roles;
}

export interface Drawn {
  zones: PlanZone[];
  transects: PlannedLine[];
  /** of each transect */
  places: PlannedPlace[];
  expectedCv: number | null;
}

/** @param counts transects a zone */
export function drawPlan(ground: PlanGround, frame: PlanFrame, counts: readonly number[]): Drawn {
  const random = stream(frame.asked.seed, STREAMS.plan);
  const laid = frame.zones.flatMap((zone, z) =>
    systematic(zone.ropes.length, counts[z], random.uniform()).map((place) => ({ zone: z, place })),
  );
  const places = laid.map((p, i) => ({ ...p, roles: frame.roles[i % frame.roles.length] }));
  const names = newNames(
    places.length,
    new Set(ground.survey.transects.map((t) => t.transect.toLowerCase())),
  );
  return {
    zones: frame.zones.map((z, i) => zoneOf(z, counts[i])),
    transects: places.map((p, i) => lineOf(ground, frame, p, names[i])),
    places,
    expectedCv: expectedCv(
      frame.model,
      places.map(({ zone, place }) => frame.zones[zone].information[place]),
    ),
  };
}

function zoneOf({ section, startDepthM, lineM, minutes }: FrameZone, transects: number): PlanZone {
  return { section, startDepthM, lineM, transects, minutes };
}

function lineOf(
  { plane, rows, declinationDeg }: PlanGround,
  { zones, asked }: PlanFrame,
  { zone, place, roles }: PlannedPlace,
  name: string,
): PlannedLine {
  const rope = zones[zone].ropes[place];
  const start = plane.inverse(rope.start);
  const trueDeg = rope.gridBearingDeg + plane.convergenceDeg(start);
  const bearing = Math.round(trueDeg - (declinationDeg ?? 0));
  return {
    transect: name,
    zone,
    start,
    end: plane.inverse(rope.end),
    bearingDeg: ((bearing % 360) + 360) % 360,
    bearingRef: declinationDeg === null ? 'true' : 'magnetic',
    // what can be laid, to half a metre
    lengthM: Math.min(asked.dive.lengthM, Math.round(2 * rope.lengthM) / 2),
    startDepthM: rope.startDepthM,
    endDepthM: rope.endDepthM,
    primary: rows.observerNames[roles.primary],
    secondary: roles.secondary === null ? null : rows.observerNames[roles.secondary],
  };
}

/** P01, P02, …, with another letter where the survey has one of these already. */
function newNames(count: number, taken: ReadonlySet<string>): string[] {
  const digits = Math.max(2, String(count).length);
  for (const letters of ['P', 'Q', 'R', 'PL', 'NEXT']) {
    const names = Array.from(
      { length: count },
      (_, i) => `${letters}${String(i + 1).padStart(digits, '0')}`,
    );
    if (names.every((n) => !taken.has(n.toLowerCase()))) return names;
  }
  throw new RangeError('got a survey with transects of every name of a plan, expected one without');
}
