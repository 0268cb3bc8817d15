/**
 * The geodetic datums that maps come in, and how far a short shift to WGS 84 may be off. What is not in this list is refused:
 * a wrong or forgotten shift puts a lake metres to hundreds of metres off without a word.
 *
 * Shifts by three or seven parameters, rotations in arc seconds in the position vector sense, after the EPSG register (code of
 * the operation and its accuracy beside each); tests/import/maps/datums.test.ts holds them against PROJ's own.
 */

export interface Datum {
  /** as the table of systems has it */
  key: string;
  label: string;
  /** PROJ's parameters of ellipsoid and shift; none of proj4's names of ellipsoids, for it takes unknown ones for WGS 84 */
  proj: string;
  /** of the EPSG register, to WGS 84; null for a shift that a file gives itself */
  operation: number | null;
  /** how far places may be off by it, m: the register's accuracy of the operation, or more where experience says so */
  offM: number;
}

/** Semi-major axis in m and inverse flattening. */
const CLARKE_1866 = '+a=6378206.4 +b=6356583.8';
const AIRY = '+a=6377563.396 +rf=299.3249646';
const AIRY_MODIFIED = '+a=6377340.189 +rf=299.3249646';
const BESSEL = '+a=6377397.155 +rf=299.1528128';
const HAYFORD = '+a=6378388 +rf=297';
const KRASSOWSKY = '+a=6378245 +rf=298.3';
const CLARKE_1880_IGN = '+a=6378249.2 +b=6356515';
const AUSTRALIAN = '+a=6378160 +rf=298.25';
const WGS_72 = '+a=6378135 +rf=298.26';

/** WGS 84, ETRS 89, their realisations, and others on the same ellipsoid: EPSG:1149 and its like, 1 m, which is not spoken of. */
export const MODERN: Datum = {
  key: 'm',
  label: 'WGS 84, NAD 83, ETRS 89 or alike',
  proj: '+ellps=GRS80 +towgs84=0,0,0',
  operation: 1149,
  offM: 1,
};
/**
 * Those that are taken for WGS 84 too, but were tied to a plate that has moved since, or measured before satellites; by the
 * letter that the table of systems has at their codes. (EPSG:1188, 4 m; 9774 and its like of HARN, NSRS2007 and CSRS, 2 m;
 * 1150 and 8450, 3 m.)
 */
export const PLATES: Record<string, Datum> = {
  n: plate('n', 'NAD 83', 1188, 4),
  h: plate('h', 'NAD 83 (HARN, NSRS2007, 2011 or CSRS)', 9774, 2),
  a: plate('a', 'GDA 94 or GDA 2020', 1150, 3),
};
const SEMI_MAJOR_M = 6_378_137;
const INVERSE_FLATTENING = 298.257;

