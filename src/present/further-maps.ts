/** Beside the map of density, for paper: the chance that density exceeds the threshold, and the CV of the density. */

import { capital, gloss, term, terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { formatPercent } from '../../shared/units.ts';
import { formatThreshold } from './area-above.ts';
import { LOOK, type MapClass, surfaceLooks } from './lake-raster.ts';
import { CHANCE_BREAKS, CHANCE_RAMP, CV_BREAKS, CV_RAMP } from './ramp.ts';

export interface FurtherMap {
  /** of an element of the page */
  name: string;
  title: string;
  described: string;
  /** of the same cells as the map of density */
  looks: Uint8Array;
  /** all of its classes, with their colours */
  classes: (MapClass & { colour: string; dotted?: boolean })[];
  /** what the word means; null where the title says it */
  note: string | null;
}

type Input = Pick<SurveyResult, 'analysis' | 'bed' | 'surface' | 'survey'>;

/** None without a lake or a detection; no chance without a density threshold. */
export function furtherMaps({ analysis, bed, surface, survey }: Input): FurtherMap[] {
  if (bed === null || surface === null || survey.detections.length === 0) return [];
  const { threshold_per_m2: threshold } = analysis.map;
  const of = (
    name: FurtherMap['name'],
    title: string,
    values: Float32Array,
    breaks: readonly number[],
    ramp: readonly string[],
    note: string | null,
  ): FurtherMap => {
    const looks = surfaceLooks(bed, surface, values, breaks);
    const classes = ramp.map((colour, k) => ({
      look: LOOK.firstClass + k,
      words: inPercent(k, breaks),
      colour,
    }));
    return { name, title, described: described(title, looks, classes), looks, classes, note };
  };
  const chance =
    threshold === null || surface.aboveThreshold === null
      ? []
      : [
          of(
            'chance',
            `Chance of more than ${formatThreshold(threshold)} ${terms('mussel')} per m²`,
            surface.aboveThreshold,
            CHANCE_BREAKS,
            CHANCE_RAMP.light,
            null,
          ),
        ];
  const cv = of(
    'cv',
    `${term('cv')} of the ${term('density')}`,
    surface.cv,
    CV_BREAKS,
    CV_RAMP.light,
    `${term('cv')}: ${gloss('cv')}.`,
  );
  return [...chance, cv];
}

/** `below 5 %`, `5 % to 25 %`, `95 % and more` */
function inPercent(k: number, breaks: readonly number[]): string {
  if (k === 0) return `below ${formatPercent(breaks[0])}`;
  if (k === breaks.length) return `${formatPercent(breaks[k - 1])} and more`;
  return `${formatPercent(breaks[k - 1])} to ${formatPercent(breaks[k])}`;
}

function described(title: string, looks: Uint8Array, classes: readonly MapClass[]): string {
  const counts = new Map<number, number>();
  for (const look of looks) counts.set(look, (counts.get(look) ?? 0) + 1);
  const all = classes.reduce((sum, c) => sum + (counts.get(c.look) ?? 0), 0);
  const shares = classes.flatMap((c) => {
    const own = counts.get(c.look) ?? 0;
    return own === 0 ? [] : [`${c.words} on ${Math.round((100 * own) / all)} %`];
  });
  const what = `Map of the lake. ${capital(title)}`;
  return shares.length === 0
    ? `${what}.`
    : `${what}; of the bed that is drawn: ${shares.join(', ')}.`;
}
