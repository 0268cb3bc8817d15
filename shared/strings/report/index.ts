/** The texts of the report's first page in every language. */

import type { Language } from '../languages.ts';
import type { Translation } from '../text.ts';
import { en } from './en.ts';
import { es } from './es.ts';
import { fr } from './fr.ts';

export type ReportTable = typeof en;
export const REPORT: Readonly<Record<Language, Translation<ReportTable>>> = { en, es, fr };
