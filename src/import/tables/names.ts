/**
 * Headers of other people's sheets, and what they may mean. A practitioner's words in English, those of three more languages beside
 * them; other words are matched by what stands below them.
 */

import { NAMES_ABROAD } from './names-abroad.ts';
import { type Unit, unitOf } from './numbers.ts';

export interface Header {
  /** lower case, without accents, signs and unit: what answers are kept by */
  key: string;
  /** the same without what stands in brackets within it: `Start (shallow) Lat` → start lat */
  short: string;
  /** as it stands in the file */
  text: string;
  unit: Unit | null;
  /** in brackets behind it, no unit: `mag`, `0-4` */
  note: string | null;
}

export type Kind = 'transects' | 'habitat' | 'detections' | 'planted_shells' | 'points';

/** How well a name fits a column: 3 it is ours, 2 it means nothing else there, 1 it may be meant, 0 not. */
export type Fit = 0 | 1 | 2 | 3;

const WORD_FOR: [RegExp, string][] = [
  [/#/g, ' number '],
  [/°/g, ' '],
  [/&|\+/g, ' and '],
  [/\b(no|nr|num|n\.o|numero|nummer)\b\.?/g, 'number'],
];

/** `Start Lat. (°)`, `startLat`, `START_LAT` → start lat */
export function headerOf(written: string): Header {
  const known = seen.get(written);
  if (known !== undefined) return known;
  if (seen.size >= MOST_SEEN) seen.clear();
  const header = headerRead(written);
  seen.set(written, header);
  return header;
}

/** The same few labels and values are looked at again and again. */
const seen = new Map<string, Header>();
const MOST_SEEN = 20_000;
/** What is longer is a sentence. */
const LONGEST_NAME = 80;

function headerRead(written: string): Header {
  const text = written.replace(/\s+/g, ' ').trim();
  const bracket = /[([{]\s*([^)\]}]*?)\s*[)\]}]\s*$/.exec(text);
  const inBrackets = bracket?.[1] ?? null;
  let unit = inBrackets === null ? null : unitOf(inBrackets);
  const note = unit === null ? inBrackets : null;
  let key = words(bracket === null ? text : text.slice(0, bracket.index));
  if (unit === null) {
    const behind = /^(.+?)[\s,/:]+(?:in |en )?(\S+)$/.exec(key);
    const last = behind === null ? null : unitOf(behind[2]);
    // "time in", "diver s": only a header that says _in means inches, and a letter alone no time
    const meant = last !== 's' && last !== 'h' && (last !== 'in' || /_in(ch|ches)?$/i.test(text));
    if (behind !== null && last !== null && meant) {
      unit = last;
      key = behind[1];
    }
  }
  const within = bracket === null ? text : text.slice(0, bracket.index);
  const short = /[([{].*[)\]}]/.test(within)
    ? words(within.replace(/[([{][^)\]}]*[)\]}]/g, ' '))
    : key;
  return { key, short, text, unit, note };
}

function words(text: string): string {
  let bare = text
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replace(/([A-Za-z])(\d)/g, '$1 $2')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase();
  for (const [sign, word] of WORD_FOR) bare = bare.replace(sign, word);
  return bare.replace(/[^\p{L}\p{N}%]+/gu, ' ').trim();
}

