/** Density over a bed of 2.4 million cells: the mean alone, and with standard errors. Cost goes with cells only in the curve. */

import { sumPieces, totalOf } from '../../models/abundance.ts';
import type { SegmentRow, SurveyRows } from '../../models/data.ts';
import { seeded } from '../../models/numbers/random.ts';
import { predictor } from '../../models/predict.ts';
import { densitySurface } from '../../models/surface.ts';
import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { fitConverged } from '../helpers/fitting.ts';

const CELLS = 2_400_000;

export default function benches() {
  const random = seeded(1);
  const segments: SegmentRow[] = [];
  const clusters: SurveyRows['clusters'] = [];
  for (let i = 0; i < 240; i++) {
    const transect = Math.floor(i / 8);
    segments.push({
      transect,
      design: 'belt',
      areaM2: 5,
      halfWidthM: 0.5,
      classes: [random.integer(5)],
      plantCover: random.integer(5),
      depthM: 1 + 5 * random.uniform(),
      clarityM: null,
      primary: transect % 2,
      secondary: 1 - (transect % 2),
    });
    const found = random.poisson(3);
    for (let k = 0; k < found; k++) {
      clusters.push({
        segment: i,
        role: random.uniform() < 0.8 ? 'primary' : 'secondary',
        offsetM: null,
        count: 1 + random.integer(4),
      });
    }
  }
  const rows: SurveyRows = {
    segments,
    clusters,
    transectCount: 30,
    classNames: DEFAULT_ANALYSIS.substrates,
    observerNames: ['A', 'B'],
  };
  const fit = fitConverged(rows, DEFAULT_ANALYSIS, {
    family: 'nb1',
    transectEffect: false,
    shape: null,
  });
  const p = predictor(rows, fit);
  const habitats = Array.from({ length: 25 }, (_, i) =>
    p.habitat({ classes: [i % 5], plantCover: Math.floor(i / 5) }),
  );
  const pieces = {
    count: CELLS,
    cell: Int32Array.from({ length: CELLS }, (_, i) => i),
    habitat: Uint16Array.from({ length: CELLS }, (_, i) => Math.floor(i / 5000) % 25),
    areaM2: new Float64Array(CELLS).fill(25),
    depthM: Float64Array.from({ length: CELLS }, () => 1 + 5 * random.uniform()),
    band: new Uint16Array(CELLS),
    reason: new Uint8Array(CELLS),
  };
  for (let i = 0; i < CELLS; i++) pieces.band[i] = Math.floor(pieces.depthM[i]);
  const rate = (ms: number): string => `${(CELLS / ms / 1000).toFixed(1)} million cells per second`;
  return [
    {
      name: 'density of 2.4 million cells, mean alone',
      run: () => void densitySurface(pieces, CELLS, habitats, p, fit.covariance, null, false),
      note: rate,
    },
    {
      name: 'with coefficients of variation',
      run: () => void densitySurface(pieces, CELLS, habitats, p, fit.covariance, null, true),
      note: rate,
    },
    {
      name: 'abundance with its delta-method error',
      run: () => void totalOf(sumPieces(pieces, habitats, p), habitats, p, fit.covariance),
      note: rate,
    },
  ];
}
