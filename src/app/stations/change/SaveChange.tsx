/** The comparison as files, the same as the command line writes. */

import { useState } from 'react';
import type { ChangeFile } from '../../../../shared/change.ts';
import { change } from '../../state/change-desk.ts';
import { download, fileName } from '../../storage/download.ts';

const KINDS = [
  { file: 'change.html', words: 'Page to print', type: 'text/html' },
  { file: 'change.csv', words: 'CSV', type: 'text/csv' },
  { file: 'change.json', words: 'JSON', type: 'application/json' },
] as const;

export function SaveChange({ file, lake }: { file: ChangeFile; lake: string }) {
  const [problem, setProblem] = useState<string | null>(null);
  const save = async ({ file: name, type }: (typeof KINDS)[number]): Promise<void> => {
    try {
      const text = (await change.files(file)).get(name);
      if (text === undefined) throw new Error('the comparison has no such file');
      const ending = name.slice(name.lastIndexOf('.') + 1);
      download(new TextEncoder().encode(text), fileName(lake, 'change', ending), type);
      setProblem(null);
    } catch (error) {
      setProblem((error as Error).message);
    }
  };
  return (
    <section className="no-print" aria-labelledby="change-save">
      <h2 id="change-save">Save it</h2>
      <p className="question-ways">
        {KINDS.map((kind) => (
          <button
            key={kind.file}
            type="button"
            className="button small"
            onClick={() => void save(kind)}
          >
            {kind.words}
          </button>
        ))}
      </p>
      {problem !== null && (
        <p role="alert" className="small">
          Nothing was saved: {problem}.
        </p>
      )}
    </section>
  );
}