/** Sure names first, then those that may be meant; whole headers, as `words` leaves them. */
const NAMES: Record<Kind, Record<string, [sure: string, perhaps?: string]>> = {
  transects: {
    transect: [
      'transect( (id|number|name|label|code))?|tran(s|sect)?( (id|number))?',
      'id|label|site( id)?|station|line|t|tr|trans|dive( number)?|name|location',
    ],
    date: ['date|(survey|dive|sampling|sample|field) date|date of (dive|survey)', 'day|when'],
    design: [
      'design|survey (design|type|method)|transect type|method',
      'type|protocol|how searched',
    ],
    primary: [
      'primary( (observer|diver|searcher))?|(observer|diver|obs) (1|a|one)|first (observer|diver)|(observers?|divers?|team) (lead|primary|first)|lead (observer|diver)',
      'lead|observer|diver|front diver',
    ],
    secondary: [
      'secondary( (observer|diver|searcher))?|(observer|diver|obs) (2|b|two)|second (observer|diver)|(observers?|divers?|team) (buddy|secondary|second|follow(er|ing)?|rear)',
      'buddy( diver)?|follow(er|ing)?( diver)?|rear diver',
    ],
    observers: [
      '(dive |survey )?(crew|team|divers|observers)|(diver|observer) names?|names of (the )?(divers|observers)|(diver|buddy) pair',
      '',
    ],
    start_lat: [
      '(start|begin|beginning|shallow( end)?) (lat|latitude|y)|(lat|latitude) (start|begin|1|at start|shallow)',
      'lat|latitude|y|northing|start n(orthing)?|northing start',
    ],
    start_lon: [
      '(start|begin|beginning|shallow( end)?) (lon|long|lng|longitude|x)|(lon|long|lng|longitude) (start|begin|1|at start|shallow)',
      'lon|long|lng|longitude|x|easting|start e(asting)?|easting start',
    ],
    end_lat: [
      '(end|finish|deep( end)?) (lat|latitude|y)|(lat|latitude) (end|finish|2|at end|deep)',
      'end n(orthing)?|northing end',
    ],
    end_lon: [
      '(end|finish|deep( end)?) (lon|long|lng|longitude|x)|(lon|long|lng|longitude) (end|finish|2|at end|deep)',
      'end e(asting)?|easting end',
    ],
    start: [
      '(start|begin|shallow end) (waypoint|point|position|coordinates?|coords?|gps|lat lon|lat long|location)|(gps|waypoint|coordinates?) start',
      'start|begin|coordinates?|gps|position|lat lon|lat long',
    ],
    end: [
      '(end|finish|deep end) (waypoint|point|position|coordinates?|coords?|gps|lat lon|lat long|location)|(gps|waypoint|coordinates?) end',
      'end|finish',
    ],
    bearing_deg: [
      '((compass|magnetic|mag|true|transect) )?(bearing|heading|azimuth)( (deg|magnetic|mag|true|start to end))?',
      'compass|direction|course|deg',
    ],
    bearing_ref: [
      'bearing (ref|reference|from|type)|(bearing )?(magnetic|mag) or true',
      'north|ref',
    ],
    length_m: [
      '((transect|rope|line|searched|total) )?length( searched)?',
      'distance( searched)?|rope|tape|length of (rope|line|transect|tape)',
    ],
    width_m: ['((transect|strip|belt|searched|total|search) )?width( searched)?', 'swath'],
    clarity_m: [
      '(water )?(clarity|visibility)|viz|vis|visibility horizontal',
      'horizontal vis(ibility)?',
    ],
    stop: [
      'stop|stop reason|reason (ended|stopped|for (stop|end|ending|stopping))|why (it )?(ended|stopped)|end reason|(ended|stopped) (by|because)',
      'ended|termination|reason',
    ],
    setup_min: [
      '(time )?(set ?up|setup|deploy(ment)?|laying)( time)?|time to (set up|lay( it| rope| line)?)',
      'lay(ing)? time',
    ],
    habitat_min: [
      '(time )?habitat( time)?|time (to record |for |on )?habitat|habitat (survey|recording) time',
      '',
    ],
    search_min: [
      '(time )?search(ing)?( time)?|time (to |for )?search(ing)?|time searching',
      'time|duration|minutes|dive time|bottom time',
    ],
    notes: ['notes?|comments?|remarks?', 'memo|observations?'],
  },
  habitat: {
    transect: [
      'transect( (id|number|name|label|code))?|tran(s|sect)?( (id|number))?',
      'id|label|site( id)?|station|line|t|tr|trans|dive( number)?|name|location',
    ],
    distance_m: [
      '(distance|dist)( (along|on|from start|along (transect|rope|line|tape)|mark))?|(rope|line|tape|meter|metre) (mark|distance)|from|(habitat )?(start|begin|from) (distance|dist|mark)|break( at)?',
      'start|begins?|at|mark|position|pos|meter mark|chainage|x|break point|interval|where',
    ],
    substrate: [
      '((primary|dominant|main) )?substrate( (type|class|code|1))?|bottom( type)?|sediment( type)?|bed( type)?',
      'sub|habitat( type)?|ground|material|class|type',
    ],
    substrate_2: [
      '(secondary|second|subdominant|sub dominant|minor) substrate|substrate( (type|class|code))? 2',
      '',
    ],
    plant_cover: [
      '(plant|vegetation|veg|macrophyte|weed|sav)s?( (cover|density|class|score|code|%))?|% cover|cover( (class|score|code|%))?|% (plant|veg|vegetation|macrophyte|weed)s?( cover)?|(plant|veg) %|(plants?|vegetation|veg|weeds?) 0( to)? 4',
      'density|submerged vegetation|weediness|algae',
    ],
    depth_m: [
      '(water )?depth( at( (break|start|beginning))?)?',
      'z|d|deep|depth (from|start|begin|1)|(start|begin) depth',
    ],
  },
  detections: {
    transect: [
      'transect( (id|number|name|label|code))?|tran(s|sect)?( (id|number))?',
      'id|label|site( id)?|station|line|t|tr|trans|dive( number)?|name|location',
    ],
    role: [
      'role|primary (or )?secondary|seen by|found by|detected by|pass|observer role|diver role|recorded by',
      'observer|diver|obs|who|by|team|primary secondary|p s',
    ],
    distance_m: [
      '(distance|dist)( (along|on|from start|along (transect|rope|line|tape)|mark))?|(rope|line|tape|meter|metre) (mark|distance)',
      'at|mark|position|pos|meter mark|chainage|y|where|along',
    ],
    offset_m: [
      'offset|perp(endicular)?( (distance|dist))?|(perp|perpendicular|lateral) (distance|dist|offset)|(distance|dist) (from|off|to) (the )?(rope|line|transect|tape)|(off|from) (the )?(rope|line|tape)',
      'off|lateral|side|x',
    ],
    count: [
      'count|(number|count) of (mussels|individuals|animals)|mussels|number (mussels|in cluster)|(mussel|cluster) count|how many|cluster size|mussels in cluster',
      'number|n|size|qty|quantity|abundance|individuals|total|clump',
    ],
    count_primary: [
      '(primary|first|1st|(diver|observer|obs) (1|a|one))( (observer|diver))? (count|mussels|found)|(count|mussels)( of| by)?( the)? (primary|first|(diver|observer|obs) (1|a|one))( (observer|diver))?',
      '',
    ],
    count_secondary: [
      '(secondary|second|2nd|(diver|observer|obs) (2|b|two))( (observer|diver))? (count|mussels|found)|(count|mussels)( of| by)?( the)? (secondary|second|(diver|observer|obs) (2|b|two))( (observer|diver))?',
      '',
    ],
    cluster_length_cm: ['(cluster|clump|patch) (length|len|l)', 'length|len|l'],
    cluster_width_cm: ['(cluster|clump|patch) (width|wid|w)', 'width|wid|w'],
  },
  planted_shells: {
    transect: [
      'transect( (id|number|name|label|code))?|tran(s|sect)?( (id|number))?',
      'id|label|site( id)?|station|line|t|tr|trans|dive( number)?|name|location',
    ],
    planted: [
      '(number (of )?)?((empty|test|marked) )?(shells |dummies )?(planted|placed|seeded|put out|laid out)|(number (of )?)?(planted|placed|seeded|test|marked) (shells|dummies)',
      'shells|placed',
    ],
    found_first: [
      '(shells )?(found|seen|recovered) (by )?(the )?(primary|first|1st|(diver|observer) 1)( (diver|observer))?|(primary|first|1st|(diver|observer) 1)( (diver|observer))? found|found first',
      'primary|first|(diver|observer) 1',
    ],
    found_second_only: [
      '(shells )?(found|seen|recovered) (only )?(by )?(the )?(secondary|second|2nd|(diver|observer) 2)( (diver|observer))?( only)?|(secondary|second|2nd|(diver|observer) 2)( (diver|observer))? found( only)?|found second( only)?',
      '(secondary|second|(diver|observer) 2)( only)?',
    ],
  },
  points: {
    lat: [
      'lat|latitude|lat dd|latitude dd|gps lat|y lat|decimal lat(itude)?|lat(itude)? decimal|northing|utm n(orthing)?',
      'y|north|n|ycoord|y coord|point y',
    ],
    lon: [
      'lon|long|lng|longitude|long dd|lon dd|longitude dd|gps long?|x long?|decimal long(itude)?|long(itude)? decimal|easting|utm e(asting)?',
      'x|east|e|xcoord|x coord|point x',
    ],
    pair: [
      'coordinates?|coords?|lat ?(and )?long?|lat long|position|gps( (position|coordinates?))?',
      'location|waypoint|wgs 84',
    ],
  },
};

