/**
 * The invented lake: that its files are what make.ts makes, that its maps fit together, that the planted faults are
 * there, and that its truth agrees with sums made another way.
 */
import { readdirSync, readFileSync } from 'node:fs';
import geodesic from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import { coverAt, depthAt, FRAME, plantCoverAt, toPlane } from '../../demo-lake/make/shape.ts';
import { makeDemo } from '../../demo-lake/make.ts';
import { stream } from '../../models/numbers/random.ts';
import type { Truth } from '../../models/simulate.ts';
import type { XY } from '../../shared/survey.ts';

const FOLDER = new URL('../../demo-lake/', import.meta.url);
const text = (name: string) => readFileSync(new URL(name, FOLDER), 'utf8');

interface Feature {
  properties: { substrate?: string; plant_cover?: number; depth_m?: number; name?: string };
  geometry: { type: string; coordinates: [number, number][][] };
}
interface LineFeature extends Omit<Feature, 'geometry'> {
  geometry: { type: string; coordinates: [number, number][] };
}
const features = (name: string): Feature[] => JSON.parse(text(name)).features;

/** Cells by column name. Quoted cells (notes) hold no line breaks, and nothing here reads them. */
function rows(name: string): Record<string, string>[] {
  const [header, ...lines] = text(name).trimEnd().split('\n');
  const columns = header!.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    return Object.fromEntries(columns.map((column, i) => [column, cells[i] ?? '']));
  });
}

const truth = JSON.parse(text('truth.json'));
const parameters: Truth = truth.parameters;
const transects = rows('transects.csv');
const habitat = rows('habitat.csv');
const detections = rows('detections.csv');

/** On the ellipsoid, positive counterclockwise, m² (geographiclib-geodesic 2.2.0, whose sign is that of RFC 7946). */
function geodesicAreaM2(ring: [number, number][]): number {
  const polygon = geodesic.Geodesic.WGS84.Polygon(false);
  for (const [lon, lat] of ring.slice(0, -1)) polygon.AddPoint(lat, lon);
  return polygon.Compute(false, true).area ?? Number.NaN;
}
const areaOf = (feature: Feature) =>
  feature.geometry.coordinates.reduce((sum, ring) => sum + geodesicAreaM2(ring), 0);

describe('the files', () => {
  const made = makeDemo();

  it.each([...made.keys()])('%s is byte for byte what make.ts makes', (name) => {
    expect(made.get(name)).toBe(text(name));
  });

  it('has no file that nobody makes, but for the README and the package description', () => {
    const others = readdirSync(FOLDER).filter((name) => !made.has(name));
    const known = ['README.md', 'make', 'make.ts', 'datapackage.json'];
    expect(others.filter((name) => !known.includes(name))).toEqual([]);
  });
});

