/** The files that were given, and what each was recognised as. */

import type { GivenFile } from '../../../../shared/importing.ts';
import { visible } from '../../../../shared/words.ts';
import { DataTable } from '../../shell/ui.tsx';
import { bringIn } from '../../state/bring-in.ts';

interface Line {
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
    <DataTable
      caption="Files"
      columns={[
        { title: 'File', cell: (line: Line) => visible(line.name) },
        {
          title: 'Recognised as',
          cell: ({ as }) => (as.length === 0 && busy ? '…' : as.join('; ')),
        },
        { title: 'Size', align: 'right', cell: ({ bytes }) => (bytes === null ? '' : size(bytes)) },
        {
          title: <span className="visually-hidden">Leave out</span>,
          cell: ({ name, bytes }) =>
            bytes !== null && (
              <button
                type="button"
                className="link small"
                aria-label={`Leave out ${visible(name)}`}
                onClick={() => bringIn.remove(name)}
              >
                Leave out
              </button>
            ),
        },
      ]}
      rows={lines(files, recognised)}
      keyOf={({ name }) => name}
    />
  );
}

/** Those that were given first, then what was found in zips and in the open survey. */
function lines(
  files: readonly GivenFile[],
  recognised: readonly { name: string; as: string }[],
): Line[] {
  const byName = new Map<string, Line>(
    files.map(({ name, bytes }) => [name, { name, bytes: bytes.length, as: [] }]),
  );
  for (const { name, as } of recognised) {
    const line = byName.get(name) ?? { name, bytes: null, as: [] };
    if (!line.as.includes(as)) line.as.push(as);
    byName.set(name, line);
  }
  return [...byName.values()];
}

function size(bytes: number): string {
  if (bytes < 1000) return `${bytes} B`;
  return bytes < 1e6 ? `${Math.round(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}
