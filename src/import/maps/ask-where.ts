/** The question where shapes lie whose file does not say, or says what cannot be. */

import type { Ask, Option } from '../../../shared/importing.ts';
import type { LngLat } from '../../../shared/survey.ts';
import { formatCount, formatPercent } from '../../../shared/units.ts';
import { listed } from '../../../shared/words.ts';
import { byCode, type CoordinateSystem, converterOf, LONGITUDE_LATITUDE } from './crs.ts';
import { type Numbers, READINGS, type Settled } from './numbers.ts';
import { type Candidate, candidateOf, metresBetween, rankSystems, type Sought } from './rank.ts';
import { boxOf } from './rings.ts';
import { outerRings, pictureOf, placeOrNone } from './where-picture.ts';
import { counted, formatDistance, sentence } from './words.ts';

/** So many are offered; the first three are drawn. */
const MOST_OPTIONS = 6;
const MOST_DRAWN = 3;
/** Systems of two names are one where they agree so far. */
const SAME_PLACE_M = 0.1;
/** Distances from waypoints that differ by less tell nothing: datums are that far apart. */
const ABOUT_AS_WELL_M = 300;
/** With all known places inside and no other system within this of it, there is no second reading. */
const APART_M = 5_000;
const CLEAR_SHARE = 0.9;

/** What is known already: places of the survey, and the systems that other maps name. */
export interface Known {
  near: readonly LngLat[];
  named: readonly { about: string; system: CoordinateSystem }[];
}

/** Null: leave the shapes out. Degrees that lie by the known places need no question, which is told among the remarks. */
export function askWhere(
  group: readonly Numbers[],
  nth: number,
  { near, named: systems }: Known,
  ask: Ask,
  remarks: string[],
): Settled | null {
  const about = listed(
    group.map((numbers) => numbers.about),
    'and',
  );
  const sought = soughtOf(group);
  const candidates = neighboursFirst(rankSystems(sought, near), systems, sought);
  const best = candidates[0];
  const isUnnamed = group.every(({ system, refused }) => system === null && refused === null);
  if (isUnnamed && best?.system === LONGITUDE_LATITUDE && best.reading === 'as-written') {
    remarks.push(
      `${about}: names no coordinate system; its numbers are taken as longitude and latitude (WGS 84), which puts it ${whereTold(best)}`,
    );
    return { system: best.system, reading: best.reading };
  }
  const id = nth === 0 ? 'maps.crs' : `maps.crs-${nth + 1}`;
  const named = group[0].system;
  const offered =
    candidates.length === 0 && isDegrees(sought) ? asDegrees() : candidates.slice(0, MOST_OPTIONS);
  const options: Option[] = offered.map((candidate) => optionOf(candidate));
  if (named !== null)
    options.push({
      value: 'as-named',
      label: `as the file says: ${named.name}`,
      because: group[0].doubt ?? '',
    });
  options.push(
    { value: 'other', label: 'another system: its UTM zone or EPSG code' },
    { value: 'leave-out', label: 'leave these out' },
  );
  const answer = ask({
    kind: 'choice',
    id,
    about,
    ask: `Which coordinate system are the numbers of ${about} in?`,
    evidence: evidenceOf(group, sought, near, candidates),
    certain: isClear(candidates) && named === null,
    pictures: pictureOf(group, offered.slice(0, MOST_DRAWN), near),
    options,
    proposal: offered[0]?.value ?? null,
  });
  if (answer === null || answer === 'leave-out') return null;
  if (answer === 'as-named' && named !== null) return { system: named, reading: 'as-written' };
  if (answer === 'other') return askCode(id, about, ask);
  return candidateOf(answer, systemByCode);
}

function askCode(id: string, about: string, ask: Ask): Settled | null {
  const typed = ask({
    kind: 'text',
    id: `${id}.code`,
    about,
    ask: `Which UTM zone or EPSG code is the coordinate system of ${about}?`,
    evidence: [
      'none of the systems offered was taken; a UTM zone is written as 16N, with its datum where that is known (NAD 83 16N), and is taken for WGS 84 without one; who made the map knows the code of another system, a number such as 3078',
    ],
    certain: false,
    pictures: [],
    proposal: null,
  });
  const code = codeTyped(typed ?? '');
  const system = code === null ? null : systemByCode(code);
  return system === null ? null : { system, reading: 'as-written' };
}

/** First codes of UTM zones by datum, north and south (EPSG register). */
const UTM: Record<string, [north: number, south: number | null]> = {
  wgs84: [32600, 32700],
  nad83: [26900, null],
  nad27: [26700, null],
  etrs89: [25800, null],
};

