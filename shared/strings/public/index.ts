/** The public texts in every language. */

import type { Language } from '../languages.ts';
import type { Translation } from '../text.ts';
import { en } from './en.ts';
import { es } from './es.ts';
import { fr } from './fr.ts';

export type PublicTable = typeof en;
export const PUBLIC: Readonly<Record<Language, Translation<PublicTable>>> = { en, es, fr };
