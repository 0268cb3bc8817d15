/** Maps of changes as pictures by themselves, for a page that draws them as images. */

import type { ChangeMapInput, ChangePicture } from '../../shared/change.ts';
import { changeMap } from '../present/change-map.ts';
import { furtherSvg } from './figures/lake-map.ts';

/** One a pair, in their order; null where the lake has no outline. */
export function changePictures(
  maps: readonly (ChangeMapInput | null)[],
  titles: readonly string[],
): (ChangePicture | null)[] {
  return maps.map((map, i) => {
    const made = map === null ? null : changeMap(map, i, titles[i]);
    if (made === null) return null;
    const { title, described, note, classes } = made.drawn;
    return {
      title,
      described,
      note: note ?? '',
      // an image by itself says what it is
      svg: furtherSvg(made.map, made.drawn).text.replace(
        '<svg ',
        '<svg xmlns="http://www.w3.org/2000/svg" ',
      ),
      classes: classes.map(({ words, colour, dotted = false }) => ({ words, colour, dotted })),
    };
  });
}
