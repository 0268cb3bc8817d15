/** Les mots de la première page du rapport en français ; on vouvoie le lecteur. */

import type { Translation } from '../text.ts';
import type { en } from './en.ts';

export const fr: Translation<typeof en> = {
  heading: 'Des moules au fond du lac',
};