/** `26916`, `EPSG:26916`, `16N`, `UTM 16N`, `NAD 83 / UTM zone 16N`; null for anything else. */
export function codeTyped(typed: string): number | null {
  const plainText = typed.toLowerCase().replace(/[\s/_.-]+/g, '');
  const code = /^(?:epsg:?)?(\d{4,5})$/.exec(plainText)?.[1];
  if (code !== undefined) return Number(code);
  const [, datum = 'wgs84', digits, side] =
    /^(wgs84|nad83|nad27|etrs89)?(?:utm)?(?:zone)?(\d{1,2})([ns])$/.exec(plainText) ?? [];
  const zone = Number(digits);
  if (side === undefined || zone < 1 || zone > 60) return null;
  const first = UTM[datum][side === 'n' ? 0 : 1];
  return first === null ? null : first + zone;
}

function systemByCode(code: number) {
  const read = byCode(code);
  return 'system' in read ? read.system : null;
}

function soughtOf(group: readonly Numbers[]): Sought {
  const rings = group.flatMap(({ item }) =>
    'features' in item ? item.features.flatMap(({ geometry }) => outerRings(geometry)) : [],
  );
  return { positions: group.flatMap(({ positions }) => positions), rings };
}

/** Maps of one lake mostly come in one system: one that another map names goes before those that fit about as well. */
function neighboursFirst(
  candidates: readonly Candidate[],
  named: Known['named'],
  { positions }: Sought,
): Candidate[] {
  if (candidates.length === 0) return [];
  const [x, y] = positions[0];
  const told = candidates.map((candidate): Candidate => {
    if (candidate.reading !== 'as-written') return candidate;
    const here = placeOrNone(converterOf(candidate.system), x, y);
    const beside = named.find(({ system }) => {
      const there = placeOrNone(converterOf(system), x, y);
      return here.length > 0 && there.length > 0 && metresBetween(here[0], there[0]) < SAME_PLACE_M;
    });
    return beside === undefined ? candidate : { ...candidate, beside: beside.about };
  });
  const best = candidates[0].distanceM;
  const first = (c: Candidate) => c.beside !== undefined && c.distanceM <= best + ABOUT_AS_WELL_M;
  return [...told.filter(first), ...told.filter((c) => !first(c))];
}

function isDegrees({ positions }: Sought): boolean {
  return positions.every(
    ([x, y]) =>
      Math.abs(x) <= 180 && Math.abs(y) <= 180 && (Math.abs(x) <= 90 || Math.abs(y) <= 90),
  );
}

/** Where nothing is known of the lake's place. */
function asDegrees(): Candidate[] {
  return (['as-written', 'exchanged'] as const).map((reading) => ({
    value: reading === 'as-written' ? 'EPSG:4326' : 'EPSG:4326 exchanged',
    system: LONGITUDE_LATITUDE,
    reading,
    alike: [],
    distanceM: Number.NaN,
    insideShare: null,
  }));
}

function optionOf(candidate: Candidate): Option {
  const { value, system, reading, alike } = candidate;
  const how = reading === 'as-written' ? '' : `, ${READINGS[reading]}`;
  const others =
    alike.length === 0 ? '' : `; ${formatCount(alike.length)} more put it within 3 m of that`;
  const label = `${system.name}${how}`;
  const neighbour =
    candidate.beside === undefined ? '' : `; the system that ${candidate.beside} names`;
  if (Number.isNaN(candidate.distanceM)) return { value, label };
  return { value, label, because: `${whereTold(candidate)}${neighbour}${others}` };
}

function whereTold({ distanceM, insideShare }: Candidate): string {
  if (insideShare !== null && insideShare > 0)
    return `around ${formatPercent(insideShare)} of the known places`;
  return distanceM === 0
    ? 'around the known places'
    : `${formatDistance(distanceM)} from the known places`;
}

function isClear(candidates: readonly Candidate[]): boolean {
  const [best, second] = candidates;
  if (best === undefined || (best.insideShare ?? 0) < CLEAR_SHARE || best.system.offM > APART_M)
    return false;
  return second === undefined || second.distanceM > APART_M;
}

function evidenceOf(
  group: readonly Numbers[],
  sought: Sought,
  near: readonly LngLat[],
  candidates: readonly Candidate[],
): string[] {
  const box = boxOf(sought.positions);
  const evidence = [
    `the first numbers lie between ${shown(box[0])} and ${shown(box[2])}, the second between ${shown(box[1])} and ${shown(box[3])}`,
  ];
  for (const { item, about, refused, doubt, system } of group) {
    if (refused !== null) evidence.push(`the system that ${about} names is ${refused}`);
    else if (doubt !== null) evidence.push(`of ${about}: ${doubt}`);
    else if (system === null && item.remarks.length === 0)
      evidence.push(`no coordinate system is named in ${about}`);
    if (system === null) for (const remark of item.remarks) evidence.push(remark);
  }
  if (near.length === 0) evidence.push('no waypoint and no placed map is there to compare with');
  else if (candidates.length === 0)
    evidence.push('none of the listed systems puts them within 50 km of the known places');
  else
    evidence.push(
      `${counted(candidates.length, 'system')} of the list would put them within 50 km of the known places; the first one ${whereTold(candidates[0])}`,
    );
  return evidence.map(sentence);
}

function shown(value: number): string {
  return Math.abs(value) > 1000 ? formatCount(Math.round(value)) : String(Number(value.toFixed(4)));
}
