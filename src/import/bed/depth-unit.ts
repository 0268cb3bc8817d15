/** The questions about a depth map's numbers: what they are, the level of the lake, and how the water stood on the days of the dives. */

import type { Ask, ImportPicture, Option } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { plain } from '../../../shared/words.ts';
import {
  type Comparison,
  depthOf,
  type Judged,
  leavesNoOther,
  levelDifference,
  MEANINGS,
  METRES,
  type Meaning,
} from './depth-meaning.ts';

/** What is known of a map before its numbers are understood. */
export interface DepthMapFacts {
  about: string;
  /** '' for the first map, `.2` for the second: tells their questions apart */
  suffix: string;
  /** property that the numbers stand in; null for a raster */
  property: string | null;
  /** `m`, `ft` or another word, where the file itself names a unit */
  unit: string | null;
  /** it is called as ours is, so that its unit and sign are ours */
  own: boolean;
  /** every value names its unit, and all were turned into metres */
  unitsNamed: boolean;
  least: number;
  most: number;
  comparison: Comparison | null;
  /** the map's median number on the outline; null where it has none there */
  onOutline: number | null;
}

export interface DepthAnswers {
  meaning: Meaning;
  level: number | null;
  shiftM: number;
}

/** Differences up to so many standard errors are noise. */
const NOISE_SE = 2;
/** Depths are read to 0.1 m: a smaller difference is nobody's water level. */
const READ_TO_M = 0.1;
/** The highest lakes lie near 6,400 m, the lowest shore at −440 m; in feet and with room. */
const HIGHEST = 25_000;
const LOWEST = -2_000;
/** A lake's level moves less than this between a map and a dive, m. */
const MOST_SHIFT_M = 20;
/** So near to the unit's ratio the fitted one counts as the same. */
const SAME_RATIO = 0.1;

/** Null while the meaning, or the level of an elevation, has neither answer nor proposal. */
export function askDepthUnit(
  facts: DepthMapFacts,
  ask: Ask,
  remarks: string[],
): DepthAnswers | null {
  const meaning = askMeaning(facts, ask, remarks);
  if (meaning === null) return null;
  const level = meaning.of === 'elevation' ? askLevel(facts, meaning, ask) : null;
  if (meaning.of === 'elevation' && level === null) return null;
  const shiftM = meaning.of === 'elevation' ? 0 : askShift(facts, meaning, ask, remarks);
  return { meaning, level, shiftM };
}

function askMeaning(facts: DepthMapFacts, ask: Ask, remarks: string[]): Meaning | null {
  const { comparison, about, suffix } = facts;
  const possible = MEANINGS.filter((m) => !facts.unitsNamed || m.unitM === 1);
  const best = comparison?.judged[0] ?? null;
  const settled = facts.own || facts.unitsNamed;
  if (settled && facts.least >= 0 && (best === null || best.meaning.value === 'm')) {
    if (best !== null)
      remarks.push(`${about}: taken as depth in metres; ${ratioTold(comparison!)}.`);
    return METRES;
  }
  const hinted = hintOf(facts, possible);
  const proposal = best?.meaning ?? hinted;
  const answer = ask({
    kind: 'choice',
    id: `depth.unit${suffix}`,
    about: facts.property === null ? about : `${about}, ${facts.property}`,
    ask: 'What are the numbers of the depth map?',
    evidence: evidenceOf(facts, best),
    certain: best !== null && best.meaning === hinted && isPlain(comparison!, best),
    pictures: pictureOf(comparison, best),
    options: possible.map((meaning): Option => {
      const judged = comparison?.judged.find((j) => j.meaning === meaning);
      return {
        value: meaning.value,
        label: meaning.label,
        ...(judged === undefined ? {} : { because: fitTold(judged) }),
      };
    }),
    proposal: proposal?.value ?? null,
  });
  return possible.find((m) => m.value === answer) ?? null;
}

