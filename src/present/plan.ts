/** A plan of the next dives in words and figures: for terminal, page and the plan's own sheet. */

import { term, terms } from '../../shared/glossary.ts';
import type {
  PlanAlternative,
  PlanFile,
  PlanTarget,
  PrecisionPoint,
} from '../../shared/planning.ts';
import { en } from '../../shared/strings/report/en.ts';
import {
  formatArea,
  formatCount,
  formatDepth,
  formatLength,
  type UnitSystem,
} from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { NONE } from './quantity.ts';

/** Precision that is read off a curve in words: `15 % takes 18`. */
const READ_OFF = [0.3, 0.2, 0.15, 0.1, 0.05];
const MINUTES_AN_HOUR = 60;

export interface PlanRead {
  lake: string;
  /** one sentence, its numbers in the middle part */
  sentence: [before: string, strong: string, after: string];
  /** what it rests on, a sentence each */
  lead: string[];
  /** the curve in words */
  curve: string[];
  zones: { head: string[]; rows: string[][]; notes: string[] };
  alternatives: { head: string[]; rows: string[][]; notes: string[] };
  /** of the check by refitted simulation; null where there was none */
  check: string | null;
  cautions: string[];
}

export function readPlan(plan: PlanFile, units: UnitSystem = 'metric'): PlanRead {
  return {
    lake: plan.lake,
    sentence: opening(plan),
    lead: leadOf(plan, units),
    curve: curveWords(plan.curve, plan.request.added),
    zones: zonesTable(plan, units),
    alternatives: alternativesTable(plan, units),
    check: checkWords(plan),
    cautions: [
      'Places come from maps: look at each from the boat, and move or drop it where the dive plan says so.',
      ...(plan.transects[0]?.bearingRef === 'true'
        ? ['Bearings are from true north: set the declination of the place on the compass.']
        : []),
      en.cautionDiving,
    ],
  };
}

/** To whole per cents, below 10 % to one decimal. */
export function cvText(cv: number | null): string {
  if (cv === null) return `no ${term('cv')}`;
  const percent = 100 * cv;
  return `${percent < 9.95 ? percent.toFixed(1) : Math.round(percent)} %`;
}

