/** A shoreline in pieces → closed rings, asking where it does not close by itself. */

import { type Finding, noticeAt } from '../../../shared/findings.ts';
import type { Ask, PictureShape } from '../../../shared/importing.ts';
import { formatCount, formatPercent } from '../../../shared/units.ts';
import { bridged } from './bridge.ts';
import { endDistances, type Joined, joinLines } from './join-lines.ts';
import { type Line, lengthOf } from './network.ts';
import { ringArea } from './rings.ts';
import { gapsPicture, type Mark, MOST_DRAWN, pictureOf, ringShape } from './shore-pictures.ts';
import { counted, formatDistance, sentence } from './words.ts';

/** Ends within this of each other are the same by any map's precision: no question. */
const SAME_M = 0.02;
/** What is farther is no slip of a pen. */
const MOST_M = 100;
/** The ends that meet leave off where the distance to the next end grows so many times at once. */
const BREAK = 3;
const CLEAR_BREAK = 10;
/** The tolerance lies so much above the largest gap that is to close. */
const ABOVE = 1.25;
/** Gaps are proposed to be closed up to this share of the shoreline around them. */
const SMALL_SHARE = 0.05;
const MOST_BRIDGED = 200;

export interface ShoreContext {
  about: string;
  ask: Ask;
  findings: Finding[];
  remarks: string[];
  /** rings too small for a lake or an island, left out: drawn where the outline is asked about */
  slivers: Line[];
  /** whatever was joined, closed or left out on the way */
  marks: Mark[];
  toLngLat(position: readonly number[]): [number, number];
}

export function ringsOfPieces(lines: readonly Line[], context: ShoreContext): Line[] {
  const joined = joinAsAsked(lines, context);
  tellDropped(joined, context);
  const rings = [...joined.rings, ...resolveForks(joined, context), ...closeGaps(joined, context)];
  return rings.filter((ring) => ring.length > 3);
}

/** The distances between ends show up to where they are meant to meet. */
function joinAsAsked(
  lines: readonly Line[],
  { about, ask, remarks, marks, toLngLat }: ShoreContext,
): Joined {
  const ends = endDistances(lines).filter(({ distanceM }) => Number.isFinite(distanceM));
  const distances = ends.map(({ distanceM }) => distanceM);
  const { gapM, nextM } = breakOf(distances);
  if (gapM <= SAME_M) {
    if (lines.length > 1)
      remarks.push(`${about}: ${counted(lines.length, 'piece')} whose ends meet are joined`);
    return joinLines(lines, SAME_M);
  }
  const proposal = Number((ABOVE * gapM).toPrecision(2));
  const trial = joinLines(lines, proposal);
  const within = distances.filter((d) => d <= gapM).length;
  const evidence = [
    `${formatCount(within)} of ${counted(distances.length, 'end')} lie within ${formatDistance(gapM)} of another one${nextM === null ? '' : `, the next one ${formatDistance(nextM)} from any`}`,
    `joined so, ${counted(lines.length, 'piece')} make ${counted(trial.rings.length, 'closed ring')} and ${counted(trial.open.length, 'line')} that stays open, with ${counted(trial.spurs.length, 'spur')} and forks in ${counted(trial.forked.length, 'part')}`,
  ];
  if (trial.tiny.length > 0)
    evidence.push(`${counted(trial.tiny.length, 'piece')} are shorter than that and vanish`);
  const isSound = trial.open.length === 0 && trial.forked.length === 0 && trial.tiny.length === 0;
  const answer = ask({
    kind: 'number',
    id: 'outline.join',
    about,
    ask: 'The shoreline is in pieces: up to which distance are two ends the same place?',
    evidence: evidence.map(sentence),
    certain: isSound && (nextM === null || nextM > CLEAR_BREAK * gapM),
    pictures: pictureOf(
      'Pieces of the shoreline; what does not close is marked',
      lines,
      [...trial.open, ...trial.spurs],
      toLngLat,
    ),
    unit: 'm',
    least: 0,
    most: MOST_M,
    proposal,
  });
  const toleranceM = answer ?? proposal;
  remarks.push(
    `${about}: ends of pieces within ${formatDistance(toleranceM)} of one another are joined in their middle`,
  );
  const moved = ends.filter(({ distanceM: d }) => d > SAME_M && d <= toleranceM);
  if (moved.length > 0)
    marks.push({
      what: 'end of a piece joined to another one',
      lines: moved.map(({ at }) => [at]),
    });
  return toleranceM === proposal ? trial : joinLines(lines, Math.max(toleranceM, 1e-6));
}

/** The largest distance that still belongs to ends that meet, and the next one; 0 where all meet exactly. */
function breakOf(distances: readonly number[]): { gapM: number; nextM: number | null } {
  let best = {
    ratio: BREAK,
    gapM: distances.findLast((d) => d <= MOST_M) ?? 0,
    nextM: null as number | null,
  };
  for (let k = 1; k < distances.length; k++) {
    const [before, after] = [Math.max(distances[k - 1], SAME_M), distances[k]];
    if (before > MOST_M) break;
    // most ends have to meet: pieces of a drawing that has no ring do not
    if (2 * k >= distances.length && after / before > best.ratio)
      best = { ratio: after / before, gapM: distances[k - 1], nextM: after };
  }
  return best;
}

