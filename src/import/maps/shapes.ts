/** Shapes sorted by kind: a layer holds points, lines or areas, and readers of all formats end here. */

import { type Finding, noticeAt } from '../../../shared/findings.ts';
import {
  type GivenCrs,
  positionsOf,
  type RawFeature,
  type RawGeometry,
  type RawLayer,
} from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';

/** A shape as a reader found it; null: a row without one. */
export interface ReadShape {
  geometry: RawGeometry | null;
  properties: RawFeature['properties'];
  row: number;
}

export type Kind = 'points' | 'lines' | 'areas';

const KINDS: Record<RawGeometry['type'], Kind> = {
  Point: 'points',
  MultiPoint: 'points',
  LineString: 'lines',
  MultiLineString: 'lines',
  Polygon: 'areas',
  MultiPolygon: 'areas',
};

export function kindOf(geometry: RawGeometry): Kind {
  return KINDS[geometry.type];
}

/** The same shape with every position put through a function. */
export function moved(geometry: RawGeometry, move: (position: number[]) => number[]): RawGeometry {
  switch (geometry.type) {
    case 'Point':
      return { type: geometry.type, coordinates: move(geometry.coordinates) };
    case 'MultiPoint':
    case 'LineString':
      return { type: geometry.type, coordinates: geometry.coordinates.map(move) };
    case 'MultiLineString':
    case 'Polygon':
      return {
        type: geometry.type,
        coordinates: geometry.coordinates.map((part) => part.map(move)),
      };
    case 'MultiPolygon':
      return {
        type: geometry.type,
        coordinates: geometry.coordinates.map((rings) => rings.map((ring) => ring.map(move))),
      };
  }
}

/**
 * One layer for each kind of shape that there is. Rows without a shape and shapes with positions that are no numbers are left
 * out and told; heights that differ stand in the property `z` of points and of level lines.
 */
export function layersOf(
  about: { file: string; layer: string | null; from: RawLayer['from']; crs: GivenCrs },
  shapes: readonly ReadShape[],
  findings: Finding[],
  remarks: readonly string[] = [],
): RawLayer[] {
  const named = about.layer === null ? about.file : `${about.file}, layer ${about.layer}`;
  const byKind = new Map<Kind, RawFeature[]>();
  const without: number[] = [];
  const broken: number[] = [];
  for (const { geometry, properties, row } of shapes) {
    if (geometry === null) without.push(row);
    else if (!isSound(geometry)) broken.push(row);
    else {
      const kind = kindOf(geometry);
      if (!byKind.has(kind)) byKind.set(kind, []);
      byKind.get(kind)!.push({ geometry, properties, row });
    }
  }
  const tell = (code: string, rows: number[], what: string) => {
    if (rows.length === 0) return;
    const first = { table: named, row: rows[0] };
    findings.push(
      noticeAt(
        first,
        code,
        `${formatCount(rows.length)} of ${formatCount(shapes.length)} shapes ${what}: left out`,
      ),
    );
  };
  tell('no-geometry', without, 'have no geometry');
  tell('broken-geometry', broken, 'have too few positions or such as are no numbers');
  if (byKind.size === 0) {
    findings.push(noticeAt({ table: named }, 'empty-layer', 'holds no shape: left out'));
    return [];
  }
  const kinds = [...byKind.keys()];
  return kinds.map((kind) => ({
    ...about,
    layer:
      kinds.length === 1
        ? about.layer
        : [about.layer, kind].filter((part) => part !== null).join(' '),
    features: withLevels(byKind.get(kind)!),
    remarks: [
      ...remarks,
      ...(kinds.length === 1
        ? []
        : [`${named} mixes ${kinds.join(' and ')}: taken as a layer of each`]),
    ],
  }));
}

const LEAST: Record<RawGeometry['type'], number> = {
  Point: 1,
  MultiPoint: 1,
  LineString: 2,
  MultiLineString: 2,
  Polygon: 4,
  MultiPolygon: 4,
};

function isSound(geometry: RawGeometry): boolean {
  return (
    partsOf(geometry).every(
      (part) =>
        part.length >= LEAST[geometry.type] &&
        part.every((p) => p.length >= 2 && Number.isFinite(p[0]) && Number.isFinite(p[1])),
    ) && partsOf(geometry).length > 0
  );
}

function partsOf(geometry: RawGeometry): number[][][] {
  switch (geometry.type) {
    case 'Point':
      return [[geometry.coordinates]];
    case 'MultiPoint':
    case 'LineString':
      return [geometry.coordinates];
    case 'MultiLineString':
    case 'Polygon':
      return geometry.coordinates;
    case 'MultiPolygon':
      return geometry.coordinates.flat();
  }
}

/**
 * The one height of all positions of a shape as its property `z`. Not where all of a layer lie at 0: programs write that for
 * shapes without heights.
 */
function withLevels(features: readonly RawFeature[]): RawFeature[] {
  const levels = features.map(({ geometry }) => levelOf(geometry));
  if (levels.every((z) => z === null || z === 0)) return [...features];
  return features.map((feature, i) =>
    levels[i] === null || 'z' in feature.properties
      ? feature
      : { ...feature, properties: { ...feature.properties, z: levels[i] } },
  );
}

function levelOf(geometry: RawGeometry): number | null {
  const positions = positionsOf(geometry);
  const z = positions[0][2];
  return z !== undefined && Number.isFinite(z) && positions.every((p) => p[2] === z) ? z : null;
}
