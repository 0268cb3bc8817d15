/** Contours, contour polygons, soundings or a raster in anybody's numbers → depth.geojson or depth.tif, in metres, positive down. */

import type {
  Ask,
  ImportedTables,
  PlacedRaster,
  RawGeometry,
  RawLayer,
} from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import type { MadeMap } from './depth-final.ts';
import { depthPlaces } from './depth-meaning.ts';
import { depthOfLayers } from './depth-of-layers.ts';
import { depthOfRaster } from './depth-of-raster.ts';
import { rasterSurface } from './depth-surface.ts';
import { type Divers, diversOf } from './divers.ts';
import { layerName } from './names.ts';

/** One map of depth is made of what was given: of all layers together, or of one raster. Null where nothing can be made yet. */
export function depthMap(
  layers: readonly RawLayer[],
  rasters: readonly PlacedRaster[],
  tables: ImportedTables,
  outline: RawGeometry | null,
  ask: Ask,
): MadeMap {
  const divers = diversOf(tables);
  const raster = whichRaster(layers, rasters, divers, ask);
  if (raster !== null) return depthOfRaster(raster, divers, outline, ask);
  return depthOfLayers(layers, divers, ask);
}

/** Null: the layers are used. */
function whichRaster(
  layers: readonly RawLayer[],
  rasters: readonly PlacedRaster[],
  divers: Divers | null,
  ask: Ask,
): PlacedRaster | null {
  const sources = rasters.map((raster, i) => ({
    value: i === 0 ? 'raster' : `raster-${i + 1}`,
    label: raster.file,
    because: coverTold(raster, divers),
    raster,
  }));
  if (sources.length === 0) return null;
  if (sources.length === 1 && layers.length === 0) return sources[0].raster;
  const drawn = layers.map(layerName).join(', ');
  const lines = {
    value: 'lines',
    label: `contours or soundings: ${drawn}`,
    because: 'drawn, not gridded',
  };
  const answer = ask({
    kind: 'choice',
    id: 'depth.which',
    about: [...sources.map((s) => s.label), ...layers.map(layerName)].join(', '),
    ask: 'Several maps of depth were given. Which one is used?',
    evidence: sources.map((s) => `${s.label}: ${s.because}.`),
    certain: false,
    pictures: [],
    options: [
      ...sources.map(({ value, label, because }) => ({ value, label, because })),
      ...(layers.length > 0 ? [lines] : []),
    ],
    proposal: 'raster',
  });
  return (
    sources.find((s) => s.value === answer)?.raster ?? (answer === 'lines' ? null : rasters[0])
  );
}

function coverTold(raster: PlacedRaster, divers: Divers | null): string {
  const size = `${formatCount(raster.width)} × ${formatCount(raster.height)} cells`;
  if (divers === null) return size;
  const places = depthPlaces(divers);
  const at = rasterSurface(raster, divers.plane);
  const covered = places.filter((p) => at(p.at) !== null).length;
  return `${size}, a value at ${formatCount(covered)} of ${formatCount(places.length)} places where divers recorded a depth`;
}
