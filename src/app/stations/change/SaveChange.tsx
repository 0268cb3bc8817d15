/** The comparison as files, the same as the command line writes. */

import type { ChangeFile } from '../../../../shared/change.ts';
import { SaveKinds } from '../../shell/SaveKinds.tsx';
import { change } from '../../state/change-desk.ts';
import { download, fileName } from '../../storage/download.ts';

const KINDS = [
  { file: 'change.html', words: 'Page to print', type: 'text/html' },
  { file: 'change.csv', words: 'CSV', type: 'text/csv' },
  { file: 'change.json', words: 'JSON', type: 'application/json' },
] as const;

export function SaveChange({ file, lake }: { file: ChangeFile; lake: string }) {
  const save = async ({ file: name, type }: (typeof KINDS)[number]): Promise<void> => {
    const text = (await change.files(file)).get(name);
    if (text === undefined) throw new Error('the comparison has no such file');
    const ending = name.slice(name.lastIndexOf('.') + 1);
    download(new TextEncoder().encode(text), fileName(lake, 'change', ending), type);
  };
  return (
    <SaveKinds
      name="change-save"
      title="Save it"
      buttons="question-ways"
      kinds={KINDS}
      save={save}
    />
  );
}
