/** The areas as files: for plotters, for a GIS, and a sheet an area to print. */

import { SaveKinds } from '../../shell/SaveKinds.tsx';
import { useApp } from '../../state/app-context.tsx';
import { useDesk } from '../../state/area-desk.ts';
import type { Areas } from '../../state/use-areas.ts';
import { download, fileName } from '../../storage/download.ts';

const KINDS = [
  { file: 'areas.gpx', words: 'GPX, for a plotter', type: 'application/gpx+xml' },
  { file: 'areas.kml', words: 'KML', type: 'application/vnd.google-earth.kml+xml' },
  { file: 'areas.geojson', words: 'GeoJSON, for a GIS', type: 'application/geo+json' },
  { file: 'areas.html', words: 'Sheets to print', type: 'text/html' },
] as const;

export function SaveAreas({ areas: { candidates } }: { areas: Areas }) {
  const { state, core } = useApp();
  const layerM = useDesk((d) => d.layerM);
  if (candidates.length === 0) return null;
  const save = async ({ file, type }: (typeof KINDS)[number]): Promise<void> => {
    const areas = candidates.map(({ name, polygons }) => ({ name, polygons }));
    const text = (await core.areaFiles(areas, layerM))?.get(file);
    if (text === undefined) throw new Error('areas have no numbers on this lake');
    const lake = state.judged?.analysis.lake ?? 'lake';
    const [, ending] = file.split('.');
    download(new TextEncoder().encode(text), fileName(lake, 'areas', ending), type);
  };
  return (
    <SaveKinds
      name="area-save"
      title="Save the areas"
      className="area-save"
      kinds={KINDS}
      save={save}
    />
  );
}
