/**
 * How substrates are told apart without colour: each class keeps one line style (plots) and one pattern (bed), whatever
 * else a figure shows. The usual classes have their own; others take the spare ones in the order of the analysis.
 */

export interface LineStyle {
  /** SVG dash array; '' = solid */
  dash: string;
  widthPx: number;
}

export type PatternName =
  | 'dashes'
  | 'specks'
  | 'dots'
  | 'rings'
  | 'pebbles'
  | 'blocks'
  | 'crosses'
  | 'waves'
  | 'ticks'
  | 'plain';

interface Style {
  dash: string;
  pattern: PatternName;
}

/** From loose to solid ground, dots to a full line. */
const OWN: Record<string, Style> = {
  mud: { dash: '1 5', pattern: 'dashes' },
  silt: { dash: '8 4 2 4', pattern: 'specks' },
  sand: { dash: '2 3', pattern: 'dots' },
  gravel: { dash: '7 4', pattern: 'rings' },
  pebble: { dash: '14 4', pattern: 'pebbles' },
  rock: { dash: '', pattern: 'blocks' },
  other: { dash: '8 3 2 3 2 3', pattern: 'crosses' },
};

const SPARE: readonly Style[] = [
  { dash: '12 3 2 3', pattern: 'waves' },
  { dash: '4 2 4 6', pattern: 'ticks' },
  { dash: '20 5', pattern: 'plain' },
];

const WIDTH_PX = 2;
const WIDER_PX = 1;

/** Line of a class, or of a mixture (that of its dominant class). `classes` is analysis.substrates. */
export function lineStyle(substrate: readonly string[], classes: readonly string[]): LineStyle {
  const { style, round } = styleOf(substrate, classes);
  return { dash: style.dash, widthPx: WIDTH_PX + round * WIDER_PX };
}

/** Pattern of one class on the bed. */
export function patternName(substrate: string, classes: readonly string[]): PatternName {
  return styleOf([substrate], classes).style.pattern;
}

/** With more unusual classes than spare styles the styles come round again, thicker. */
function styleOf(
  substrate: readonly string[],
  classes: readonly string[],
): { style: Style; round: number } {
  const [dominant = 'other'] = substrate;
  const own = OWN[dominant.toLowerCase()];
  if (own) return { style: own, round: 0 };
  const unusual = classes.filter((name) => !(name.toLowerCase() in OWN));
  const index = Math.max(0, unusual.indexOf(dominant));
  return { style: SPARE[index % SPARE.length], round: Math.floor(index / SPARE.length) };
}

/** `sand+gravel` */
export function substrateLabel(substrate: readonly string[]): string {
  return substrate.join('+');
}