/** `13 h 50 min`; `?` is never said: null where there are no times. */
export function hoursText(minutes: number): string {
  const whole = Math.round(minutes / 10) * 10;
  const [hours, rest] = [Math.floor(whole / MINUTES_AN_HOUR), whole % MINUTES_AN_HOUR];
  if (hours === 0) return `${Math.max(1, Math.round(minutes))} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}

function opening({
  transects,
  expected_cv,
  minutes,
  request,
  reached,
}: PlanFile): PlanRead['sentence'] {
  const many = `${formatCount(transects.length)} ${transects.length === 1 ? term('transect') : terms('transect')}`;
  const added = request.added ? ' more' : '';
  const time = minutes === null ? '' : `, some ${hoursText(minutes)} of diving`;
  if (expected_cv === null)
    return [`${many}${added} would `, 'not tell', ` how many ${terms('mussel')} there are${time}.`];
  const miss = reached ? '' : `, short of the ${targetText(request.target)} that was asked for`;
  const whole = request.added ? `${term('cv')} of both together` : term('cv');
  return [
    `${many}${added} are expected to give a ${whole} of `,
    cvText(expected_cv),
    `${miss}${time}.`,
  ];
}

export function targetText(target: PlanTarget): string {
  switch (target.kind) {
    case 'cv':
      return `${term('cv')} of ${cvText(target.cv)}`;
    case 'transects':
      return `${formatCount(target.transects)} ${terms('transect')}`;
    case 'minutes':
      return `${formatCount(target.minutes)} min`;
  }
}

function leadOf(plan: PlanFile, units: UnitSystem): string[] {
  const { request, current_cv, habitat_m2, no_dive_m2 } = plan;
  const barred =
    no_dive_m2 > 0
      ? ` ${formatArea(no_dive_m2, units)} where nobody may dive is left out, of the number too.`
      : '';
  return [
    `${capital(diveWords(request, units))}; for ${formatArea(habitat_m2, units)} of ${term('surveyedHabitat')}.${barred}`,
    ...(plan.stated === true
      ? [
          `It follows from what was stated of ${terms('density')} and detection, not from a survey: the range that was stated is in the band of the curve.`,
        ]
      : []),
    ...(current_cv === null ? [] : [basisWords(current_cv)]),
  ];
}

/** How each of the dives is made: `belt transects 30 m long and 1 m wide by two observers, …` */
export function diveWords(
  { dive, startDepthsM }: Pick<PlanFile['request'], 'dive' | 'startDepthsM'>,
  units: UnitSystem,
): string {
  const kind = dive.design === 'belt' ? terms('beltTransect') : terms('distanceTransect');
  const who =
    dive.observers === 2
      ? 'two observers, their roles exchanged from one to the next'
      : `one ${term('observer')}`;
  const way =
    dive.direction === 'down'
      ? 'down the slope'
      : dive.direction === 'across'
        ? 'across the slope'
        : `on ${Math.round(dive.direction)}° from true north`;
  const depths = listed(
    startDepthsM.map((d) => formatDepth(d, units)),
    'and',
  );
  const shore = `${depths} ${startDepthsM.length === 1 ? 'contour' : 'contours'}`;
  return `${kind} ${formatLength(dive.lengthM, 3, units)} long and ${formatLength(dive.widthM, 2, units)} wide by ${who}, ${way} from the ${shore}`;
}

/** What is known of dives that are still to come. */
export function basisWords(currentCv: number): string {
  return `This survey has a ${term('cv')} of ${cvText(currentCv)}; its ${terms('density')} and detection are what is expected of the next.`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Where the curve passes round numbers, and how much it can be trusted where there are few. */
export function curveWords(curve: readonly PrecisionPoint[], added: boolean): string[] {
  const told = READ_OFF.flatMap((cv) => {
    const at = curve.findIndex((p) => p.cv !== null && p.cv <= cv);
    const point = curve[at];
    // a curve that begins below says nothing of where it passed
    if (point === undefined || at === 0) return [];
    const before = curve[at - 1];
    const k = crossing(before, point, cv);
    return [`${cvText(cv)} takes ${formatCount(k)}${added ? ' more' : ''}`];
  });
  const few = curve.filter((p) => p.not_estimable > 0.05);
  const last = few.at(-1);
  const [first, end] = [curve[0], curve.at(-1)];
  const range =
    first === undefined || end === undefined
      ? []
      : [
          `${formatCount(first.transects)} ${added ? 'more ' : ''}${terms('transect')} give ${band(first)}, ${formatCount(end.transects)} give ${band(end)}.`,
        ];
  return [
    ...(told.length === 0 ? [] : [`A ${term('cv')} of ${told.join(', of ')}.`]),
    ...range,
    ...(last === undefined
      ? []
      : [
          `With ${formatCount(last.transects)} and fewer, some designs (${Math.round(100 * (few[0]?.not_estimable ?? 0))} % of those with ${formatCount(few[0]?.transects ?? 0)}) miss a substrate or an exchange of roles and cannot tell the total.`,
        ]),
  ];
}

/** Transects at which the curve passes a CV, straight between two points on logarithmic axes. */
function crossing(a: PrecisionPoint | undefined, b: PrecisionPoint, cv: number): number {
  if (a === undefined || a.cv === null || b.cv === null || a.cv <= b.cv) return b.transects;
  const t = Math.log(a.cv / cv) / Math.log(a.cv / b.cv);
  return Math.ceil(a.transects * (b.transects / a.transects) ** t);
}

function band({ cv, lower, upper }: PrecisionPoint): string {
  if (cv === null || lower === null || upper === null) return `no ${term('cv')}`;
  const [least, most] = [cvText(lower), cvText(upper)];
  if (least === most) return `${cvText(cv)} (much the same from one design to another)`;
  return `${cvText(cv)} (${least} to ${most} from one design to another)`;
}

function zonesTable(plan: PlanFile, units: UnitSystem): PlanRead['zones'] {
  const { zones, transects } = plan;
  return {
    notes: sharedWords(plan, units),
    head: ['Stretch of the shore', 'named', 'from the contour', 'its length', 'dives', 'each'],
    rows: zones.map((z, i) => [
      String(z.section),
      namesOf(transects.filter((t) => t.zone === i)),
      formatDepth(z.startDepthM, units),
      formatLength(z.lineM, 2, units),
      formatCount(z.transects),
      z.minutes === null ? NONE : `${Math.round(z.minutes)} min`,
    ]),
  };
}

/** A stretch is told of where it has so many more dives than its length would give. */
const TELLING = 2;

/** Why a stretch has many more dives than another, and what it would cost to share them by length. */
function sharedWords({ zones, by_length: even }: PlanFile, units: UnitSystem): string[] {
  if (even === undefined) return [];
  const severalDepths = new Set(zones.map((z) => z.startDepthM)).size > 1;
  const more = zones.flatMap(({ section, startDepthM, transects }, i) => {
    const byLength = even.transects[i] ?? 0;
    if (transects - byLength < TELLING) return [];
    const from = severalDepths ? ` from ${formatDepth(startDepthM, units)}` : '';
    return [
      `stretch ${section}${from} has ${formatCount(transects)}, by its length ${formatCount(byLength)}`,
    ];
  });
  if (more.length === 0) return [];
  const all = even.transects.reduce((sum, n) => sum + n, 0);
  const would =
    even.cv === null ? 'could not tell the total' : `are expected to give ${cvText(even.cv)}`;
  return [
    `Dives go where they tell most of the total, and every stretch keeps half of what its length would give, since ${terms('density')} may change along the shore: ${more.join('; ')}. Shared by length the ${formatCount(all)} ${would}.`,
  ];
}

/** `P03 to P16` */
function namesOf(transects: PlanFile['transects']): string {
  const [first, last] = [transects[0], transects.at(-1)];
  if (first === undefined || last === undefined) return NONE;
  return first === last ? first.transect : `${first.transect} to ${last.transect}`;
}

function alternativesTable(plan: PlanFile, units: UnitSystem): PlanRead['alternatives'] {
  const { alternatives, minutes } = plan;
  if (alternatives.length === 0 || minutes === null) return { head: [], rows: [], notes: [] };
  const ordered = [...alternatives].sort((a, b) => (a.cv ?? Infinity) - (b.cv ?? Infinity));
  return {
    head: ['Search', 'by', 'width', 'each', 'dives', `expected ${term('cv')}`],
    rows: ordered.map((a) => alternativeRow(a, units)),
    notes: [
      `The same ${hoursText(minutes)} spent in other ways. Minutes are medians of the sheets; a strip of another width is taken to be searched as fast a square metre and, on ${terms('beltTransect')}, as well.`,
      ...(alternatives.some((a) => a.cv === null)
        ? [`No ${term('cv')}: one observer alone cannot tell how much is missed.`]
        : []),
    ],
  };
}

function alternativeRow(a: PlanAlternative, units: UnitSystem): string[] {
  return [
    a.design === 'belt' ? term('belt') : term('distance'),
    a.observers === 2 ? 'two' : 'one',
    formatLength(a.width_m, 2, units),
    `${Math.round(a.minutes_a_transect)} min`,
    formatCount(a.transects),
    cvText(a.cv),
  ];
}

function checkWords({ check }: PlanFile): string | null {
  if (check === null) return null;
  const { surveys, expected_cv, simulated_cv, simulated_se, not_estimable } = check;
  const lost =
    not_estimable > 0 ? ` ${Math.round(100 * not_estimable)} % of them gave no number.` : '';
  if (simulated_cv === null || simulated_se === null)
    return `${formatCount(surveys)} surveys simulated with this plan: too few gave a number.${lost}`;
  const told = `expected ${term('cv')} ${cvText(expected_cv)}, simulated ${cvText(simulated_cv)} ± ${cvText(simulated_se)}`;
  return `${formatCount(surveys)} surveys simulated with this plan and fitted again, the best model alone: ${told}.${lost}`;
}
