/**
 * The list of shifts between datums against PROJ's own (cs2cs), at a place of each one's country; and projections of the table
 * against PROJ at the middle of their areas.
 */

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { byCode, converterOf, readSystem } from '../../../src/import/maps/crs.ts';
import { datumNamed, KNOWN_DATUMS } from '../../../src/import/maps/datums.ts';
import { metresBetween, unitOf } from '../../../src/import/maps/rank.ts';
import { allSystems } from '../../../src/import/maps/systems.ts';
import { hasForeignMaps, run } from '../../helpers/foreign-maps.ts';
import { makeTable, TABLE } from './make-epsg-table.ts';

/** A projected system on each datum, numbers in it, and how far PROJ's best answer without grids may lie, m: its stated accuracy. */
const SHIFTED: [string, number, [number, number], number][] = [
  ['rd', 28992, [155000, 463000], 1],
  ['dhdn', 31467, [3500000, 5500000], 3],
  ['mgi', 31256, [0, 5300000], 2],
  ['ch1903', 2056, [2600000, 1200000], 2],
  ['bd72', 31370, [150000, 170000], 1],
  ['rt90', 3021, [1500000, 6600000], 2],
  ['kkj', 2393, [3400000, 6800000], 2],
  ['ireland', 29903, [200000, 250000], 1],
  ['nzgd49', 27200, [2500000, 6000000], 5],
  ['ntf', 4275, [2, 46], 2],
  ['agd66', 20255, [700000, 6100000], 6],
  ['agd84', 20350, [400000, 6500000], 5],
  ['tokyo', 30169, [0, 0], 9],
];

describe.skipIf(!hasForeignMaps)('against PROJ', () => {
  for (const [key, code, [x, y], offM] of SHIFTED)
    it(`the shift of ${key} puts EPSG:${code} within ${offM} m of PROJ`, () => {
      const read = byCode(code);
      if (!('system' in read)) throw new Error(read.refused);
      expect(KNOWN_DATUMS.map((d) => d.key)).toContain(key);
      const ours = converterOf(read.system).toLngLat(x, y);
      // north before east where the register has it so: the other order lies nowhere near
      const theirs = [`${x} ${y}`, `${y} ${x}`].map((line): [number, number] => {
        const [lat, lon] = run('cs2cs', ['-f', '%.9f', `EPSG:${code}`, 'EPSG:4326'], `${line}\n`)
          .trim()
          .split(/\s+/)
          .map(Number);
        return [lon, lat];
      });
      expect(
        Math.min(
          ...theirs.filter((at) => at.every(Number.isFinite)).map((at) => metresBetween(ours, at)),
        ),
      ).toBeLessThan(offM);
    });

  it('no datum is said to be better than the register states its operation (PROJ has the register)', () => {
    for (const { label, operation, offM } of KNOWN_DATUMS) {
      const told = run('projinfo', [
        '-q',
        '-k',
        'operation',
        '-o',
        'WKT2:2019',
        `EPSG:${operation}`,
      ]);
      const [, accuracyM] = /OPERATIONACCURACY\[([\d.]+)\]/.exec(told) ?? [];
      expect(offM, label).toBeGreaterThanOrEqual(Number(accuracyM));
    }
  });

  it('projections of every 120th system of the table: within 1 cm, there and back', () => {
    const register = JSON.parse(readFileSync('node_modules/epsg-index/all.json', 'utf8'));
    const list = allSystems().filter(({ proj }) => !proj.includes('longlat'));
    let compared = 0;
    for (let i = 0; i < list.length; i += 120) {
      const {
        codes: [code],
        proj,
      } = list[i];
      const geographic = /AUTHORITY\["EPSG","(\d+)"\]\],PROJECTION/.exec(register[code].wkt)?.[1];
      if (geographic === undefined) continue;
      const [n, w, s, e] = register[code].bbox;
      const [lon, lat] = [w > e ? 179.9 : (w + e) / 2, (n + s) / 2];
      const system = {
        name: '',
        code,
        offM: 0,
        datum: null,
        geographic: false,
        proj: proj.replace(/\+towgs84=\S+/, ''),
      };
      const converter = converterOf(system);
      const [x, y] = converter.fromLngLat([lon, lat]);
      const [a, b] = run(
        'cs2cs',
        ['-f', '%.6f', `EPSG:${geographic}`, `EPSG:${code}`],
        `${lat} ${lon}\n`,
      )
        .trim()
        .split(/\s+/)
        .map(Number);
      const off = Math.min(Math.hypot(x - a, y - b), Math.hypot(x - b, y - a)) * unitOf(proj);
      expect(off, `EPSG:${code}`).toBeLessThan(0.01);
      expect(metresBetween(converter.toLngLat(x, y), [lon, lat]), `EPSG:${code} back`).toBeLessThan(
        0.01,
      );
      compared++;
    }
    expect(compared).toBeGreaterThan(10);
  });
});

