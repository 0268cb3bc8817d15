/** stated.json: what somebody believes of a lake that was not surveyed yet, each figure with its range. */

import { errorAt, type Finding } from '../../shared/findings.ts';
import type { StatedLake, StatedRange } from '../../shared/planning.ts';
import { visible } from '../../shared/words.ts';

/** Never throws: what is wrong is told, all of it. @param table what the file is called */
export function readStated(
  table: string,
  text: string,
): { stated: StatedLake | null; findings: Finding[] } {
  const findings: Finding[] = [];
  const wrong = (column: string | null, message: string): null => {
    findings.push(errorAt({ table, column }, 'stated-value', message));
    return null;
  };
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return {
      stated: null,
      findings: [errorAt({ table }, 'not-json', 'no JSON (an object expected)')],
    };
  }
  if (!isObject(json))
    return {
      stated: null,
      findings: [errorAt({ table }, 'not-json', 'no object (an object expected)')],
    };
  const known = new Set([
    'clusters_per_m2',
    'p',
    'sigma_m',
    'cluster_size',
    'dispersion',
    'transect_sd',
    'depth_from_m',
    'depth_to_m',
    'observers',
    'setup_min',
    'search_min_per_m2',
  ]);
  for (const key of Object.keys(json))
    if (!known.has(key)) wrong(key, `unknown (${[...known].join(', ')} expected)`);

  const range = (
    value: unknown,
    column: string,
    above: number,
    below: number,
  ): StatedRange | null => {
    const list = typeof value === 'number' ? [value, value, value] : value;
    const sound =
      Array.isArray(list) &&
      list.length === 3 &&
      list.every(
        (x, i) => typeof x === 'number' && x > above && x < below && (i === 0 || x >= list[i - 1]),
      );
    if (sound) return list as unknown as StatedRange;
    return wrong(
      column,
      `${visible(JSON.stringify(value) ?? 'nothing')} (a number, or least, likely and most in rising order, above ${above} and below ${below} expected)`,
    );
  };
  const number = (
    column: string,
    least: number,
    most: number,
    usual: number | null,
  ): number | null => {
    const value = json[column] ?? usual;
    if (value === null && usual === null && json[column] === undefined) return null;
    if (typeof value === 'number' && value >= least && value <= most) return value;
    return wrong(
      column,
      `${visible(JSON.stringify(value))} (a number from ${least} to ${most} expected)`,
    );
  };
  const densities: Record<string, StatedRange> = {};
  if (!isObject(json.clusters_per_m2) || Object.keys(json.clusters_per_m2).length === 0)
    wrong(
      'clusters_per_m2',
      'no classes (an object of substrate classes with their clusters per m² expected)',
    );
  else
    for (const [name, value] of Object.entries(json.clusters_per_m2)) {
      const own = range(value, `clusters_per_m2.${name}`, 0, 1e6);
      if (own !== null) densities[name] = own;
    }
  const p = range(json.p, 'p', 0, 1);
  const observers = json.observers ?? ['A', 'B'];
  const named =
    Array.isArray(observers) &&
    observers.length === 2 &&
    observers.every((n) => typeof n === 'string' && n.trim() !== '') &&
    observers[0] !== observers[1];
  if (!named) wrong('observers', `${visible(JSON.stringify(observers))} (two names expected)`);
  const values = {
    sigmaM: number('sigma_m', 0.01, 100, null),
    clusterSize: number('cluster_size', 1, 100_000, 1),
    dispersion: number('dispersion', 0, 1000, 1),
    transectSd: number('transect_sd', 0, 5, 0.3),
    depthFromM: number('depth_from_m', 0, 2000, 0),
    depthToM: number('depth_to_m', 0.1, 2000, null),
    setupMin: number('setup_min', 0, 1440, null),
    searchMinPerM2: number('search_min_per_m2', 0, 1440, null),
  };
  if (values.depthToM === null && json.depth_to_m === undefined)
    wrong('depth_to_m', 'not stated (the greatest depth that the dives are for, m, expected)');
  if (findings.length > 0 || p === null) return { stated: null, findings };
  return {
    findings,
    stated: {
      clustersPerM2: densities,
      p,
      sigmaM: values.sigmaM,
      clusterSize: values.clusterSize ?? 1,
      dispersion: values.dispersion ?? 0,
      transectSd: values.transectSd ?? 0,
      depthFromM: values.depthFromM ?? 0,
      depthToM: values.depthToM ?? 0,
      observers: observers as [string, string],
      minutes:
        values.setupMin === null || values.searchMinPerM2 === null
          ? null
          : { fixedMin: values.setupMin, searchMinPerM2: values.searchMinPerM2 },
    },
  };
}

const isObject = (x: unknown): x is Record<string, unknown> =>
  typeof x === 'object' && x !== null && !Array.isArray(x);