/** The fitted ratio is the unit's, and nothing else fits. */
function isPlain(comparison: Comparison, { meaning }: Judged): boolean {
  const ratio = Math.abs(comparison.line?.slope ?? Number.NaN) * meaning.unitM;
  return Math.abs(ratio - 1) < SAME_RATIO && leavesNoOther(comparison);
}

/** What name and sign alone say; null where they say nothing. */
function hintOf(
  { property, unit, least, most, own, unitsNamed }: DepthMapFacts,
  possible: readonly Meaning[],
): Meaning | null {
  const name = (property ?? '').toLowerCase();
  const named = unit === 'm' || unit === 'ft' ? unit : null;
  const unitM = named ?? unitByName(name, own || unitsNamed);
  const of = /elev|height|altitude|navd|ngvd|msl/.test(name)
    ? '-elevation'
    : most <= 0 && least < 0
      ? '-negative'
      : '';
  return unitM === null ? null : (possible.find((m) => m.value === `${unitM}${of}`) ?? null);
}

function unitByName(name: string, metres: boolean): 'm' | 'ft' | 'fathom' | null {
  if (/(_|\b|[a-z])(ft|feet|foot)\)?$|feet|foot/.test(name)) return 'ft';
  if (/fathom|_fm\)?$/.test(name)) return 'fathom';
  return metres || /[_(\s]m\)?$|met(er|re)s?\)?$/.test(name) ? 'm' : null;
}

function evidenceOf(facts: DepthMapFacts, best: Judged | null): string[] {
  const { comparison, least, most, property } = facts;
  const range = `The numbers lie between ${plain(round(least, 2))} and ${plain(round(most, 2))}.`;
  const name = [
    ...(property === null ? [] : [`The property is called ${property}.`]),
    ...(facts.unit === null ? [] : [`The file names its unit: ${facts.unit}.`]),
  ];
  if (comparison === null || best === null) {
    const n = comparison?.pairs.length ?? 0;
    return [
      range,
      ...name,
      `The divers recorded depths at ${n} places on the map: too few to compare.`,
    ];
  }
  const drawn =
    comparison.byBearing === 0
      ? 'Transects were drawn straight from start to end.'
      : `Transects were drawn straight from start to end; ${formatCount(comparison.byBearing)} without an end along their bearing, as if it were counted from true north.`;
  return [
    range,
    ...name,
    `${sentence(ratioTold(comparison))}.`,
    `As ${best.meaning.label}: ${fitTold(best)}.`,
    drawn,
  ];
}

/** `at 212 places the map's numbers are 3.27 times the divers' depths` */
function ratioTold({ pairs, line }: Comparison): string {
  const n = formatCount(pairs.length);
  if (line === null) return `at ${n} places the divers recorded one depth only`;
  const shift =
    Math.abs(line.intercept) < 0.005
      ? ''
      : `, ${line.intercept < 0 ? 'less' : 'plus'} ${plain(Math.abs(round(line.intercept, 2)))}`;
  return `at ${n} places the map's numbers are ${line.slope.toFixed(2)} times the divers' depths in metres${shift} (medians)`;
}

function fitTold({ level, shiftM, spreadM, meaning }: Judged): string {
  const spread = `single places differ by ±${spreadM.toFixed(1)} m`;
  if (level !== null)
    return `with the lake at ${plain(round(level, 1))} ${meaning.unitM === 1 ? 'm' : 'ft'}, ${spread}`;
  if (Math.abs(shiftM) < 0.05) return `divers and map agree in the middle, ${spread}`;
  return `divers read ${Math.abs(shiftM).toFixed(1)} m ${shiftM > 0 ? 'deeper' : 'shallower'} than the map, ${spread}`;
}

