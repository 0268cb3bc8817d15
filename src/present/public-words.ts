/**
 * The public texts of a map in one language: one reading for the page, for the poster and for the pictures, made when the file
 * is written and again in the reader's browser when they change the language.
 */

import type { PublicDepths, PublicFacts, PublicWishes } from '../../shared/public-map.ts';
import type { Formatter } from '../../shared/strings/formatter.ts';
import type { PublicTable } from '../../shared/strings/public/index.ts';

export type PublicFormatter = Formatter<PublicTable>;

export interface PublicTexts {
  title: string;
  /** the number and how sure it is, in one sentence that can be quoted */
  lead: string;
  /** its area and depth band, which stand beside it */
  holds: string[];
  /** what else has to be known to read it */
  notes: string[];
  map: { name: string; described: string; keys: string; hint: string };
  key: {
    heading: string;
    detected: string;
    notDetected: string;
    notSearched: string;
    surveyedPart: string;
    depth: string;
    /** shades of depth in words, the shallowest first; empty without a map of depth */
    depths: string[];
    /** what the marks leave open */
    notes: string[];
  };
  todo: { heading: string; items: string[] };
  /** name and value of what is known about the map */
  about: {
    heading: string;
    facts: [name: string, value: string][];
    /** the same, each in one line */
    lines: string[];
    notes: string[];
  };
  tables: { heading: string; byDepth: PublicTableText | null; places: PublicTableText };
  controls: {
    zoomIn: string;
    zoomOut: string;
    wholeLake: string;
    language: string;
    close: string;
    north: string;
  };
}

export interface PublicTableText {
  caption: string;
  columns: string[];
  rows: string[][];
}

/** The public's numbers carry one digit of the standard error: a tenth of what tables show. */
const COARSER = 10;

/** Everything that is read, but the words of a spot. */
export function publicTexts(
  facts: PublicFacts,
  wishes: PublicWishes,
  format: PublicFormatter,
): PublicTexts {
  const { say } = format;
  const { lake, places } = facts;
  const detected = places.filter((p) => p.counted > 0).length;
  const known = aboutFacts(facts, wishes, format);
  return {
    title: wishes.title ?? say('title', { lake }),
    lead: lead(facts, format),
    holds: holds(facts, format),
    notes: notes(facts, format),
    map: {
      name: say('map', { lake }),
      described: say('mapDescribed', { count: places.length, lake, detected }),
      keys: say('mapKeys'),
      hint: say('mapHint'),
    },
    key: {
      heading: say('key'),
      detected: say('detected'),
      notDetected: say('notDetected'),
      notSearched: say('notSearched'),
      surveyedPart: say('surveyedPart'),
      depth: say('depth'),
      depths: depthShades(facts).map((shade) => say('depthBand', roundly(shade, format))),
      notes: [say('meansNotDetected'), ...coarse(facts, format)],
    },
    todo: {
      heading: say('doHeading'),
      items: [
        say('doLook'),
        say('doDrain'),
        say('doDry'),
        say('doKeep'),
        say('doTell'),
        say('doNotTreat'),
        say('doRules'),
      ],
    },
    about: {
      heading: say('about'),
      facts: known,
      lines: known.map(([name, value]) => say('factLine', { name, value })),
      notes: [say('source'), say('notNavigation')],
    },
    tables: {
      heading: say('inWords'),
      byDepth: byDepth(facts, format),
      places: placeTable(facts, format),
    },
    controls: {
      zoomIn: say('zoomIn'),
      zoomOut: say('zoomOut'),
      wholeLake: say('wholeLake'),
      language: say('language'),
      close: say('close'),
      north: say('northMark'),
    },
  };
}

function aboutFacts(
  { effort }: PublicFacts,
  { contact, nextUpdate }: PublicWishes,
  format: PublicFormatter,
): [name: string, value: string][] {
  const { say } = format;
  const known: [string, string][] = [[say('surveyed'), format.days(effort.days)]];
  if (contact !== null) known.push([say('ask'), contact]);
  if (nextUpdate !== null) known.push([say('nextUpdate'), dayOrWords(nextUpdate, format)]);
  return known;
}

function lead({ number }: PublicFacts, format: PublicFormatter): string {
  const { say } = format;
  switch (number.of) {
    case 'nothing':
      return say('leadNothing');
    case 'counted':
      return say('leadCounted', { count: number.mussels });
    default: {
      const { estimate, lower, upper } = format.range(number, COARSER);
      const ofMussels = number.of === 'mussels';
      if (lower === null || upper === null)
        return say(ofMussels ? 'leadWithoutRange' : 'leadClustersWithoutRange', { estimate });
      return say(ofMussels ? 'lead' : 'leadClusters', { estimate, lower, upper });
    }
  }
}

function holds({ part, number, sampled }: PublicFacts, format: PublicFormatter): string[] {
  const { say } = format;
  const limit =
    number.of === 'nothing' && number.upperClusters !== null
      ? [say('limit', { upper: atMost(number.upperClusters, format) })]
      : number.of === 'clusters'
        ? [say('cluster')]
        : [];
  const searchedAt = sampled === null ? [] : [say('searchedDepths', both(sampled, format))];
  if (part === null) return [...limit, ...searchedAt];
  const size = { hectares: format.hectares(part.areaM2), acres: format.acres(part.areaM2) };
  const where = say('holds', { ...size, ...both(part, format) });
  return number.of === 'nothing' ? [...searchedAt, ...limit, where] : [where, ...limit];
}