function tellDropped(
  { spurs, twice, tiny }: Joined,
  { about, findings, marks, toLngLat }: ShoreContext,
): void {
  const tell = (code: string, dropped: readonly Line[], what: string, mark: string) => {
    if (dropped.length === 0) return;
    const longest = dropped.reduce((a, b) => (lengthOf(b) > lengthOf(a) ? b : a));
    const message = `${counted(dropped.length, 'piece')} ${what}, the longest of ${formatDistance(lengthOf(longest))} at ${placeTold(toLngLat(longest[0]))}: left out`;
    findings.push(noticeAt({ table: about }, code, message));
    marks.push({ what: mark, lines: [...dropped] });
  };
  tell('shoreline-twice', twice, 'of the shoreline are there a second time', 'piece drawn twice');
  tell(
    'shoreline-spur',
    spurs,
    'hang on the shoreline and lead nowhere',
    'piece that leads nowhere',
  );
  tell(
    'shoreline-tiny',
    tiny,
    'are no longer than the distance within which ends are the same',
    'piece too short to count',
  );
}

function resolveForks({ forked }: Joined, { about, ask, toLngLat, remarks }: ShoreContext): Line[] {
  if (forked.length === 0) return [];
  const faces = forked.flatMap((part) => part.faces);
  const at = forked.flatMap((part) => part.at);
  const areas = faces
    .map(ringArea)
    .sort((a, b) => b - a)
    .slice(0, 5);
  const answer = ask({
    kind: 'choice',
    id: 'outline.forks',
    about,
    ask: 'The lines of the shoreline fork: is the outermost line the shore, or is every closed part water of its own?',
    evidence: [
      `more than two lines meet at ${counted(at.length, 'place')}, the first at ${placeTold(toLngLat(at[0]))}`,
      `they close ${counted(faces.length, 'part')}, the largest of ${areas.map((a) => `${Number((a / 10_000).toPrecision(3))} ha`).join(', ')}`,
    ].map(sentence),
    certain: false,
    pictures: [
      {
        kind: 'map',
        caption: 'The parts that the lines close, and where they fork',
        shapes: [
          ...forked.map(
            ({ around }): PictureShape => ({
              look: 'area',
              label: 'outermost line',
              option: 'outermost',
              geometry: ringShape(around, toLngLat),
            }),
          ),
          ...faces.slice(0, MOST_DRAWN).map(
            (face): PictureShape => ({
              look: 'area',
              label: 'closed part',
              option: 'every-part',
              geometry: ringShape(face, toLngLat),
            }),
          ),
          {
            look: 'fault',
            label: 'fork',
            option: null,
            geometry: { type: 'MultiPoint', coordinates: at.slice(0, MOST_DRAWN).map(toLngLat) },
          },
        ],
      },
    ],
    options: [
      {
        value: 'outermost',
        label:
          'the outermost line is the shore; lines inside of it (dams, bridges, borders) are left out',
      },
      { value: 'every-part', label: 'every closed part is water of its own' },
    ],
    proposal: 'outermost',
  });
  if (answer === 'every-part') return faces;
  remarks.push(`${about}: where the shoreline forks, its outermost line was taken`);
  return forked.map(({ around }) => around);
}

function closeGaps({ open }: Joined, context: ShoreContext): Line[] {
  if (open.length === 0) return [];
  const { about, ask, findings, marks, toLngLat, remarks } = context;
  const totalM = open.reduce((sum, line) => sum + lengthOf(line), 0);
  const leave = () => {
    const message = `${counted(open.length, 'line')} of the shoreline, ${formatDistance(totalM)} in all, do not close: left out`;
    findings.push(noticeAt({ table: about }, 'shoreline-open', message));
    marks.push({ what: 'line that does not close, left out', lines: [...open] });
    return [];
  };
  if (open.length > MOST_BRIDGED) return leave();
  const { rings, bridges } = bridged(open);
  const bridgedM = bridges.reduce((sum, { lengthM }) => sum + lengthM, 0);
  const widest = bridges.reduce((a, b) => (b.lengthM > a.lengthM ? b : a));
  const answer = ask({
    kind: 'choice',
    id: 'outline.gaps',
    about,
    ask: 'The shoreline has gaps: are they closed by straight lines?',
    evidence: [
      `${counted(bridges.length, 'gap')}, the widest of ${formatDistance(widest.lengthM)} at ${placeTold(toLngLat(widest.from))}`,
      `closed by straight lines they are ${formatPercent(bridgedM / (totalM + bridgedM))} of the shoreline around them`,
    ].map(sentence),
    certain: false,
    pictures: gapsPicture(open, bridges, toLngLat),
    options: [
      { value: 'close', label: 'close them by straight lines' },
      { value: 'leave-out', label: 'leave out the lines that do not close' },
    ],
    proposal: bridgedM <= SMALL_SHARE * totalM ? 'close' : 'leave-out',
  });
  if (answer !== 'close') return leave();
  marks.push({
    what: 'gap closed by a straight line',
    lines: bridges.map(({ from, to }) => [[...from], [...to]]),
  });
  remarks.push(
    `${about}: ${counted(bridges.length, 'gap')} of the shoreline, the widest of ${formatDistance(widest.lengthM)} at ${placeTold(toLngLat(widest.from))}, closed by straight lines`,
  );
  return rings;
}

/** To 1 m: `44.41550, −84.96316` as latitude and longitude. */
export function placeTold([lon, lat]: readonly [number, number]): string {
  return `latitude ${lat.toFixed(5)}, longitude ${lon.toFixed(5)}`;
}
