/** Which maps of the lake are there, what they hold, and what is lost without the others. */

import { label, labels, type TermId } from '../../shared/glossary.ts';
import type { Lake } from '../../shared/survey.ts';
import { formatCount } from '../../shared/units.ts';

export interface MapFiles {
  title: string;
  columns: { name: string; holds: string };
  rows: { name: string; holds: string }[];
}

const MISSING = 'missing: without it there is no number for the lake';

export function mapFiles({ outline, substrate, depth, treatments }: Lake): MapFiles {
  const rows = [
    { name: 'Outline', holds: outline === null ? MISSING : several(outline.length, 'polygon') },
    named('substrate', substrate === null ? MISSING : patchWords(substrate)),
    named('depth', depth === null ? MISSING : depthWords(depth)),
  ];
  if (treatments.length > 0)
    rows.push({
      name: labels('treatmentArea'),
      holds: treatments.map((area) => area.name).join(', '),
    });
  return { title: 'Maps of the lake', columns: { name: 'Map', holds: 'Holds' }, rows };
}

const named = (id: TermId, holds: string) => ({ name: label(id), holds });

function patchWords(patches: NonNullable<Lake['substrate']>): string {
  const classes = new Set(patches.flatMap((patch) => patch.substrate));
  return `${formatCount(patches.length)} ${patches.length === 1 ? 'patch' : 'patches'}; ${[...classes].join(', ')}`;
}

function depthWords(depth: NonNullable<Lake['depth']>): string {
  if (depth.kind === 'raster')
    return `a raster of ${formatCount(depth.width)} by ${formatCount(depth.height)} cells`;
  const deepest = depth.lines.reduce((most, line) => Math.max(most, line.depthM), 0);
  return `${several(depth.lines.length, 'line')} or soundings, deepest ${deepest} m`;
}

function several(n: number, noun: string): string {
  return `${formatCount(n)} ${noun}${n === 1 ? '' : 's'}`;
}
