/** The files that were given, and what each was recognised as. */

import type { GivenFile } from '../../../../shared/importing.ts';
import { visible } from '../../../../shared/words.ts';
import { DataTable } from '../../shell/ui.tsx';
import { bringIn } from '../../state/bring-in.ts';

/** As what the core tells the files that belong to a shapefile. */
const PART = 'a part of a map';

interface Line {
  /** a shapefile stands for the files that belong to it */
  names: string[];
  name: string;
  bytes: number | null;
  as: string[];
}

export function GivenFiles({
  files,
  recognised,
  busy,
}: {
  files: readonly GivenFile[];
  recognised: readonly { name: string; as: string }[];
  busy: boolean;
}) {
  return (
    <div className="given-files">
      <DataTable
        caption="Files"
        columns={[
          { title: 'File', cell: (line: Line) => visible(written(line)) },
          {
            title: 'Recognised as',
            cell: ({ as }) => (as.length === 0 && busy ? '…' : as.join('; ')),
          },
          {
            title: 'Size',
            align: 'right',
            cell: ({ bytes }) => (bytes === null ? '' : size(bytes)),
          },
          {
            title: <span className="visually-hidden">Leave out</span>,
            cell: ({ name, names, bytes }) =>
              bytes !== null && (
                <button
                  type="button"
                  className="link small"
                  aria-label={`Leave out ${visible(name)}`}
                  onClick={() => bringIn.remove(names)}
                >
                  Leave out
                </button>
              ),
          },
        ]}
        rows={lines(files, recognised)}
        keyOf={({ name }) => name}
      />
    </div>
  );
}

/** Those that were given first, then what was found in zips and in the open survey. */
function lines(
  files: readonly GivenFile[],
  recognised: readonly { name: string; as: string }[],
): Line[] {
  const byName = new Map<string, Line>(
    files.map(({ name, bytes }) => [name, { name, names: [name], bytes: bytes.length, as: [] }]),
  );
  for (const { name, as } of recognised) {
    const line = byName.get(name) ?? { name, names: [name], bytes: null, as: [] };
    if (!line.as.includes(as)) line.as.push(as);
    byName.set(name, line);
  }
  return shapefilesWhole([...byName.values()]);
}

function shapefilesWhole(lines: Line[]): Line[] {
  const isWhole = ({ name }: Line) => /\.shp$/i.test(name);
  const parts = (whole: Line) => lines.filter((line) => !isWhole(line) && belongs(line, whole));
  const taken = new Set(lines.filter(isWhole).flatMap(parts));
  return lines
    .filter((line) => !taken.has(line))
    .map((line) => (isWhole(line) ? joined(line, parts(line)) : line));
}

function belongs({ name, as }: Line, whole: Line): boolean {
  const stem = whole.name.slice(0, -'.shp'.length).toLowerCase();
  return as.includes(PART) && name.toLowerCase().startsWith(`${stem}.`);
}

function joined(line: Line, parts: readonly Line[]): Line {
  const bytes = parts.reduce((sum, part) => sum + (part.bytes ?? 0), line.bytes ?? 0);
  const names = [...line.names, ...parts.map(({ name }) => name)];
  return { ...line, names, bytes: line.bytes === null ? null : bytes };
}

/** `lake.shp with .dbf, .prj` */
function written({ name, names }: Line): string {
  const [, ...parts] = names;
  if (parts.length === 0) return name;
  return `${name} with ${parts.map((part) => part.slice(part.lastIndexOf('.'))).join(', ')}`;
}

function size(bytes: number): string {
  if (bytes < 1000) return `${bytes} B`;
  return bytes < 1e6 ? `${Math.round(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}
