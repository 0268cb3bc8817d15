/** The list of coordinate systems by EPSG code, out of the table that tests/import/maps/epsg-table.ts makes. */

import { type Datum, datumOf, PLATES } from './datums.ts';
import { EPSG_TABLE } from './epsg-table.ts';

export interface ListedSystem {
  /** all systems that give the same place to every number, but for metres between modern datums */
  codes: number[];
  /** those whose datum is fixed to a plate, and which */
  plates: Map<number, Datum>;
  /** of the projection; the datum has its own */
  name: string;
  datum: Datum;
  /** PROJ string with the datum */
  proj: string;
  /** degrees: where the system is used; west > east across ±180° */
  north: number;
  west: number;
  south: number;
  east: number;
}

let listed: ListedSystem[] | null = null;
let byCode: Map<number, ListedSystem> | null = null;

export function allSystems(): readonly ListedSystem[] {
  listed ??= EPSG_TABLE.trim().split('\n').map(parseLine);
  return listed;
}

/** Null where the code is not in the list. */
export function systemOf(code: number): ListedSystem | null {
  byCode ??= new Map(
    allSystems().flatMap((system) => system.codes.map((c) => [c, system] as const)),
  );
  return byCode.get(code) ?? null;
}

/** The datum of one of its codes. */
export function datumAt(system: ListedSystem, code: number): Datum {
  return system.plates.get(code) ?? system.datum;
}

/** `26916n 3746h 32616;UTM zone 16N;m;utm zone=16;84 -90 23.97 -84` */
function parseLine(line: string): ListedSystem {
  const [codes, name, datumKey, projection, box] = line.split(';');
  const datum = datumOf(datumKey);
  const given = codes.split(' ');
  const parts = projection.split(' ').map((part, i) => (i === 0 ? `+proj=${part}` : `+${part}`));
  const [north, west, south, east] = box.split(' ').map(Number);
  const unit = /\b(units|to_meter)=|^longlat/.test(projection) ? '' : ' +units=m';
  return {
    codes: given.map((code) => Number.parseInt(code, 10)),
    plates: new Map(
      given.flatMap((code): [number, Datum][] => {
        const plate = PLATES[code.at(-1) ?? ''];
        return plate === undefined ? [] : [[Number.parseInt(code, 10), plate]];
      }),
    ),
    name,
    datum,
    proj: `${parts.join(' ')}${unit} +no_defs ${datum.proj}`,
    north,
    west,
    south,
    east,
  };
}
