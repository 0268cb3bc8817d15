/** Waypoints of a GPS, or of a table, put to the transects' starts and ends: by name, else by time and order, else asked. */

import { type Finding, noticeAt } from '../../../shared/findings.ts';
import type {
  Ask,
  ImportedRow,
  ImportedTables,
  ImportPicture,
  RawLayer,
} from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { listed, quoted } from '../../../shared/words.ts';
import { lngLatOf, nameOf } from './divers.ts';
import { whichPlaces } from './waypoint-conflicts.ts';
import { type Place, placeOf, type Waypoint, waypointsOf } from './waypoint-list.ts';
import { matchesOf } from './waypoint-names.ts';
import { byTime } from './waypoint-times.ts';

/** Degrees are written to a centimetre. */
const DECIMALS = 7;
const LEFT_OUT = 'left-out';

/** The tables with the places that the sheets lacked, or with those of the GPS where that was answered. */
export function matchWaypoints(
  layers: readonly RawLayer[],
  tables: ImportedTables,
  ask: Ask,
): { tables: ImportedTables; findings: Finding[]; remarks: string[] } {
  const findings: Finding[] = [];
  const remarks: string[] = [];
  const waypoints = waypointsOf(layers, findings);
  if (waypoints.length === 0 || tables.transects.length === 0) return { tables, findings, remarks };
  const places = settle(waypoints, tables, layers, ask, remarks);
  if (places === null) return { tables, findings, remarks };
  tellUnmatched(waypoints, places, tables, findings, remarks);
  const useGps = whichPlaces(places, tables, findings, remarks, ask);
  const transects = tables.transects.map((row) => placedRow(row, places, useGps));
  return { tables: { ...tables, transects }, findings, remarks };
}

/** Which waypoint stands at which end of which transect; null while that is asked and nothing is proposed. */
function settle(
  waypoints: readonly Waypoint[],
  tables: ImportedTables,
  layers: readonly RawLayer[],
  ask: Ask,
  remarks: string[],
): Map<Place, Waypoint> | null {
  const names = tables.transects.map(nameOf);
  const byName = named(waypoints, names);
  const timed = byTime(
    waypoints.filter((w) => !byName.places.has(w.key)),
    tables.transects.filter((row) => !byName.taken.has(placeOf(nameOf(row), 'start'))),
  );
  const proposal = new Map([...byName.places, ...timed.places]);
  const open = tables.transects.filter(
    (row) =>
      lngLatOf(row, 'start') === null &&
      ![...proposal.values()].includes(placeOf(nameOf(row), 'start')),
  );
  const spare = waypoints.filter((w) => !proposal.has(w.key));
  const plain =
    byName.doubtful.length === 0 &&
    timed.places.size === 0 &&
    (open.length === 0 || spare.length === 0);
  if (plain) {
    remarks.push(
      `${formatCount(byName.places.size)} of ${formatCount(waypoints.length)} waypoints belong to transects by their names.`,
    );
    return turned(byName.places, waypoints);
  }
  const options = names.flatMap((name) => [
    { value: placeOf(name, 'start'), label: `start of ${name}` },
    { value: placeOf(name, 'end'), label: `end of ${name}` },
  ]);
  const answer = ask({
    kind: 'matching',
    id: 'waypoints.transects',
    about: listed([...new Set(waypoints.map((w) => w.layer.file))], 'and'),
    ask: 'Which waypoint marks which end of which transect?',
    evidence: [
      `${formatCount(byName.places.size)} of ${formatCount(waypoints.length)} waypoints name a transect.`,
      ...byName.doubtful,
      ...timed.evidence,
      ...(open.length === 0
        ? []
        : [
            `Without a place in the sheets and without a waypoint: ${listed(open.map(nameOf), 'and')}.`,
          ]),
    ],
    certain: false,
    pictures: [picture(waypoints, layers)],
    keys: waypoints.map((w) => ({
      key: w.key,
      label: w.time === null ? w.key : `${w.key}, ${w.time}`,
    })),
    options: [...options, { value: LEFT_OUT, label: 'no transect' }],
    proposal: Object.fromEntries(waypoints.map((w) => [w.key, proposal.get(w.key) ?? LEFT_OUT])),
  });
  return answer === null ? null : turned(new Map(Object.entries(answer)), waypoints);
}

/** By place, without what was left out; the first of two waypoints at one place counts. */
function turned(
  places: ReadonlyMap<string, Place>,
  waypoints: readonly Waypoint[],
): Map<Place, Waypoint> {
  const found = new Map<Place, Waypoint>();
  for (const waypoint of waypoints) {
    const place = places.get(waypoint.key);
    if (place !== undefined && place !== LEFT_OUT && !found.has(place)) found.set(place, waypoint);
  }
  return found;
}

interface Named {
  /** by key of the waypoint */
  places: Map<string, Place>;
  taken: Set<Place>;
  /** what was not plain, one sentence each */
  doubtful: string[];
}

