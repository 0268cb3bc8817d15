/** The files of `areas`: numbers as JSON, polygons for a GIS and for plotters, and a sheet an area to print. */

import type { AreasFile, AreasHeld, NamedArea, Proposal } from '../../shared/areas.ts';
import type { LngLat } from '../../shared/survey.ts';
import { type AreaLake, areaSheets, areasOverview, readHeld } from '../present/areas.ts';
import { bestProposal, readProposed } from '../present/proposals.ts';
import { areaSheetsHtml } from './area-sheets.ts';
import { finiteJson } from './finite-json.ts';
import { escapeHtml as escapeXml } from './html.ts';
import { degrees, tidy } from './numbers.ts';

/** Every name that `areaFiles` gives a file. */
export const AREA_FILES = [
  'areas.json',
  'areas.geojson',
  'areas.gpx',
  'areas.kml',
  'areas.html',
] as const;

/** File name → text. Throws on a figure that is not finite. */
export function areaFiles(file: AreasFile, result: AreaLake): Map<string, string> {
  const shapes = [...file.proposals, ...file.candidates];
  const sheets = areaSheets(shapes, file.request.layer_m, result);
  const overview = areasOverview(file.candidates, bestProposal(file), result);
  return new Map([
    ['areas.json', finiteJson(file)],
    ...shapeFiles(file.lake, shapes),
    ['areas.html', areaSheetsHtml(readHeld(file), readProposed(file), overview, sheets)],
  ]);
}

/** The same of areas alone, without numbers for machines: none was proposed. */
export function heldFiles(
  held: AreasHeld,
  layerM: number | null,
  result: AreaLake,
): Map<string, string> {
  const sheets = areaSheets(held.candidates, layerM, result);
  const overview = areasOverview(held.candidates, null, result);
  return new Map([
    ...shapeFiles(held.lake, held.candidates),
    ['areas.html', areaSheetsHtml(readHeld(held), null, overview, sheets)],
  ]);
}

/** For a GIS and for plotters. */
function shapeFiles(lake: string, shapes: readonly (NamedArea | Proposal)[]): [string, string][] {
  return [
    ['areas.geojson', geoJson(shapes)],
    ['areas.gpx', gpx(lake, shapes)],
    ['areas.kml', kml(lake, shapes)],
  ];
}

/** RFC 7946: WGS 84, longitude first, outer rings counter-clockwise. */
function geoJson(areas: readonly (NamedArea | Proposal)[]): string {
  const lines = areas.map((area) =>
    JSON.stringify({
      type: 'Feature',
      geometry: {
        type: 'MultiPolygon',
        coordinates: area.polygons.map((rings) => rings.map((ring, i) => wound(ring, i === 0))),
      },
      properties: {
        name: area.name,
        kind: 'bound_share' in area ? 'proposal' : 'candidate',
        water_m2: tidy(area.water_m2),
        volume_m3: tidy(area.volume_m3),
        mean_depth_m: area.mean_depth_m === null ? null : tidy(area.mean_depth_m),
        mussels: area.mussels === null ? null : tidy(area.mussels.estimate),
        mussels_lower: limit(area.mussels?.lower),
        mussels_upper: limit(area.mussels?.upper),
        share: area.share === null ? null : tidy(area.share.share),
      },
    }),
  );
  return `{"type":"FeatureCollection","features":[\n${lines.join(',\n')}\n]}\n`;
}

const limit = (x: number | null | undefined): number | null => (x == null ? null : tidy(x));

/** A closed ring, counter-clockwise where it is an outer one, else clockwise. */
function wound(ring: readonly LngLat[], outer: boolean): LngLat[] {
  let twice = 0;
  for (let i = 0; i + 1 < ring.length; i++)
    twice += ring[i][0] * ring[i + 1][1] - ring[i + 1][0] * ring[i][1];
  const rounded = ring.map(([lon, lat]): LngLat => [degrees(lon), degrees(lat)]);
  return twice > 0 === outer ? rounded : rounded.reverse();
}

/** GPX 1.1: each ring a closed track, each corner a waypoint under the area's name. */
function gpx(lake: string, areas: readonly NamedArea[]): string {
  const at = ([lon, lat]: LngLat) => `lat="${degrees(lat)}" lon="${degrees(lon)}"`;
  const points: string[] = [];
  const tracks: string[] = [];
  for (const { name, polygons } of areas) {
    const rings = polygons.flat();
    let corner = 0;
    for (const ring of rings)
      for (const p of ring.slice(0, -1))
        points.push(`<wpt ${at(p)}><name>${escapeXml(`${name} ${++corner}`)}</name></wpt>`);
    const segments = rings.map(
      (ring) => `<trkseg>${ring.map((p) => `<trkpt ${at(p)}/>`).join('')}</trkseg>`,
    );
    tracks.push(`<trk><name>${escapeXml(name)}</name>${segments.join('')}</trk>`);
  }
  return `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="Shoalwise" xmlns="http://www.topografix.com/GPX/1/1">
<metadata><name>${escapeXml(lake)}: treatment areas</name></metadata>
${[...points, ...tracks].join('\n')}
</gpx>
`;
}

/** KML 2.2: a placemark an area. */
function kml(lake: string, areas: readonly NamedArea[]): string {
  const ringOf = (ring: readonly LngLat[]) =>
    `<LinearRing><coordinates>${ring.map(([lon, lat]) => `${degrees(lon)},${degrees(lat)}`).join(' ')}</coordinates></LinearRing>`;
  const marks = areas.map(({ name, polygons }) => {
    const shapes = polygons.map(([outer, ...holes]) => {
      const inner = holes.map(
        (h) => `<innerBoundaryIs>${ringOf(wound(h, false))}</innerBoundaryIs>`,
      );
      return `<Polygon><outerBoundaryIs>${ringOf(wound(outer ?? [], true))}</outerBoundaryIs>${inner.join('')}</Polygon>`;
    });
    return `<Placemark><name>${escapeXml(name)}</name><MultiGeometry>${shapes.join('')}</MultiGeometry></Placemark>`;
  });
  return `<?xml version="1.0" encoding="UTF-8"?>
<kml xmlns="http://www.opengis.net/kml/2.2"><Document><name>${escapeXml(lake)}: treatment areas</name>
${marks.join('\n')}
</Document></kml>
`;
}
