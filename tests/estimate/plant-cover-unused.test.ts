/** Bed that is mapped without plants is worth a word only where a density depends on them. */

import { expect, it } from 'vitest';
import { estimateSurvey } from '../../src/pipeline.ts';
import { beltSurvey, toFolder } from '../helpers/base-survey.ts';

/** The map says nothing of plants, the sheets give them as `cover` row by row. */
async function codesOf(cover: (row: number) => number): Promise<string[]> {
  const texts = beltSurvey();
  const [head = '', ...rows] = (texts['habitat.csv'] ?? '').trimEnd().split('\n');
  const at = head.split(',').indexOf('plant_cover');
  const covered = rows.map((row, i) =>
    row
      .split(',')
      .map((cell, k) => (k === at && cell !== '' ? String(cover(i)) : cell))
      .join(','),
  );
  texts['habitat.csv'] = [head, ...covered, ''].join('\n');
  const map = JSON.parse(texts['substrate.geojson'] ?? '');
  for (const { properties } of map.features) delete properties.plant_cover;
  texts['substrate.geojson'] = JSON.stringify(map);
  const estimated = await estimateSurvey(toFolder(texts));
  return estimated.ok ? estimated.result.estimate.warnings.map((w) => w.code) : ['no estimate'];
}

it('is told where the plants vary, and not where the density leaves them out', async () => {
  expect(await codesOf((row) => row % 3)).toContain('plant-cover-not-mapped');
  const bare = await codesOf(() => 0);
  expect(bare).toContain('column-repeats');
  expect(bare).not.toContain('plant-cover-not-mapped');
});