describe('the maps', () => {
  const substrate = features('substrate.geojson');
  const [outline] = features('outline.geojson');

  it('the lake has the size that the README says, and one island', () => {
    expect(outline!.geometry.coordinates).toHaveLength(2);
    const hectares = areaOf(outline!) / 10_000;
    expect(hectares).toBeGreaterThan(66.5);
    expect(hectares).toBeLessThan(67.5);
  });

  it('outlines run counterclockwise, holes clockwise, all closed (RFC 7946, 3.1.6)', () => {
    for (const { geometry } of [...substrate, outline!, ...features('treatments.geojson')]) {
      expect(geometry.type).toBe('Polygon');
      for (const [i, ring] of geometry.coordinates.entries()) {
        expect(ring.at(-1)).toEqual(ring[0]);
        expect(Math.sign(geodesicAreaM2(ring))).toBe(i === 0 ? 1 : -1);
      }
    }
  });

  it('20 to 40 patches; every class of the scenario, a mixed one, some without plant cover', () => {
    expect(substrate.length).toBeGreaterThanOrEqual(20);
    expect(substrate.length).toBeLessThanOrEqual(40);
    const labels = new Set(substrate.map((feature) => feature.properties.substrate));
    expect(labels).toEqual(new Set(['mud', 'silt', 'sand', 'gravel', 'rock', 'sand+gravel']));
    const bare = substrate.filter((feature) => feature.properties.plant_cover === undefined);
    expect(bare.length).toBeGreaterThan(1);
    expect(bare.length).toBeLessThan(substrate.length / 2);
  });

  it('patches tile the bed: every edge is shared by two neighbours, the shore, or the edge of the mapped bed', () => {
    const directed = new Set<string>();
    for (const ring of substrate.flatMap((feature) => feature.geometry.coordinates)) {
      for (let i = 1; i < ring.length; i++) {
        const key = `${ring[i - 1]} ${ring[i]}`;
        expect(directed.has(key)).toBe(false); // the same side twice would be an overlap
        directed.add(key);
      }
    }
    const shore = new Set<string>();
    for (const ring of outline!.geometry.coordinates) {
      for (let i = 1; i < ring.length; i++) shore.add(`${ring[i - 1]} ${ring[i]}`);
    }
    let open = 0;
    for (const key of directed) {
      const [a, b] = key.split(' ') as [string, string];
      if (directed.has(`${b} ${a}`) || shore.has(key)) continue;
      open += 1;
      const p = toPlane(a.split(',').map(Number) as [number, number]);
      // 0.3 m of drawing tolerance on slopes up to 0.25, and 10 m between nodes at meeting points
      expect(Math.abs(depthAt(p) - 10)).toBeLessThan(0.5);
    }
    expect(open).toBeGreaterThan(50);
    for (const key of shore) expect(directed.has(key)).toBe(true); // mapped all along the shore
  });

  it('contours go down past the deepest dive, and lie at their depth', () => {
    const contours: LineFeature[] = JSON.parse(text('depth.geojson')).features;
    const depths = new Set(contours.map((feature) => feature.properties.depth_m));
    expect([...depths]).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14]);
    for (const { properties, geometry } of contours) {
      for (const point of geometry.coordinates) {
        // halving to 2 cm on slopes up to 0.5
        expect(Math.abs(depthAt(toPlane(point)) - properties.depth_m!)).toBeLessThan(0.02);
      }
    }
  });
});

describe('the sheets', () => {
  it('36 belts and 12 distance transects; 500 to 1,000 detections', () => {
    const designs = transects.map((row) => row.design);
    expect(designs.filter((design) => design === 'belt')).toHaveLength(36);
    expect(designs.filter((design) => design === 'distance')).toHaveLength(12);
    expect(detections.length).toBeGreaterThan(500);
    expect(detections.length).toBeLessThan(1000);
  });

  it('every diver leads and follows on two-pass transects of both designs', () => {
    for (const design of ['belt', 'distance']) {
      const pairs = transects.filter((row) => row.design === design && row.secondary !== '');
      for (const diver of ['Ines', 'Tomas', 'Wren']) {
        expect(pairs.some((row) => row.primary === diver)).toBe(true);
        expect(pairs.some((row) => row.secondary === diver)).toBe(true);
      }
    }
    expect(transects.filter((row) => row.secondary === '').length).toBe(5);
  });

  it('mud is mapped and never surveyed; the other classes are', () => {
    const seen = new Set(habitat.flatMap((row) => row.substrate!.split('+')).filter(Boolean));
    expect([...seen].sort()).toEqual(['gravel', 'rock', 'sand', 'silt']);
    expect(truth.domain.classes).toEqual(['gravel', 'rock', 'sand', 'silt']);
  });

  it('obeys what would be an error: breaks in order from 0, nothing past the rope or the strip', () => {
    for (const transect of transects) {
      const own = habitat.filter((row) => row.transect === transect.transect);
      const breaks = own.map((row) => Number(row.distance_m));
      expect(breaks[0]).toBe(0);
      expect(breaks).toEqual([...new Set(breaks)].sort((a, b) => a - b));
      expect(breaks.at(-1)).toBeLessThanOrEqual(Number(transect.length_m));
      for (const found of detections.filter((row) => row.transect === transect.transect)) {
        expect(Number(found.distance_m)).toBeLessThanOrEqual(Number(transect.length_m));
        expect(found.offset_m === '').toBe(transect.design === 'belt');
        expect(Number(found.offset_m)).toBeLessThanOrEqual(Number(transect.width_m) / 2);
        expect(found.role === 'secondary' && transect.secondary === '').toBe(false);
      }
    }
  });

  it('holds the planted faults', () => {
    const row = (name: string) => transects.find((transect) => transect.transect === name)!;
    const endRow = (name: string) =>
      habitat.some(
        (h) => h.transect === name && Number(h.distance_m) === Number(row(name).length_m),
      );
    expect(transects.filter((t) => t.end_lat === '').map((t) => t.transect)).toEqual(['T14']);
    expect(transects.filter((t) => Number(t.length_m) > 30).map((t) => t.transect)).toEqual([
      'T19',
    ]);
    expect(transects.filter((t) => !endRow(t.transect!)).map((t) => t.transect)).toEqual(['T23']);
    expect(Object.keys(transects[0])).toContain('boat');
    // T07 alone points away from its end waypoint
    const away = transects.filter((t) => {
      if (t.end_lat === '') return false;
      const [ax, ay] = toPlane([Number(t.start_lon), Number(t.start_lat)]);
      const [bx, by] = toPlane([Number(t.end_lon), Number(t.end_lat)]);
      const bearing = ((Number(t.bearing_deg) - 6.491) * Math.PI) / 180;
      return (bx - ax) * Math.sin(bearing) + (by - ay) * Math.cos(bearing) < 0;
    });
    expect(away.map((t) => t.transect)).toEqual(['T07']);
    const belts = detections.filter((d) => d.offset_m === '');
    const near = belts.filter(
      (d) =>
        d.role === 'secondary' &&
        belts.some(
          (e) =>
            e.role === 'primary' &&
            e.transect === d.transect &&
            Math.abs(Number(e.distance_m) - Number(d.distance_m)) < 0.05,
        ),
    );
    expect(near.length).toBeGreaterThan(0);
  });
});

