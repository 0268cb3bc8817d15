/**
 * Of the base survey: the map has sand to 20 m off the shore, gravel to 30 m, rock beyond, as its observers recorded from 8 to 38 m;
 * with cells of 5 m a block of 3 × 3 is all of one class up to 10 to 15 m, and from 35 to 40 m. By hand.
 */

import { expect, it } from 'vitest';
import { estimateSurvey } from '../../src/pipeline.ts';
import { baseSurvey, toFolder } from '../helpers/base-survey.ts';
import { all, type Bend, setCell } from '../helpers/bend.ts';

async function estimated(bend: Bend) {
  const texts = baseSurvey();
  texts['analysis.json'] =
    '{ "density": { "plant_cover": "none", "depth": "none", "family": "poisson", "transect_effect": false } }';
  bend(texts);
  const done = await estimateSurvey(toFolder(texts));
  if (!done.ok) throw new Error(done.findings.map((f) => f.message).join('\n'));
  const { sensitivity, abundance } = done.result.estimate;
  const records = sensitivity?.recorded_substrates;
  if (!records?.mussels || !abundance?.mussels) throw new Error('nothing was compared');
  return { records, moved: records.mussels, total: abundance.mussels };
}

it('where observers recorded what is mapped the total stays, with its standard error', async () => {
  const { records, moved, total } = await estimated(() => {});
  expect(records.agreement).toBe(1);
  expect(records.stretches.map((s) => s.recorded)).toEqual(expect.arrayContaining(['sand']));
  expect(records.compared_m + records.near_border_m).toBeGreaterThan(6 * 29); // six transects of 29.8 m on the map
  // depths are put into bins of 2 cm
  expect(moved.estimate / total.estimate).toBeCloseTo(1, 4);
  expect((moved.se ?? 0) / (total.se ?? 1)).toBeCloseTo(1, 3);
});

it('what was recorded as another moves the total towards that, and adds an error', async () => {
  // sand of two transects, 8 to 20 m off the shore, recorded as rock
  const { records, moved, total } = await estimated(
    all(
      setCell('habitat.csv', 2, 'substrate', 'rock'),
      setCell('habitat.csv', 10, 'substrate', 'rock'),
    ),
  );
  const of = (recorded: string, mapped: string): number =>
    records.stretches.find((s) => s.recorded === recorded && s.mapped === mapped)?.length_m ?? 0;
  expect(of('rock', 'sand') / of('sand', 'sand')).toBeCloseTo(2 / 4, 6);
  expect(records.agreement).toBeCloseTo(1 - of('rock', 'sand') / records.compared_m, 9);
  expect(moved.estimate).not.toBeCloseTo(total.estimate, 0);
  expect((moved.se ?? 0) / moved.estimate).toBeGreaterThan(0);
});
