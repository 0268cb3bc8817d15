/** shoalwise publish DIR --out map.html: the survey for everybody, as a map in one file, as posters and as pictures. */

import { join } from 'node:path';
import script from 'virtual:public-viewer';
import type { PublicWishes } from '../../shared/public-map.ts';
import type { Language } from '../../shared/strings/languages.ts';
import { publicMap } from '../present/public-map.ts';
import { type PublicFile, publicFiles } from '../publish/public-files.ts';
import { PUBLIC_MARK } from '../publish/public-map.ts';
import { type Core, EXIT, type Terminal, worst } from './core.ts';
import { eachFolder } from './each-folder.ts';
import { printFindings } from './finding-lines.ts';
import { refuseOthers, writeFiles } from './write-files.ts';

export interface PublishAsked {
  folder: string;
  /** path of the map; null = no map */
  out: string | null;
  /** folders of the posters and of the pictures; null = none */
  posters: string | null;
  pictures: string | null;
  wishes: PublicWishes;
  /** side of the squares in which places are shown, m; null = where they are */
  coarseM: number | null;
  /** null = every language, and the reader's own is shown */
  language: Language | null;
  /** no error or notice is summed up */
  listAll: boolean;
}

/** Throws UsageError before anything is read when a file of somebody else lies where one would be written. */
export async function publish(
  core: Core,
  terminal: Terminal,
  asked: PublishAsked,
): Promise<number> {
  const paths = asPaths(asked);
  await refuseOthers(
    paths.map(([path]) => path),
    PUBLIC_MARK,
  );
  const visits = await eachFolder(
    [asked.folder],
    terminal,
    async (folder, { prefix, progress }) => {
      const done = await core.estimateSurvey(folder, { progress: progress.report });
      progress.clear();
      printFindings(
        done.ok ? done.result.findings : done.findings,
        terminal,
        prefix,
        asked.listAll,
      );
      if (!done.ok) return { code: EXIT.data, value: null };
      const map = publicMap(done.result, asked.coarseM);
      if (map === null) {
        terminal.err(
          `${prefix}outline.geojson: a public map needs the lake's outline, and there is none\n`,
        );
        return { code: EXIT.data, value: null };
      }
      const files = new Map(paths.map(([path, file]) => [path, file.text(map)]));
      await writeFiles(files);
      if (asked.wishes.contact === null)
        terminal.err('No --contact was given: readers are not told who to ask.\n');
      for (const path of files.keys()) terminal.out(`Written to ${path}\n`);
      return { code: EXIT.done, value: null };
    },
  );
  return worst(visits.map((v) => v.code));
}

/** Path → what is to stand there. */
function asPaths({
  out,
  posters,
  pictures,
  wishes,
  language,
}: PublishAsked): [string, PublicFile][] {
  const folders = { poster: posters, picture: pictures };
  return publicFiles(wishes, language, script).flatMap((file): [string, PublicFile][] => {
    if (file.kind === 'map') return out === null ? [] : [[out, file]];
    const folder = folders[file.kind];
    return folder === null ? [] : [[join(folder, file.name), file]];
  });
}