/** By the pattern of their names without case, `D_`, and all but letters and digits. */
const DATUMS: [RegExp, Datum][] = [
  // EPSG:1173, 10 m (contiguous United States)
  datum(
    /^(northamerican(datum)?(of)?1927|nad27|nad1927|gcsnorthamerican1927)$/,
    'nad27',
    'NAD 27',
    `${CLARKE_1866} +towgs84=-8,160,176`,
    1173,
    10,
  ),
  // EPSG:1172, 20 m (Canada)
  datum(
    /^(northamericandatum1927(1976|cgq77|1977)|nad27(76|cgq77)|nad1927(definition1976|cgq77))$/,
    'nad27-canada',
    'NAD 27 of Canada',
    `${CLARKE_1866} +towgs84=-10,158,187`,
    1172,
    20,
  ),
  // EPSG:1314, 2 m in the register; 5 m as the Ordnance Survey states it
  datum(
    /^(osgb(19)?36|ordnancesurveyofgreatbritain1936)$/,
    'osgb36',
    'OSGB 36',
    `${AIRY} +towgs84=446.448,-125.157,542.06,0.15,0.247,0.842,-20.489`,
    1314,
    5,
  ),
  // EPSG:15934, 1 m; its rotations are in microradians and of the other sense
  datum(
    /^amersfoort$/,
    'rd',
    'Amersfoort',
    `${BESSEL} +towgs84=565.2369,50.0087,465.658,-0.406857,0.350733,-1.870347,4.0812`,
    15934,
    1,
  ),
  // EPSG:1777, 3 m
  datum(
    /^(dhdn|deutscheshauptdreiecksnetz)$/,
    'dhdn',
    'DHDN',
    `${BESSEL} +towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7`,
    1777,
    3,
  ),
  // EPSG:1618, 1.5 m (Austria)
  datum(
    /^(mgi|militargeographischeinstitut)$/,
    'mgi',
    'MGI of Austria',
    `${BESSEL} +towgs84=577.326,90.129,463.919,5.137,1.474,5.297,2.4232`,
    1618,
    2,
  ),
  // EPSG:5239, 1 m; of the other sense
  datum(
    /^(sjtsk|systemjednotnetrigonometrickesitekatastralni|systemofthetrunifiedtrigonometricalcadastralnetwork|systemoftheunifiedtrigonometricalcadastralnetwork)$/,
    'sjtsk',
    'S-JTSK',
    `${BESSEL} +towgs84=572.213,85.334,461.94,4.9732,1.529,5.2484,3.5378`,
    5239,
    2,
  ),
  // EPSG:1766 and 1676, 1.5 m
  datum(/^ch1903$/, 'ch1903', 'CH1903', `${BESSEL} +towgs84=674.374,15.056,405.346`, 1766, 2),
  // EPSG:15929, 1 m; of the other sense
  datum(
    /^(belge1972|reseaunationalbelge1972|bd72)$/,
    'bd72',
    'BD 72',
    `${HAYFORD} +towgs84=-106.8686,52.2978,-103.7239,0.3366,-0.457,1.8422,-1.2747`,
    15929,
    1,
  ),
  // EPSG:1133, 10 m
  datum(
    /^(european(datum)?1950|ed50)$/,
    'ed50',
    'ED 50',
    `${HAYFORD} +towgs84=-87,-98,-121`,
    1133,
    10,
  ),
  // EPSG:1660, 4 m (mainland Italy)
  datum(
    /^montemario$/,
    'monte-mario',
    'Monte Mario',
    `${HAYFORD} +towgs84=-104.1,-49.1,-9.9,0.971,-2.917,0.714,-11.68`,
    1660,
    4,
  ),
  // EPSG:1896, 1 m; of the other sense
  datum(
    /^(rt90|rt1990|riketskoordinatsystem1990)$/,
    'rt90',
    'RT 90',
    `${BESSEL} +towgs84=414.1,41.3,603.1,-0.855,2.141,-7.023,0`,
    1896,
    1,
  ),
  // EPSG:10098, 0.5 m; of the other sense
  datum(
    /^(kkj|kartastokoordinaattijarjestelma1966)$/,
    'kkj',
    'KKJ',
    `${HAYFORD} +towgs84=-96.062,-82.428,-121.753,4.801,0.345,-1.376,1.496`,
    10098,
    2,
  ),
  // EPSG:1641 and 1954, 1 m
  datum(
    /^(tm65|tm75|geodeticdatumof1965)$/,
    'ireland',
    'TM65 or TM75',
    `${AIRY_MODIFIED} +towgs84=482.5,-130.6,564.6,-1.042,-0.214,-0.631,8.15`,
    1641,
    1,
  ),
  // EPSG:1564, 4 m; of the other sense
  datum(
    /^(nzgd(19)?49|newzealand(geodeticdatum)?1949)$/,
    'nzgd49',
    'NZGD 49',
    `${HAYFORD} +towgs84=59.47,-5.04,187.44,0.47,-0.1,1.024,-4.5993`,
    1564,
    4,
  ),
  // EPSG:1193, 2 m
  datum(
    /^(ntf|nouvelletriangulationfrancaise)$/,
    'ntf',
    'NTF',
    `${CLARKE_1880_IGN} +towgs84=-168,-60,320`,
    1193,
    2,
  ),
  // EPSG:1645, 1 m (Poland); used far beyond it
  datum(
    /^pulkovo1942(58|adj1958)$/,
    'pulkovo58',
    'Pulkovo 1942(58)',
    `${KRASSOWSKY} +towgs84=33.4,-146.6,-76.3,-0.359,-0.053,0.844,-0.84`,
    1645,
    5,
  ),
  // EPSG:1108, 6 m (Australia)
  datum(
    /^(australian(geodeticdatum)?(19)?66|agd(19)?66)$/,
    'agd66',
    'AGD 66',
    `${AUSTRALIAN} +towgs84=-133,-48,148`,
    1108,
    6,
  ),
  // EPSG:1236, 5 m (Australia); of the other sense
  datum(
    /^(australian(geodeticdatum)?(19)?84|agd(19)?84)$/,
    'agd84',
    'AGD 84',
    `${AUSTRALIAN} +towgs84=-116,-50.47,141.69,0.23,0.39,0.344,0.0983`,
    1236,
    5,
  ),
  // EPSG:15484, 9 m (Japan)
  datum(/^tokyo$/, 'tokyo', 'Tokyo', `${BESSEL} +towgs84=-146.414,507.337,680.507`, 15484, 9),
  // EPSG:1238, 2 m
  datum(
    /^(wgs1972|worldgeodeticsystem1972|wgs72)$/,
    'wgs72',
    'WGS 72',
    `${WGS_72} +towgs84=0,0,4.5,0,0,0.554,0.219`,
    1238,
    2,
  ),
];