function pictureOf(comparison: Comparison | null, best: Judged | null): ImportPicture[] {
  if (comparison === null || comparison.line === null || best === null) return [];
  return [
    {
      kind: 'scatter',
      caption: `The map's number against the depth that divers recorded at the same place; the line has the slope ${comparison.line.slope.toFixed(2)}.`,
      xLabel: 'recorded by divers (m)',
      yLabel: 'number of the map',
      points: comparison.pairs.map(({ x, y }) => ({ x, y })),
      slope: comparison.line.slope,
      intercept: comparison.line.intercept,
    },
  ];
}

function askLevel(facts: DepthMapFacts, meaning: Meaning, ask: Ask): number | null {
  const judged = facts.comparison?.judged.find((j) => j.meaning === meaning) ?? null;
  const unit = meaning.unitM === 1 ? 'm' : 'ft';
  const evidence: string[] = [];
  if (judged !== null && judged.level !== null)
    evidence.push(
      `With the lake at ${plain(round(judged.level, 2))} ${unit} the map agrees with the divers' depths at ${formatCount(facts.comparison!.pairs.length)} places; single places differ by ±${judged.spreadM.toFixed(1)} m.`,
    );
  if (facts.onOutline !== null)
    evidence.push(
      `Along the outline of the lake the map has ${plain(round(facts.onOutline, 2))} ${unit} in the middle.`,
    );
  evidence.push(
    `The map's elevations lie between ${plain(round(facts.least, 2))} and ${plain(round(facts.most, 2))} ${unit}.`,
  );
  const proposal = judged?.level ?? facts.onOutline;
  return ask({
    kind: 'number',
    id: `depth.level${facts.suffix}`,
    about: facts.about,
    ask: 'At which elevation did the lake stand on the days of the dives, in the datum of the map?',
    evidence,
    certain: false,
    pictures: [],
    unit,
    least: LOWEST,
    most: HIGHEST,
    proposal: proposal === null ? null : round(proposal, 2),
  });
}

/** Metres to add to the map's depths. */
function askShift(facts: DepthMapFacts, meaning: Meaning, ask: Ask, remarks: string[]): number {
  const { comparison, about } = facts;
  const difference =
    comparison === null
      ? null
      : levelDifference(comparison.pairs, (value) => depthOf(meaning, value, null));
  if (difference === null) return 0;
  const { differenceM, seM, transects, withinM } = difference;
  const isAbsurd = Math.abs(differenceM) > MOST_SHIFT_M;
  const isNoise = Math.abs(differenceM) <= Math.max(READ_TO_M, NOISE_SE * seM);
  const told = `On ${formatCount(transects)} transects the divers read ${Math.abs(differenceM).toFixed(2)} m ${differenceM < 0 ? 'less' : 'more'} than the map (median; standard error ${seM.toFixed(2)} m)`;
  const where =
    withinM === null
      ? 'Few places lie near a contour or sounding: between them the bed is no straight line, which shows in this difference too.'
      : `Places within ${formatCount(withinM)} m of a contour or sounding are compared.`;
  if (isNoise && facts.own) {
    remarks.push(`${about}: ${told}: nothing is added to its depths.`);
    return 0;
  }
  const answer = ask({
    kind: 'number',
    id: `depth.water_level${facts.suffix}`,
    about,
    ask: 'By how many metres did the water stand higher on the days of the dives than on the map? (lower: negative)',
    evidence: [
      `${told}.`,
      where,
      isNoise
        ? 'That is no more than such readings vary: nothing is proposed to be added.'
        : isAbsurd
          ? 'No lake rises so far: look again at what the numbers of the map are.'
          : 'That is more than such readings vary; a gauge at the lake would know.',
      'The number is added to every depth of the map. The shoreline stays where it is drawn, at depth 0.',
    ],
    certain: isNoise,
    pictures: [],
    unit: 'm',
    least: -MOST_SHIFT_M,
    most: MOST_SHIFT_M,
    proposal: isNoise || isAbsurd ? 0 : round(differenceM, 1),
  });
  return answer ?? 0;
}

function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function round(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}
