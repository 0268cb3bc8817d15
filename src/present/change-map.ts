/**
 * The map of a change for paper, in three looks: changed and told from none; a change that could not be told from none, faded;
 * mapped bed that is not common ground, hatched. More is dotted besides its colour, for grey print.
 */

import type { ChangeMapInput } from '../../shared/change.ts';
import { shortTerm, term, terms } from '../../shared/glossary.ts';
import { reportWords } from './front-page.ts';
import type { FurtherMap } from './further-maps.ts';
import { type LakeMap, lakeMap } from './lake-map.ts';
import { LOOK, surfaceLooks } from './lake-raster.ts';

/** Half as many, none, twice as many. */
const BREAKS = [0.5, 1, 2];
/** 95 % of a normal distribution lie within so many standard errors. */
const TOLD_APART = 1.96;

const CLASSES = [
  { words: 'less than half as many', colour: '#0b5d66', faded: '#a3c4c6', dotted: false },
  { words: 'half as many to as many', colour: '#6fa9ad', faded: '#c2dcda', dotted: false },
  { words: 'as many to twice as many', colour: '#d8a56a', faded: '#efe0cb', dotted: true },
  { words: 'more than twice as many', colour: '#8a4b00', faded: '#d9c2a4', dotted: true },
];

export interface ChangeMap {
  map: LakeMap;
  drawn: FurtherMap;
}

/** Null where the lake has no outline. @param title of the two surveys */
export function changeMap(
  { result, cells }: ChangeMapInput,
  index: number,
  title: string,
): ChangeMap | null {
  const map = lakeMap(result, reportWords('en'));
  const { bed } = result;
  if (map === null || bed === null) return null;
  const ratio = surfaceLooks(bed, cells.surface, cells.ratio, BREAKS);
  const told = surfaceLooks(bed, cells.surface, cells.errors, [TOLD_APART]);
  const looks = ratio.map((look, i) =>
    look < LOOK.firstClass || told[i] > LOOK.firstClass ? look : look + CLASSES.length,
  );
  const met = new Set(looks);
  const unsure = `, not told from no ${shortTerm('changeRatio')}`;
  const classes = [
    ...CLASSES.map(({ words, colour, dotted }, k) => ({
      look: LOOK.firstClass + k,
      words,
      colour,
      dotted,
    })),
    ...CLASSES.map(({ words, faded, dotted }, k) => ({
      look: LOOK.firstClass + CLASSES.length + k,
      words: `${words}${unsure}`,
      colour: faded,
      dotted,
    })),
  ].filter(({ look }) => met.has(look));
  return {
    map,
    drawn: {
      name: `change-${index + 1}`,
      title: `${title}: ${term('changeRatio')} on the ${term('commonGround')}`,
      described: described(looks, classes),
      looks,
      classes,
      note: `How many times as many ${terms('mussel')} there are, by the models of both surveys: densities go by habitat, so places of one habitat change alike. Faded: the ${shortTerm('changeRatio')} there could not be told from none. Hatched: mapped bed that is not ${term('commonGround')}.`,
    },
  };
}

/** Each class with its share of the cells that have one. */
function described(looks: Uint8Array, classes: readonly { look: number; words: string }[]): string {
  const of = (look: number): number => looks.reduce((n, own) => n + (own === look ? 1 : 0), 0);
  const counts = classes.map(({ look }) => of(look));
  const all = counts.reduce((sum, n) => sum + n, 0);
  return classes
    .map(({ words }, i) => `${words}: ${Math.round((100 * counts[i]) / all)} %`)
    .join('; ');
}