const compiled = new Map<string, { sure: RegExp; perhaps: RegExp | null }>();
for (const [kind, fields] of Object.entries(NAMES))
  for (const [field, english] of Object.entries(fields)) {
    const abroad = NAMES_ABROAD[kind as Kind][field] ?? [];
    const wholly = (i: 0 | 1): RegExp | null => {
      const names = [english[i], abroad[i]].filter((one) => one !== undefined && one !== '');
      return names.length === 0 ? null : new RegExp(`^(?:${names.join('|')})$`);
    };
    compiled.set(`${kind}.${field}`, { sure: wholly(0)!, perhaps: wholly(1) });
  }

/** The fields of a kind that names may mean: our columns, and pairs of coordinates in one column. */
export function fieldsOf(kind: Kind): string[] {
  return Object.keys(NAMES[kind]);
}

/** How well a header fits a field of a kind. */
export function nameFit(header: Header, kind: Kind, field: string): Fit {
  const { key, text } = header;
  if (text.length > LONGEST_NAME || !/\p{L}|%/u.test(key)) return 0;
  return fitRead(header, kind, field);
}

function fitRead({ key, short, text }: Header, kind: Kind, field: string): Fit {
  if (text.trim().toLowerCase() === field) return 3;
  const names = compiled.get(`${kind}.${field}`);
  if (names === undefined) return 0;
  if (names.sure.test(key) || names.sure.test(short)) return 2;
  return names.perhaps?.test(key) === true || names.perhaps?.test(short) === true ? 1 : 0;
}

/** Whether a header is a name that any of our columns may have. */
export function isKnown(header: Header): boolean {
  return (Object.keys(NAMES) as Kind[]).some((kind) =>
    fieldsOf(kind).some((field) => nameFit(header, kind, field) > 0),
  );
}

/** How well a text names something of a transect: the best of all fields. */
export function transectFit(text: string): Fit {
  if (text.length > LONGEST_NAME || !/\p{L}/u.test(text)) return 0;
  const known = transectFits.get(text);
  if (known !== undefined) return known;
  if (transectFits.size >= MOST_SEEN) transectFits.clear();
  const header = headerOf(text);
  let best: Fit = 0;
  for (const field of fieldsOf('transects')) {
    const fit = fitRead(header, 'transects', field);
    if (fit > best) best = fit;
  }
  transectFits.set(text, best);
  return best;
}

const transectFits = new Map<string, Fit>();