function named(waypoints: readonly Waypoint[], transects: readonly string[]): Named {
  const result: Named = { places: new Map(), taken: new Set(), doubtful: [] };
  const running = isRunning(waypoints, transects);
  if (running)
    result.doubtful.push(
      'Many waypoints have running numbers, as a GPS gives them: these are not taken for numbers of transects.',
    );
  const matches = waypoints.map((w) => ({
    w,
    found: running && isNumber(w) ? [] : matchesOf(w.name, transects),
  }));
  const numbered = matches.filter(({ w, found }) => isNumber(w) && found.length > 0).length;
  if (numbered > 0)
    result.doubtful.push(
      `${formatCount(numbered)} waypoints are a number alone, which may be that of a transect or the GPS's own.`,
    );
  // whole labels before bare numbers, names with an end before those without
  const rank = (m: (typeof matches)[number]): number =>
    (m.found[0].whole ? 0 : 2) + (m.found[0].of === null ? 1 : 0);
  for (const { w, found } of matches
    .filter((m) => m.found.length > 0)
    .sort((a, b) => rank(a) - rank(b))) {
    if (found.length > 1) {
      result.doubtful.push(`${quoted(w.name)} may mean ${listed(found.map((m) => m.transect))}.`);
      continue;
    }
    const { transect, of } = found[0];
    const wanted = placeOf(transect, of ?? 'start');
    const other = result.taken.has(wanted);
    if (!other) {
      result.places.set(w.key, wanted);
      result.taken.add(wanted);
    } else if (of === null && !result.taken.has(placeOf(transect, 'end'))) {
      result.places.set(w.key, placeOf(transect, 'end'));
      result.taken.add(placeOf(transect, 'end'));
      result.doubtful.push(
        `Two waypoints are called after ${transect} and none says which end it is: the first is taken as its start.`,
      );
    } else
      result.doubtful.push(
        `${quoted(w.key)} is one more waypoint at the ${of ?? 'start'} of ${transect}.`,
      );
  }
  return result;
}

function isNumber({ name }: Waypoint): boolean {
  return /^\d+$/.test(name);
}

/** Some waypoints are numbers alone, and not all of them can be those of transects. */
function isRunning(waypoints: readonly Waypoint[], transects: readonly string[]): boolean {
  const numbers = waypoints.filter(isNumber);
  return numbers.some((w) => matchesOf(w.name, transects).length === 0);
}

function picture(waypoints: readonly Waypoint[], layers: readonly RawLayer[]): ImportPicture {
  const tracks = layers.flatMap((layer) =>
    layer.features.filter((f) => /LineString$/.test(f.geometry.type)).map((f) => f.geometry),
  );
  return {
    kind: 'map',
    caption:
      tracks.length === 0
        ? 'The waypoints'
        : 'The waypoints, and the way of the boat, which moves no transect',
    shapes: [
      ...tracks.map((geometry) => ({
        look: 'line' as const,
        label: 'way of the boat',
        option: null,
        geometry,
      })),
      ...waypoints.map((w) => ({
        look: 'point' as const,
        label: w.key,
        option: null,
        geometry: { type: 'Point' as const, coordinates: [...w.at] },
      })),
    ],
  };
}

/** What has no counterpart, both ways. */
function tellUnmatched(
  waypoints: readonly Waypoint[],
  places: ReadonlyMap<Place, Waypoint>,
  tables: ImportedTables,
  findings: Finding[],
  remarks: string[],
): void {
  const used = new Set([...places.values()].map((w) => w.key));
  const spare = waypoints.filter((w) => !used.has(w.key));
  if (spare.length > 0) {
    const message = `${formatCount(spare.length)} waypoints belong to no transect: ${listed(
      spare.map((w) => quoted(w.key)),
      'and',
    )}`;
    findings.push(noticeAt({ table: spare[0].layer.file }, 'waypoints-without-transect', message));
  }
  const without = tables.transects.filter(
    (row) => lngLatOf(row, 'start') === null && !places.has(placeOf(nameOf(row), 'start')),
  );
  if (without.length > 0) {
    const message = `no waypoint for the start of ${listed(without.map(nameOf), 'and')}`;
    findings.push(noticeAt({ table: 'transects.csv' }, 'transects-without-waypoint', message));
  }
  const gained = [...places.keys()].length;
  remarks.push(`Waypoints of the GPS stand at ${formatCount(gained)} ends of transects.`);
}

function placedRow(
  row: ImportedRow,
  places: ReadonlyMap<Place, Waypoint>,
  useGps: boolean,
): ImportedRow {
  const cells = { ...row.cells };
  for (const of of ['start', 'end'] as const) {
    const waypoint = places.get(placeOf(nameOf(row), of));
    if (waypoint === undefined || (lngLatOf(row, of) !== null && !useGps)) continue;
    cells[`${of}_lat`] = degrees(waypoint.at[1]);
    cells[`${of}_lon`] = degrees(waypoint.at[0]);
  }
  return { ...row, cells };
}

function degrees(value: number): string {
  return String(Number(value.toFixed(DECIMALS)));
}
