/** The plan as files: a survey folder in a zip, places for the boat's receiver, sheets, a map to print. */

import type { PlanFile } from '../../../../shared/planning.ts';
import { SaveKinds } from '../../shell/SaveKinds.tsx';
import { download, fileName } from '../../storage/download.ts';
import { zipTool } from '../../storage/zip.ts';

const KINDS = [
  { file: null, words: 'Survey folder, as a zip', type: 'application/zip' },
  { file: 'plan.gpx', words: 'GPX, for the boat', type: 'application/gpx+xml' },
  { file: 'sheets.html', words: 'Sheets to print', type: 'text/html' },
  { file: 'map.html', words: 'Map to print', type: 'text/html' },
] as const;

export function SavePlan({
  plan,
  files: asked,
}: {
  plan: PlanFile;
  files(): Promise<Map<string, Uint8Array | string>>;
}) {
  const save = async ({ file, type }: (typeof KINDS)[number]): Promise<void> => {
    const files = await asked();
    const content =
      file === null ? await zipTool().pack(files, new Date().toISOString()) : files.get(file);
    if (content === undefined) throw new Error('the plan has no such file');
    const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
    const ending = file === null ? 'zip' : (file.split('.').at(-1) ?? 'txt');
    const what = file === null ? 'next dives' : `next dives ${file.split('.')[0]}`;
    download(bytes, fileName(plan.lake, what, ending), type);
  };
  return (
    <SaveKinds
      name="plan-save"
      title="For the boat"
      className="plan-save"
      kinds={KINDS}
      save={save}
    />
  );
}
