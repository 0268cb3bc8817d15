/** Which maps of the lake are there, and what is lost without the others. */

import type { Lake } from '../../../../shared/survey.ts';
import type { JudgedView } from '../../contract.ts';
import { DataTable } from '../../shell/ui.tsx';
import { counted } from './fault-words.ts';

interface MapFile {
  name: string;
  holds: string;
}

export function MapFiles({ judged }: { judged: JudgedView }) {
  return (
    <DataTable
      caption="Maps of the lake"
      columns={[
        { title: 'Map', cell: (file: MapFile) => file.name },
        { title: 'Holds', cell: (file) => file.holds },
      ]}
      rows={mapFiles(judged.lake)}
      keyOf={(file) => file.name}
    />
  );
}

function mapFiles({ outline, substrate, depth, treatments }: Lake): MapFile[] {
  const missing = 'missing: without it there is no number for the lake';
  const classes = new Set(substrate?.flatMap((patch) => patch.substrate) ?? []);
  const files = [
    { name: 'Outline', holds: outline === null ? missing : counted(outline.length, 'polygon') },
    {
      name: 'Substrate',
      holds:
        substrate === null
          ? missing
          : `${counted(substrate.length, 'patch').replace(/chs$/, 'ches')}; ${[...classes].join(', ')}`,
    },
    { name: 'Depth', holds: depth === null ? missing : depthWords(depth) },
  ];
  if (treatments.length > 0)
    files.push({
      name: 'Candidate treatment areas',
      holds: treatments.map((area) => area.name).join(', '),
    });
  return files;
}

function depthWords(depth: NonNullable<Lake['depth']>): string {
  if (depth.kind === 'raster') return `a raster of ${depth.width} by ${depth.height} cells`;
  const deepest = depth.lines.reduce((m, line) => Math.max(m, line.depthM), 0);
  return `${counted(depth.lines.length, 'line')} or soundings, deepest ${deepest} m`;
}