/** A limit alone, to two digits. */
function atMost(upper: number, format: PublicFormatter): string {
  return format.range({ estimate: upper, se: null, lower: null, upper: null }).estimate;
}

function notes(facts: PublicFacts, format: PublicFormatter): string[] {
  const { say } = format;
  const { part, number, effort, missed, farShare, level } = facts;
  const ranged =
    (number.of === 'mussels' || number.of === 'clusters') &&
    number.lower !== null &&
    number.upper !== null;
  return [
    say('effort', {
      count: effort.lines,
      days: format.days(effort.days),
      squareMetres: format.number(effort.areaM2, 0),
    }),
    ...(ranged ? [say('rangeMeans', { level: format.percent(level) })] : []),
    ...(part === null || !(part.restM2 > 0)
      ? []
      : [
          say('rest', { hectares: format.hectares(part.restM2), acres: format.acres(part.restM2) }),
        ]),
    ...(farShare === null ? [] : [say('far', { share: format.percent(farShare) })]),
    ...(missed ? [say('missed')] : []),
  ];
}

function coarse({ coarseM }: PublicFacts, format: PublicFormatter): string[] {
  return coarseM === null ? [] : [format.say('coarse', { size: coarseM })];
}

/** Words of a place that was searched, or of any other spot. @param place number in `facts.places` */
export function placeWords(facts: PublicFacts, place: number, format: PublicFormatter): string[] {
  const { say } = format;
  const { counted: count, days: list, depths } = facts.places[place];
  const days = format.days(list);
  const square = facts.coarseM !== null;
  const first =
    count === 0
      ? say(square ? 'spotSquareNotDetected' : 'spotNotDetected', { days })
      : say(square ? 'spotSquareDetected' : 'spotDetected', { count, days });
  return [first, ...(depths === null ? [] : [say('spotDepth', both(depths, format))])];
}

/** @param shade number of the shade of depth, 0 the shallowest; null where no depth is mapped */
export function spotWords(
  facts: PublicFacts,
  spot: { inLake: boolean; inSurveyed: boolean; shade: number | null },
  format: PublicFormatter,
): string[] {
  const { say } = format;
  if (!spot.inLake) return [say('spotLand')];
  const counted = facts.part !== null && spot.inSurveyed;
  const shade = spot.shade === null ? undefined : depthShades(facts)[spot.shade];
  return [
    say(counted ? 'spotInside' : 'spotOutside'),
    ...(shade === undefined ? [] : [say('spotDepth', roundly(shade, format))]),
  ];
}

function depthShades({ depthBreaksM, deepestM }: PublicFacts): PublicDepths[] {
  if (deepestM === null) return [];
  const edges = [0, ...depthBreaksM, deepestM];
  return edges.slice(1).map((toM, i) => ({ fromM: edges[i], toM }));
}

/** Feet beside the metres: both are read. */
function both({ fromM, toM }: PublicDepths, format: PublicFormatter) {
  return {
    from: format.metres(fromM),
    to: format.metres(toM),
    fromFeet: format.feet(fromM),
    toFeet: format.feet(toM),
  };
}

/** The same for edges that are round numbers. */
function roundly(depths: PublicDepths, format: PublicFormatter) {
  const { fromM, toM } = depths;
  return { ...both(depths, format), from: format.number(fromM, 1), to: format.number(toM, 1) };
}

function byDepth(facts: PublicFacts, format: PublicFormatter): PublicTableText | null {
  const { say } = format;
  if (facts.byDepth.length === 0) return null;
  return {
    caption: say('byDepth'),
    columns: [say('depth'), say('area'), say('mussels'), say('couldBe')],
    rows: facts.byDepth.map(({ areaM2, mussels, ...depths }) => {
      const { estimate, lower, upper } = format.range(mussels, COARSER);
      const range = lower === null || upper === null ? '–' : say('fromTo', { lower, upper });
      const area = { hectares: format.hectares(areaM2), acres: format.acres(areaM2) };
      return [say('depthBand', both(depths, format)), say('areaBoth', area), estimate, range];
    }),
  };
}

function placeTable({ places }: PublicFacts, format: PublicFormatter): PublicTableText {
  const { say } = format;
  const parts = [
    say('partNorthWest'),
    say('partNorth'),
    say('partNorthEast'),
    say('partWest'),
    say('partMiddle'),
    say('partEast'),
    say('partSouthWest'),
    say('partSouth'),
    say('partSouthEast'),
  ];
  return {
    caption: say('places'),
    columns: [say('part'), say('depth'), say('result'), say('counted'), say('when')],
    rows: places.map(({ part, depths, counted, days }) => [
      parts[part],
      depths === null ? '–' : say('depthBand', both(depths, format)),
      say(counted > 0 ? 'detected' : 'notDetected'),
      format.number(counted, 0),
      format.days(days),
    ]),
  };
}

/** A day as the reader writes it; other words as they were given. */
function dayOrWords(text: string, format: PublicFormatter): string {
  return /^\d{4}-\d{2}-\d{2}$/.test(text) ? format.day(text) : text;
}
