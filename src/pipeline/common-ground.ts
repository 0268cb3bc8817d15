/** The bed that two surveys can both speak for, on the maps of one of them. */

import type {
  Bed,
  LngLat,
  LngLatPolygon,
  PlacedTransect,
  Segment,
  TreatmentArea,
} from '../../shared/survey.ts';
import { commonDomain, type Ground, type Matched, reversed } from '../compare/index.ts';
import { layLake } from '../lake/index.ts';
import type { Folder, Judged } from '../pipeline.ts';
import { isWithin } from '../plan/polygons.ts';
import { alongShore, withoutFar } from '../shore/index.ts';

/** A survey judged, with what its dives say of when it was. */
export interface Taken {
  folder: Folder;
  judged: Judged;
  from: string | null;
  to: string | null;
}

/**
 * Treatment areas of several surveys, the last survey's first. Names prove nothing: areas are the same where their outlines are, and
 * one of an earlier survey whose name stands for another place has the survey beside it.
 * @param surveys in order of their dives
 */
export function placesOf(surveys: readonly Taken[]): TreatmentArea[] {
  const places: TreatmentArea[] = [];
  const [last, ...earlier] = [...surveys].reverse();
  const outlines = new Set<string>();
  const add = (area: TreatmentArea, name: string): void => {
    const outline = JSON.stringify(area.polygons);
    if (outlines.has(outline)) return;
    outlines.add(outline);
    places.push({ ...area, name });
  };
  for (const area of last?.judged.read.lake.treatments ?? []) add(area, area.name);
  for (const { folder, judged } of earlier)
    for (const area of judged.read.lake.treatments) {
      const isTaken = places.some(({ name }) => name === area.name);
      add(area, isTaken ? `${area.name} (${folder.name})` : area.name);
    }
  return places;
}

const MAP_FILES = ['outline.geojson', 'substrate.geojson', 'depth.geojson', 'depth.tif'];

export function sameMaps(before: Folder, after: Folder): boolean {
  return MAP_FILES.every((name) => sameBytes(before, after, name));
}

function sameBytes(a: Folder, b: Folder, name: string): boolean {
  const [one, other] = [a.files.get(name), b.files.get(name)];
  if (one === undefined || other === undefined) return one === other;
  return one.length === other.length && one.every((byte, i) => byte === other[i]);
}

/**
 * Null where that survey's maps give none.
 * @param maps whose maps are laid @param other the survey that must speak there too
 */
export function groundOf(
  maps: Taken,
  other: Taken,
  matched: Matched,
  namedBy: Ground['namedBy'],
  treated: LngLatPolygon[] | null,
): Ground | null {
  const own = maps.judged.prepared;
  const theirs = other.judged.prepared;
  if (own === null || theirs === null) return null;
  const match = namedBy === 'after' ? matched.classes : reversed(matched.classes);
  const domain = commonDomain(own.domain, theirs.domain, match);
  const { plane } = own;
  const { lake, analysis } = maps.judged.read;
  const candidates = namedBy === 'after' ? placesOf([other, maps]) : [];
  const stated: TreatmentArea[] =
    treated === null ? [] : [{ name: '', polygons: treated, feature: 1 }];
  const laid = layLake({
    files: maps.folder.files,
    lake: { ...lake, treatments: [...candidates, ...stated] },
    analysis,
    plane,
    domain,
  });
  if (laid.bed === null) return null;
  const shores = [maps, other].flatMap(({ judged }) => {
    const { prepared, read } = judged;
    if (prepared === null || read.analysis.map.far_from_transects === 'include') return [];
    return alongShore(laid.outline, prepared.placed.map(inPlane)) ?? [];
  });
  const near = (bed: Bed): Bed => shores.reduce(withoutFar, bed);
  const cut = laid.treated.map((area) => ({ ...area, bed: area.bed && near(area.bed) }));
  return {
    bed: near(laid.bed),
    areas: cut
      .slice(0, candidates.length)
      .map((area, i) => ({ ...area, isInside: insideOf(candidates[i].polygons) })),
    treated:
      treated === null
        ? null
        : {
            names: [],
            bed: cut[candidates.length].bed,
            isInside: insideOf(treated),
          },
    depthFromM: domain.depthFromM,
    depthToM: domain.depthToM,
    substrates: domain.classes,
    namedBy,
  };

  function inPlane(p: PlacedTransect): PlacedTransect {
    return { ...p, start: plane.forward(p.startLngLat), end: plane.forward(p.endLngLat) };
  }
}

/** Whether the middle of a segment lies in a place. */
function insideOf(polygons: readonly LngLatPolygon[]) {
  return ({ startLngLat: [x1, y1], endLngLat: [x2, y2] }: Segment): boolean => {
    const middle: LngLat = [(x1 + x2) / 2, (y1 + y2) / 2];
    return isWithin(middle, polygons);
  };
}