describe('coordinate systems', () => {
  it('the table is what its script makes of the register', () => {
    expect(readFileSync(TABLE, 'utf8')).toBe(makeTable());
  });

  it('names of datums as OGC, ESRI and the register write them', () => {
    const keys = [
      'D_North_American_1927',
      'North_American_Datum_1927',
      'NAD27',
      'OSGB_1936',
      'D_Amersfoort',
      'D_Nonsense',
    ].map((name) => datumNamed(name)?.key ?? null);
    expect(keys).toEqual(['nad27', 'nad27', 'nad27', 'osgb36', 'rd', null]);
  });

  const prj = (projection: string) =>
    `PROJCS["x",GEOGCS["GCS_North_American_1983",DATUM["D_North_American_1983",SPHEROID["GRS_1980",6378137.0,298.257222101]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]],${projection},UNIT["Meter",1.0]]`;

  it('what is not known of a system is named: projection, parameter, datum, version 2 without a code, garbage', () => {
    const refused = (text: string) => {
      const read = readSystem({ kind: 'wkt', text });
      return read !== null && 'refused' in read ? read.refused : null;
    };
    expect(refused(prj('PROJECTION["Bonne"],PARAMETER["Central_Meridian",0.0]'))).toContain(
      'the projection Bonne',
    );
    expect(refused(prj('PROJECTION["Transverse_Mercator"],PARAMETER["Height",200.0]'))).toContain(
      'the parameter height',
    );
    expect(
      refused(
        prj('PROJECTION["Transverse_Mercator"]')
          .replace('GRS_1980",6378137.0', 'Odd",6378000.0')
          .replace('D_North_American_1983', 'D_Odd')
          .replace('GCS_North_American_1983', 'GCS_Odd'),
      ),
    ).toContain('D_Odd');
    expect(refused('PROJCRS["x",BASEGEOGCRS["NAD83"]]')).toContain('version 2');
    expect(refused('\u0000\u0001garbage')).toContain('no coordinate system');
    expect(refused(`${'A['.repeat(10_000)}`)).toContain('no coordinate system');
    expect(
      refused(prj('PROJECTION["Transverse_Mercator"],PARAMETER["Central_Meridian",-87.0]')),
    ).toBe(null);
  });

  it('datums that are taken for WGS 84 and lie metres from it are known by code and by name; others are not spoken of', () => {
    const told = (read: ReturnType<typeof byCode> | null) =>
      read !== null && 'system' in read ? (read.system.datum?.label ?? null) : 'refused';
    const named = (datum: string) =>
      told(
        readSystem({
          kind: 'wkt',
          text: prj('PROJECTION["Transverse_Mercator"]').replace('D_North_American_1983', datum),
        }),
      );
    const later = 'NAD 83 (HARN, NSRS2007, 2011 or CSRS)';
    expect(
      [26916, 6345, 3746, 2959, 28355, 7855, 32616, 25832, 4269].map(byCode).map(told),
    ).toEqual([
      'NAD 83',
      later,
      later,
      later,
      'GDA 94 or GDA 2020',
      'GDA 94 or GDA 2020',
      null,
      null,
      'NAD 83',
    ]);
    expect(
      ['D_North_American_1983', 'D_NAD_1983_2011', 'D_North_American_1983_CSRS', 'D_ETRS_1989'].map(
        named,
      ),
    ).toEqual(['NAD 83', later, later, null]);
  });

  it('Krovak with axes to the south and west is refused by its parameter', () => {
    const text = (scale: number) =>
      prj(
        `PROJECTION["Krovak"],PARAMETER["Azimuth",30.28813975277778],PARAMETER["Longitude_Of_Center",24.83333333333333],PARAMETER["Latitude_Of_Center",49.5],PARAMETER["X_Scale",${scale}]`,
      );
    expect(readSystem({ kind: 'wkt', text: text(-1) })).toHaveProperty('system');
    expect(readSystem({ kind: 'wkt', text: text(1) })).toEqual({
      refused: expect.stringContaining('the parameter xscale = 1 of krovak (-1 expected)'),
    });
  });

  it('a code that cannot be placed is refused by its number', () => {
    expect(byCode(2136)).toEqual({ refused: expect.stringContaining('EPSG:2136') }); // Accra, Ghana National Grid, in Gold Coast feet
  });
});
