/** stated.json: read with its defaults, and every wrong figure told with what was expected. */

import { describe, expect, it } from 'vitest';
import { readStated } from '../../src/plan/stated.ts';

const SOUND = { clusters_per_m2: { rock: [0.5, 1, 3], sand: 0.1 }, p: 0.7, depth_to_m: 6 };
const read = (changed: object) =>
  readStated('stated.json', JSON.stringify({ ...SOUND, ...changed }));

describe('stated figures', () => {
  it('are a range, or one number that is sure', () => {
    const { stated, findings } = read({});
    expect(findings).toEqual([]);
    expect(stated).toMatchObject({
      clustersPerM2: { rock: [0.5, 1, 3], sand: [0.1, 0.1, 0.1] },
      p: [0.7, 0.7, 0.7],
      clusterSize: 1,
      depthFromM: 0,
      observers: ['A', 'B'],
      minutes: null,
    });
    expect(read({ setup_min: 5, search_min_per_m2: 0.5 }).stated?.minutes).toEqual({
      fixedMin: 5,
      searchMinPerM2: 0.5,
    });
  });

  it.each<[object, string]>([
    [{ p: 1 }, 'p'],
    [{ p: [0.8, 0.7, 0.9] }, 'p'],
    [{ clusters_per_m2: {} }, 'clusters_per_m2'],
    [{ clusters_per_m2: { rock: 'many' } }, 'clusters_per_m2.rock'],
    [{ cluster_size: 0.5 }, 'cluster_size'],
    [{ depth_to_m: undefined }, 'depth_to_m'],
    [{ observers: ['Ann', 'Ann'] }, 'observers'],
    [{ density: 3 }, 'density'],
  ])('%j is told', (changed, column) => {
    const { stated, findings } = read(changed);
    expect(stated).toBeNull();
    expect(findings.map((f) => f.column)).toEqual([column]);
    expect(findings[0].message).toContain('expected');
  });

  it('that are no JSON object are told', () => {
    expect(readStated('s.json', '{').findings[0].message).toContain('no JSON');
    expect(readStated('s.json', '[1]').findings[0].message).toContain('no object');
  });
});
