/** The zone of projected coordinates where a column beside them says it: `16T`, as handhelds write it. */

import type { GivenCrs } from '../../../shared/importing.ts';
import { quoted } from '../../../shared/words.ts';

const HEADER = /\b(zone|zona|huso|fuseau)\b/i;
/** First codes of the zones on WGS 84, north and south (EPSG register). */
const [NORTH, SOUTH] = [32600, 32700];

export function isZone(header: string): boolean {
  return HEADER.test(header);
}

/**
 * Null where the cells do not all say one zone with its band. Bands C to M lie south of the equator, N to X north of it; S, which
 * many write for south, and a number alone say nothing of that: they are asked like coordinates without a zone.
 */
export function zoneOf(
  header: string,
  cells: readonly string[],
): { crs: GivenCrs; remark: string } | null {
  const filled = [...new Set(cells.map((cell) => cell.replace(/\s+/g, '').toUpperCase()))].filter(
    (cell) => cell !== '',
  );
  const [, digits, band] = /^(\d{1,2})\s*([C-HJ-NP-X])$/.exec(filled[0] ?? '') ?? [];
  const zone = Number(digits);
  if (filled.length !== 1 || band === undefined || band === 'S' || zone < 1 || zone > 60)
    return null;
  const isNorth = band >= 'N';
  const code = (isNorth ? NORTH : SOUTH) + zone;
  return {
    crs: { kind: 'epsg', code },
    remark: `its coordinates are taken for UTM zone ${zone}${isNorth ? 'N' : 'S'} on WGS 84 (EPSG:${code}), as ${quoted(header)} says ${filled[0]}; on another datum they lie metres off`,
  };
}