/** Clusters per m², written out a second time. */
function density(substrate: string[], plants: number, depthM: number): number {
  const { intercept, substrate: effects, plant_cover, depth, depth_squared } = parameters.density;
  const classes = substrate.map((name) => effects[name]);
  const hard = classes.reduce((a, b) => a + b, 0) / classes.length;
  return Math.exp(
    intercept + hard + plant_cover * plants + depth * depthM + depth_squared * depthM ** 2,
  );
}

describe('the truth', () => {
  it('agrees with points thrown at random on the lake', () => {
    // 1 million points; bound of 5 standard errors of their mean: one false alarm in 1.7 million seeds
    const random = stream(1, 99);
    const n = 1_000_000;
    const covers = ['', '', 'mud', 'silt', 'silt', 'sand', 'sand', 'sand+gravel', 'gravel', 'rock'];
    const sums = { area: 0, clusters: 0, squares: 0 };
    for (let i = 0; i < n; i++) {
      const x = FRAME.x0 + random.uniform() * FRAME.widthM;
      const y = FRAME.y0 + random.uniform() * FRAME.heightM;
      const p: XY = [x, y];
      const depthM = depthAt(p);
      if (depthM < truth.domain.depth_from_m || depthM > truth.domain.depth_to_m) continue;
      const cover = coverAt(p);
      const label = covers[cover];
      if (label === 'mud') continue;
      const clusters = density(label.split('+'), plantCoverAt(p, cover), depthM);
      sums.area += 1;
      sums.clusters += clusters;
      sums.squares += clusters ** 2;
    }
    const frameM2 = FRAME.widthM * FRAME.heightM;
    const share = sums.area / n;
    const mean = sums.clusters / n;
    const areaSe = frameM2 * Math.sqrt((share * (1 - share)) / n);
    const clustersSe = frameM2 * Math.sqrt((sums.squares / n - mean ** 2) / n);
    expect(Math.abs(truth.area_m2 - frameM2 * share)).toBeLessThan(5 * areaSe);
    expect(Math.abs(truth.clusters - frameM2 * mean)).toBeLessThan(5 * clustersSe);
    expect(clustersSe / truth.clusters).toBeLessThan(0.005); // the comparison is worth something
    // sizes do not depend on the place: 1 + 2.2 mussels a cluster (truth rounded to whole numbers)
    expect(Math.abs(truth.mussels - truth.clusters * 3.2)).toBeLessThan(2);
  });

  it('has densities over three orders of magnitude', () => {
    const random = stream(2, 99);
    const covers = ['', '', 'mud', 'silt', 'silt', 'sand', 'sand', 'sand+gravel', 'gravel', 'rock'];
    const found: number[] = [];
    while (found.length < 20_000) {
      const p: XY = [
        FRAME.x0 + random.uniform() * FRAME.widthM,
        FRAME.y0 + random.uniform() * FRAME.heightM,
      ];
      const depthM = depthAt(p);
      if (depthM < truth.domain.depth_from_m || depthM > truth.domain.depth_to_m) continue;
      const cover = coverAt(p);
      if (covers[cover] === 'mud') continue;
      found.push(density(covers[cover].split('+'), plantCoverAt(p, cover), depthM));
    }
    found.sort((a, b) => a - b);
    expect(found[found.length - 1] / found[0]).toBeGreaterThan(1000);
  });

  it('leaves a choice: the treatment area with the most mussels is not the densest, and neither is small beside the others', () => {
    const areas: { name: string; mussels: number; area_m2: number }[] = truth.treatments;
    const most = (of: (a: (typeof areas)[number]) => number) =>
      areas.reduce((a, b) => (of(b) > of(a) ? b : a));
    const [largest, densest] = [most((a) => a.mussels), most((a) => a.mussels / a.area_m2)];
    expect(largest.name).not.toBe(densest.name);
    expect(densest.mussels).toBeGreaterThan(largest.mussels / 5);
    expect(densest.area_m2).toBeLessThan(largest.area_m2 / 5);
  });

  it('the domain is what the sheets say: classes, depths widened by 0.5 m, plants', () => {
    const depths = habitat.map((row) => Number(row.depth_m));
    const plants = habitat
      .filter((row) => row.plant_cover !== '')
      .map((row) => Number(row.plant_cover));
    expect(truth.domain.depth_from_m).toBeCloseTo(Math.min(...depths) - 0.5, 9);
    expect(truth.domain.depth_to_m).toBeCloseTo(Math.max(...depths) + 0.5, 9);
    expect(truth.domain.plant_cover_from).toBe(Math.min(...plants));
    expect(truth.domain.plant_cover_to).toBe(Math.max(...plants));
    expect(truth.domain.depth_to_m).toBeLessThan(10);
  });

  it('the divers found about as many clusters as the truth, the sheets and the closed forms let expect', () => {
    const p = (diver: string, design: 'belt' | 'distance') =>
      1 / (1 + Math.exp(-parameters.detection.observers[diver][design]!));
    // half-normal, σ = 0.6, w = 1: mean of g = σ √(π/2) erf(1/(σ√2)) = 0.7520 × 0.90442 = 0.68011 (by hand)
    const meanG = 0.68011;
    let expected = 0;
    let variance = 0;
    for (const t of transects) {
      const design = t.design as 'belt' | 'distance';
      const missed =
        (1 - p(t.primary!, design)) * (t.secondary === '' ? 1 : 1 - p(t.secondary!, design));
      const found = (1 - missed) * (design === 'belt' ? 1 : meanG);
      const own = habitat.filter((h) => h.transect === t.transect);
      for (const [i, h] of own.entries()) {
        const to = Number(own[i + 1]?.distance_m ?? t.length_m);
        const length = to - Number(h.distance_m);
        if (length <= 0) continue;
        const end = Number(own[i + 1]?.depth_m ?? h.depth_m);
        const fall = end - Number(h.depth_m);
        const area = Math.sqrt(length ** 2 - fall ** 2) * Number(t.width_m);
        const middle = (end + Number(h.depth_m)) / 2;
        const mean = area * density(h.substrate!.split('+'), Number(h.plant_cover), middle) * found;
        expected += mean;
        variance += mean * (1 + parameters.density.dispersion! * found); // thinned nb1
      }
    }
    // 5 standard deviations of the count, and 2 % for rounded breaks and depths
    expect(Math.abs(detections.length - expected)).toBeLessThan(
      5 * Math.sqrt(variance) + 0.02 * expected,
    );
    expect(Math.sqrt(variance) / expected).toBeLessThan(0.07);
  });
});
