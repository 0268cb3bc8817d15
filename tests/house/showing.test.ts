/** Results are read in src/present and drawn elsewhere; the rooms of src/app stand on floors: held, and shown to catch. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { showingViolations } from './showing.ts';

const ROOT = join(import.meta.dirname, '../..');

const shown = ['src/app', 'src/cli', 'src/publish'].flatMap((folder) =>
  readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`),
);

describe('whatever shows a result', () => {
  it.each(shown)('%s', (path) => {
    expect(showingViolations(path, readFileSync(join(ROOT, path), 'utf8'))).toEqual([]);
  });
});

describe('the rule catches', () => {
  it.each([
    [
      'a drawing that reads a result',
      'src/app/plots/Curve.tsx',
      "import type { Estimate } from '../../../shared/estimate.ts';",
    ],
    [
      'a drawing that looks into a result it was given',
      'src/app/stations/lake/Number.tsx',
      'const n = result.estimate.abundance;',
    ],
    ['… also by taking it apart', 'src/cli/summary.ts', 'const { checks } = result;'],
    [
      'a drawing that computes',
      'src/publish/figures/distances.ts',
      "import { gAt } from '../../../models/detection/shapes.ts';",
    ],
    [
      'a command that goes around the pipeline',
      'src/cli/folder.ts',
      "import type { Truth } from '../estimate/rehearsal.ts';",
    ],
    [
      'a part of the shell that knows a station',
      'src/app/shell/Menu.tsx',
      "import { Lake } from '../stations/lake/LakeStation.tsx';",
    ],
    [
      'a plot that knows the map',
      'src/app/plots/Patterns.tsx',
      "import { pattern } from '../map/patterns.ts';",
    ],
    ['a room without a floor', 'src/app/attic/Box.tsx', "import { x } from '../shell/ui.tsx';"],
  ])('%s', (_, path, source) => {
    expect(showingViolations(path, source)).toHaveLength(1);
  });

  it('and lets through what is allowed', () => {
    const cases: [string, string][] = [
      ['src/app/plots/Curve.tsx', "import type { Curve } from '../../present/density-curve.ts';"],
      ['src/publish/tables.ts', "import type { Estimate } from '../../shared/estimate.ts';"],
      ['src/app/worker/paint.ts', "import { predictor } from '../../../models/predict.ts';"],
      ['src/app/stations/lake/LakeStation.tsx', "import { Plot } from '../../plots/Plot.tsx';"],
      ['src/present/answer.ts', "import type { Estimate } from '../../shared/estimate.ts';"],
    ];
    for (const [path, source] of cases) expect(showingViolations(path, source)).toEqual([]);
  });
});
