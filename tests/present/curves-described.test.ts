/** The picture of the curves in sentences. All values by hand. */

import { expect, it } from 'vitest';
import type { DensityCurve } from '../../shared/result.ts';
import { curvesDescribed } from '../../src/present/curves-described.ts';

const curve = (over: Partial<DensityCurve>): DensityCurve => ({
  substrate: ['rock'],
  depthM: [1, 3, 5],
  musselsPerM2: [1, 4, 2],
  lower: [0.5, 2, 1],
  upper: [2, 8, 4],
  ...over,
});
const of = (curves: DensityCurve[]) => ({
  curves,
  domain: { classes: ['rock', 'sand'], depthFromM: 1, depthToM: 5, plantCover: null },
});

it('names each curve with its highest point, then its ends, and what was not sampled', () => {
  const sand = curve({ substrate: ['sand'], depthM: [1, 3], musselsPerM2: [3, 2] });
  const said = curvesDescribed(of([curve({}), sand])) ?? '';
  expect(said).toMatch(/^Density by depth, mussels per m²/);
  expect(said).toMatch(/Rock: most 4[^;]* at 3\.0 m; 1[^;]* at 1\.0 m; 2[^;]* at 5\.0 m\./);
  expect(said).toMatch(/Sand: most 3[^;]* at 1\.0 m; 2[^;.]*[^;]* at 3\.0 m\./);
  expect(said).toMatch(/Not sampled: 0[^,]* m, 5\.0 to 6\.0 m\.$/);
});

it('leaves out a curve that is nowhere above 0, and says nothing where no curve is', () => {
  const none = curve({ substrate: ['sand'], musselsPerM2: [0, 0, 0], lower: [0, 0, 0] });
  expect(curvesDescribed(of([curve({}), none]))).not.toContain('Sand');
  expect(curvesDescribed(of([none]))).toBeNull();
});
