/** shoalwise publish DIR --out map.html: the survey for everybody, as a map in one file, as posters and as pictures. */

import { join } from 'node:path';
import script from 'virtual:public-viewer';
import type { PublicWishes } from '../../shared/public-map.ts';
import { LANGUAGES, type Language } from '../../shared/strings/languages.ts';
import { type PublicMap, publicMap } from '../present/public-map.ts';
import { PUBLIC_MARK, publicMapHtml } from '../publish/public-map.ts';
import { PICTURES, pictureSvg } from '../publish/public-picture.ts';
import { POSTERS, posterHtml } from '../publish/public-poster.ts';
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
  await refuseOthers(
    writingsOf(asked).map((w) => w.path),
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
      const files = new Map(writingsOf(asked).map(({ path, text }) => [path, text(map)]));
      await writeFiles(files);
      if (asked.wishes.contact === null)
        terminal.err('No --contact was given: readers are not told who to ask.\n');
      for (const path of files.keys()) terminal.out(`Written to ${path}\n`);
      return { code: EXIT.done, value: null };
    },
  );
  return worst(visits.map((v) => v.code));
}

/** English first: it stands in the page without its script. */
function languagesOf(one: Language | null): [Language, ...Language[]] {
  if (one !== null) return [one];
  const others = (Object.keys(LANGUAGES) as Language[]).filter((name) => name !== 'en');
  return ['en', ...others];
}

/** A file that is asked for, and how its text is made. */
interface Writing {
  path: string;
  text(map: PublicMap): string;
}

function writingsOf({ out, posters, pictures, wishes, language }: PublishAsked): Writing[] {
  const languages = languagesOf(language);
  const page: Writing[] =
    out === null
      ? []
      : [{ path: out, text: (map) => publicMapHtml(map, wishes, languages, script) }];
  return [
    ...page,
    ...languages.flatMap((one) => [
      ...inFolder(posters, POSTERS, (size, folder) => ({
        path: join(folder, `poster-${size.name}-${one}.html`),
        text: (map) => posterHtml(map, wishes, one, size),
      })),
      ...inFolder(pictures, PICTURES, (size, folder) => ({
        path: join(folder, `picture-${size.name}-${one}.svg`),
        text: (map) => pictureSvg(map, wishes, one, size),
      })),
    ]),
  ];
}

function inFolder<S>(
  folder: string | null,
  sizes: readonly S[],
  writing: (size: S, folder: string) => Writing,
): Writing[] {
  return folder === null ? [] : sizes.map((size) => writing(size, folder));
}