/** On the modern ellipsoid, but not within 2 m of WGS 84. */
const FAR_ON_MODERN = /vietnam|hungarian|gsk2011|ksa|ks?agrf|geodezicheskaya|everest|mars|moon/;

function datum(
  names: RegExp,
  key: string,
  label: string,
  proj: string,
  operation: number,
  offM: number,
): [RegExp, Datum] {
  return [names, { key, label, proj, operation, offM }];
}

function plate(letter: string, label: string, operation: number, offM: number): Datum {
  return { key: `m${letter}`, label, proj: MODERN.proj, operation, offM };
}

/** Of those that are taken for WGS 84, by the name in a file. */
export function modernNamed(name: string): Datum {
  const bare = bareName(name);
  if (/^(nad83|nad1983|northamerican(datum)?(of)?1983)$/.test(bare)) return PLATES.n;
  if (/^(nad83|nad1983|northamerican(datum)?(of)?1983)/.test(bare)) return PLATES.h;
  return /^(gda(94|1994|2020)|geocentricdatumofaustralia(1994|2020))$/.test(bare)
    ? PLATES.a
    : MODERN;
}

/** Its letter in the table of systems; none for those of 1 m. */
export function letterOf(datum: Datum): string {
  return Object.keys(PLATES).find((letter) => PLATES[letter] === datum) ?? '';
}

/** By the name in a file; null where it is not in the list. */
export function datumNamed(name: string): Datum | null {
  const bare = bareName(name);
  return DATUMS.find(([names]) => names.test(bare))?.[1] ?? null;
}

/** By its key in the table of systems. Throws at an unknown one. */
export function datumOf(key: string): Datum {
  const found = key === MODERN.key ? MODERN : DATUMS.find(([, known]) => known.key === key)?.[1];
  if (found === undefined) throw new Error(`got the datum "${key}", expected one of the list`);
  return found;
}

/** Whether a datum of this name and ellipsoid may be taken for WGS 84. */
export function isModern(name: string, semiMajorM: number, inverseFlattening: number): boolean {
  return (
    Math.abs(semiMajorM - SEMI_MAJOR_M) < 0.01 &&
    Math.abs(inverseFlattening - INVERSE_FLATTENING) < 1e-3 &&
    !FAR_ON_MODERN.test(bareName(name))
  );
}

function bareName(name: string): string {
  return name
    .toLowerCase()
    .replace(/^(d|gcs)_/, '')
    .replace(/[^a-z0-9]/g, '');
}

/** All of the list, for tests. */
export const KNOWN_DATUMS: readonly Datum[] = [
  MODERN,
  ...Object.values(PLATES),
  ...DATUMS.map(([, known]) => known),
];
