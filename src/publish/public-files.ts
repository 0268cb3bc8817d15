/** Everything that a survey is told the public in: the map, the posters, the pictures for posts. */

import type { PublicWishes } from '../../shared/public-map.ts';
import { LANGUAGES, type Language } from '../../shared/strings/languages.ts';
import type { PublicMap } from '../present/public-map.ts';
import type { PageScript } from './html-page.ts';
import { publicMapHtml } from './public-map.ts';
import { PICTURES, pictureSvg } from './public-picture.ts';
import { POSTERS, posterHtml } from './public-poster.ts';

export interface PublicFile {
  kind: 'map' | 'poster' | 'picture';
  name: string;
  /** width and height of a picture; null for what is printed or read in a browser */
  pixels: [width: number, height: number] | null;
  /** made when it is asked for */
  text(map: PublicMap): string;
}

/**
 * @param one language of all of it; null = the map in every language, posters and pictures in each
 * @param script of src/viewer
 */
export function publicFiles(
  wishes: PublicWishes,
  one: Language | null,
  script: PageScript,
): PublicFile[] {
  const languages = languagesOf(one);
  return [
    {
      kind: 'map',
      name: 'map.html',
      pixels: null,
      text: (map) => publicMapHtml(map, wishes, languages, script),
    },
    ...languages.flatMap((language): PublicFile[] => [
      ...POSTERS.map(
        (size): PublicFile => ({
          kind: 'poster',
          name: `poster-${size.name}-${language}.html`,
          pixels: null,
          text: (map) => posterHtml(map, wishes, language, size),
        }),
      ),
      ...PICTURES.map(
        (size): PublicFile => ({
          kind: 'picture',
          name: `picture-${size.name}-${language}.svg`,
          pixels: [size.width, size.height],
          text: (map) => pictureSvg(map, wishes, language, size),
        }),
      ),
    ]),
  ];
}

/** English first: it stands in the page without its script. */
function languagesOf(one: Language | null): [Language, ...Language[]] {
  if (one !== null) return [one];
  const others = (Object.keys(LANGUAGES) as Language[]).filter((name) => name !== 'en');
  return ['en', ...others];
}
