/** Las palabras de la primera página del informe en español; se trata al lector de usted. */

import type { Translation } from '../text.ts';
import type { en } from './en.ts';

export const es: Translation<typeof en> = {
  heading: 'Mejillones en el fondo del lago',
};
