/** Choices that are not to be had. */

import { setFile } from '../helpers/bend.ts';
import { A, type Case, one } from './cases.ts';

type Row = [json: string, column: string | undefined, code: string, says: string[]];

const ROWS: Row[] = [
  ['{ "lake": "x", }', undefined, 'invalid-json', ['not valid JSON', 'line 1']],
  ['{ "lake": ', undefined, 'invalid-json', ['not valid JSON']],
  ['[]', undefined, 'wrong-type', ['a list', 'an object']],
  ['{ "densty": {} }', 'densty', 'unknown-key', ['unknown key "densty"', 'did you mean density?']],
  ['{ "density": { "famly": "nb1" } }', 'density.famly', 'unknown-key', ['density.family?']],
  ['{ "family": "nb1" }', 'family', 'unknown-key', ['unknown key', 'density.family?']],
  ['{ "density.family": "nb1" }', 'density.family', 'unknown-key', ['unknown key']],
  ['{ "__proto__": 1 }', '__proto__', 'unknown-key', ['unknown key']],
  ['{ "density": 3 }', 'density', 'wrong-type', ['3 is of the wrong type', 'an object']],
  ['{ "density": null }', 'density', 'wrong-type', ['null is of the wrong type']],
  ['{ "lake": 7 }', 'lake', 'wrong-type', ['7 is of the wrong type', 'a text']],
  ['{ "density": { "substrate": "yes" } }', 'density.substrate', 'wrong-type', ['true or false']],
  ['{ "density": { "substrate": null } }', 'density.substrate', 'wrong-type', ['true or false']],
  ['{ "density": { "family": "gauss" } }', 'density.family', 'not-listed', ['"gauss"', '"nb1"']],
  ['{ "density": { "family": 1 } }', 'density.family', 'wrong-type', ['1 is of the wrong type']],
  ['{ "density": { "family": true } }', 'density.family', 'wrong-type', ['true']],
  ['{ "density": { "plant_cover": "some" } }', 'density.plant_cover', 'not-listed', ['"some"']],
  ['{ "density": { "depth": "spline" } }', 'density.depth', 'not-listed', ['"spline"', '"curve"']],
  ['{ "density": { "depth_df": 0 } }', 'density.depth_df', 'out-of-range', ['0', 'from 1 to 10']],
  ['{ "density": { "depth_df": 11 } }', 'density.depth_df', 'out-of-range', ['11']],
  ['{ "density": { "depth_df": 2.5 } }', 'density.depth_df', 'out-of-range', ['a whole number']],
  ['{ "density": { "depth_df": "3" } }', 'density.depth_df', 'wrong-type', ['"3"']],
  ['{ "density": { "transect_effect": "no" } }', 'density.transect_effect', 'not-listed', ['"no"']],
  ['{ "density": { "transect_effect": 0 } }', 'density.transect_effect', 'wrong-type', ['auto']],
  ['{ "detection": { "clarity": 1 } }', 'detection.clarity', 'wrong-type', ['true or false']],
  ['{ "detection": { "shape": "uniform" } }', 'detection.shape', 'not-listed', ['half-normal']],
  ['{ "detection": { "independence": "no" } }', 'detection.independence', 'not-listed', ['point']],
  ['{ "cluster_size": { "depth": true } }', 'cluster_size.depth', 'unknown-key', ['unknown key']],
  ['{ "segments": { "max_length_m": 0.05 } }', 'segments.max_length_m', 'out-of-range', ['0.1']],
  ['{ "segments": { "max_length_m": "5" } }', 'segments.max_length_m', 'wrong-type', ['null']],
  ['{ "position": { "gps_sd_m": 0 } }', 'position.gps_sd_m', 'out-of-range', ['above 0']],
  ['{ "position": { "compass_sd_deg": -4 } }', 'position.compass_sd_deg', 'out-of-range', ['-4']],
  ['{ "position": { "gps_sd_m": null } }', 'position.gps_sd_m', 'wrong-type', ['null']],
  ['{ "map": { "cell_m": 0 } }', 'map.cell_m', 'out-of-range', ['above 0']],
  ['{ "map": { "cell_m": 1e400 } }', 'map.cell_m', 'out-of-range', ['Infinity']],
  ['{ "map": { "max_depth_m": 0 } }', 'map.max_depth_m', 'out-of-range', ['above 0', 'null']],
  ['{ "map": { "outside": "include" } }', 'map.outside', 'not-listed', ['"exclude"']],
  ['{ "map": { "depth_tolerance_m": -1 } }', 'map.depth_tolerance_m', 'out-of-range', ['-1']],
  ['{ "map": { "threshold_per_m2": -1 } }', 'map.threshold_per_m2', 'out-of-range', ['null']],
  ['{ "bootstrap": { "replicates": 1.5 } }', 'bootstrap.replicates', 'out-of-range', ['whole']],
  ['{ "bootstrap": { "replicates": -1 } }', 'bootstrap.replicates', 'out-of-range', ['-1']],
  ['{ "interval": 1 }', 'interval', 'out-of-range', ['between 0 and 1']],
  ['{ "interval": 0 }', 'interval', 'out-of-range', ['between 0 and 1']],
  ['{ "interval": 95 }', 'interval', 'out-of-range', ['95']],
  ['{ "seed": -1 }', 'seed', 'out-of-range', ['-1', 'whole number']],
  ['{ "seed": 1.5 }', 'seed', 'out-of-range', ['1.5']],
  ['{ "substrates": [] }', 'substrates', 'bad-class-name', ['empty']],
  ['{ "substrates": ["sand", "gravel", "rock", ""] }', 'substrates', 'bad-class-name', ['entry 4']],
  ['{ "substrates": ["sand+mud"] }', 'substrates', 'bad-class-name', ['"sand+mud"']],
  ['{ "substrates": ["sand", 5] }', 'substrates', 'wrong-type', ['entry 2', '5']],
  ['{ "substrates": ["sand", "rock", "Sand"] }', 'substrates', 'repeated-class', ['"Sand"']],
];

export const ANALYSIS_CASES: Case[] = ROWS.map(([json, column, code, says]) =>
  one(`analysis.json: ${json}`, setFile(A, json), {
    code,
    table: A,
    ...(column === undefined ? {} : { column }),
    says,
  }),
);
