/** Cells that cannot be what their column asks for. */

import { setCell } from '../helpers/bend.ts';
import { type Case, D, H, one, T } from './cases.ts';

type Row = [file: string, row: number, column: string, value: string, code: string, says: string[]];

const ROWS: Row[] = [
  // not a number
  [T, 7, 'length_m', '3O', 'not-a-number', ['"3O" is not a number (metres expected)']],
  [T, 2, 'length_m', '30m', 'not-a-number', ['"30m" is not a number', 'leave out the unit']],
  [T, 2, 'length_m', 'NaN', 'not-a-number', ['"NaN" is not a number']],
  [T, 2, 'length_m', 'Infinity', 'not-a-number', ['"Infinity" is not a number']],
  [T, 2, 'length_m', '1e400', 'not-a-number', ['"1e400" is not a number']],
  [T, 2, 'length_m', '0x1F', 'not-a-number', ['"0x1F" is not a number']],
  [T, 3, 'width_m', '--', 'not-a-number', ['"--" is not a number (metres expected)']],
  [T, 3, 'clarity_m', 'good', 'not-a-number', ['"good" is not a number']],
  [T, 2, 'start_lat', '45°0', 'not-a-number', ['is not a number (degrees expected']],
  [T, 2, 'end_lon', 'W93', 'not-a-number', ['"W93" is not a number (degrees expected)']],
  [T, 2, 'bearing_deg', 'E', 'not-a-number', ['"E" is not a number (degrees expected)']],
  [T, 2, 'search_min', 'long', 'not-a-number', ['"long" is not a number', 'mm:ss']],
  [H, 2, 'distance_m', 'O', 'not-a-number', ['"O" is not a number (metres expected']],
  [H, 6, 'plant_cover', 'high', 'not-a-number', ['"high" is not a number', 'from 0 to 4']],
  [H, 3, 'depth_m', '2.0.1', 'not-a-number', ['"2.0.1" is not a number (metres expected']],
  [D, 2, 'distance_m', '3..5', 'not-a-number', ['"3..5" is not a number']],
  [D, 18, 'offset_m', 'near', 'not-a-number', ['"near" is not a number (metres expected)']],
  [D, 3, 'count', '20+', 'not-a-number', ['"20+" is not a number', 'whole number of mussels']],
  [D, 3, 'count', 'lots', 'not-a-number', ['"lots" is not a number', 'whole number of mussels']],
  [D, 2, 'cluster_length_cm', 'big', 'not-a-number', ['"big"', 'centimetres expected']],
  // whole numbers
  [D, 3, 'count', '1.5', 'not-whole', ['1.5 is not a whole number', 'mussels']],
  [H, 2, 'plant_cover', '2.5', 'not-whole', ['2.5 is not a whole number', '0 to 4']],
  // limits
  [T, 2, 'length_m', '0', 'out-of-range', ['0 is not above 0', 'metres']],
  [T, 2, 'length_m', '-30', 'out-of-range', ['-30 is not above 0']],
  [T, 2, 'length_m', '1000.5', 'out-of-range', ['1000.5 is above 1,000']],
  [T, 5, 'width_m', '0', 'out-of-range', ['0 is not above 0', 'metres']],
  [T, 5, 'width_m', '-2', 'out-of-range', ['-2 is not above 0']],
  [T, 5, 'clarity_m', '-1', 'out-of-range', ['-1 is negative', 'metres']],
  [T, 2, 'bearing_deg', '-1', 'out-of-range', ['-1 is negative', 'degrees']],
  [T, 2, 'bearing_deg', '360', 'out-of-range', ['360 is not below 360']],
  [T, 2, 'start_lat', '90.1', 'out-of-range', ['90.1 is off the globe', '-90 to 90 degrees']],
  [T, 2, 'start_lat', '-91', 'out-of-range', ['-91 is off the globe']],
  [T, 2, 'start_lon', '-180.5', 'out-of-range', ['-180.5 is off the globe', '-180 to 180']],
  [T, 2, 'end_lat', '450', 'out-of-range', ['450 is off the globe']],
  [T, 2, 'end_lon', '267', 'out-of-range', ['267 is off the globe']],
  [T, 2, 'setup_min', '-3', 'out-of-range', ['-3 is negative', 'minutes']],
  [H, 3, 'distance_m', '-12', 'out-of-range', ['-12 is negative', 'metres']],
  [H, 2, 'depth_m', '-0.8', 'out-of-range', ['-0.8 is negative', 'metres']],
  [H, 2, 'plant_cover', '5', 'out-of-range', ['5 is off the scale', '0 to 4']],
  [H, 2, 'plant_cover', '-1', 'out-of-range', ['-1 is off the scale']],
  [D, 2, 'distance_m', '-3.5', 'out-of-range', ['-3.5 is negative', 'metres']],
  [D, 18, 'offset_m', '-0.1', 'out-of-range', ['-0.1 is negative', 'metres']],
  [D, 2, 'count', '0', 'out-of-range', ['0 is below 1', 'mussels']],
  [D, 2, 'count', '-2', 'out-of-range', ['-2 is below 1']],
  [D, 2, 'count', '100001', 'out-of-range', ['100001 is above 100,000']],
  // listed values
  [T, 2, 'design', 'strip', 'not-listed', ['"strip"', 'belt or distance expected']],
  [T, 2, 'bearing_ref', 'grid', 'not-listed', ['"grid"', 'magnetic or true expected']],
  [T, 2, 'stop', 'cold', 'not-listed', ['"cold"', 'rope_end, thermocline or obstacle']],
  [D, 2, 'role', 'first', 'not-listed', ['"first"', 'primary or secondary expected']],
  // substrates
  [H, 2, 'substrate', 'granite', 'unknown-substrate', ['unknown substrate "granite"', 'mud']],
  [H, 2, 'substrate', 'sand+granit', 'unknown-substrate', ['unknown substrate "granit"']],
  [H, 2, 'substrate', 'sannd', 'unknown-substrate', ['did you mean sand?']],
  [H, 2, 'substrate', 'sand+Sand', 'repeated-substrate', ['"sand+Sand" names sand twice']],
  [H, 2, 'substrate', 'sand+', 'empty-substrate', ['"sand+"', 'without a class']],
  [H, 2, 'substrate', '+sand', 'empty-substrate', ['"+sand"']],
  // dates and times
  [T, 2, 'date', '2025-02-30', 'invalid-date', ['"2025-02-30" is not a day', 'YYYY-MM-DD']],
  [T, 2, 'date', '2025-13-01', 'invalid-date', ['"2025-13-01" is not a day']],
  [T, 2, 'date', '2025-00-10', 'invalid-date', ['"2025-00-10" is not a day']],
  [T, 2, 'date', '01/07/2025', 'invalid-date', ['"01/07/2025" is not a date', 'YYYY-MM-DD']],
  [T, 2, 'date', '2025-7-1', 'invalid-date', ['"2025-7-1" is not a date']],
  [T, 2, 'setup_min', '7:75', 'invalid-time', ['"7:75" is not a time', 'mm:ss']],
  [T, 2, 'habitat_min', '7:5', 'invalid-time', ['"7:5" is not a time']],
  [T, 2, 'search_min', '1:02:03', 'invalid-time', ['"1:02:03" is not a time']],
  // required cells left blank
  [T, 2, 'transect', '', 'missing-value', ['blank, but required']],
  [T, 2, 'date', '', 'missing-value', ['blank, but required (YYYY-MM-DD expected)']],
  [T, 2, 'design', '', 'missing-value', ['blank, but required (belt or distance expected)']],
  [T, 2, 'primary', '', 'missing-value', ['blank, but required']],
  [T, 2, 'start_lat', '', 'missing-value', ['blank, but required (degrees expected)']],
  [T, 2, 'start_lon', '', 'missing-value', ['blank, but required (degrees expected)']],
  [T, 2, 'length_m', '', 'missing-value', ['blank, but required (metres expected)']],
  [H, 2, 'transect', '', 'missing-value', ['blank, but required']],
  [H, 2, 'distance_m', '', 'missing-value', ['blank, but required (metres expected)']],
  [H, 2, 'substrate', '', 'missing-value', ['blank, but required', 'class']],
  [H, 3, 'plant_cover', '', 'missing-value', ['blank, but required', '0 to 4']],
  [H, 5, 'depth_m', '', 'missing-value', ['blank, but required (metres expected)']],
  [D, 2, 'transect', '', 'missing-value', ['blank, but required']],
  [D, 2, 'role', '', 'missing-value', ['blank, but required (primary or secondary expected)']],
  [D, 2, 'distance_m', '', 'missing-value', ['blank, but required (metres expected)']],
  [D, 2, 'count', '', 'missing-value', ['blank, but required (mussels expected)']],
];

export const CELL_CASES: Case[] = ROWS.map(([file, row, column, value, code, says]) =>
  one(
    `${file} row ${row}, ${column}: ${value === '' ? 'blank' : value}`,
    setCell(file, row, column, value),
    { code, table: file, row, column, says },
  ),
);
