/** How numbers and dates are written where no reader has chosen: in print, and before the page's script has run. */

import type { PublicFacts } from '../../shared/public-map.ts';
import type { Language } from '../../shared/strings/languages.ts';

/** 450,000 in the one part of the world is 450.000 in the other. */
const TAGS: Record<Language, { americas: string; elsewhere: string }> = {
  en: { americas: 'en-US', elsewhere: 'en-GB' },
  es: { americas: 'es-US', elsewhere: 'es-ES' },
  fr: { americas: 'fr-CA', elsewhere: 'fr-FR' },
};

export function printedTag(
  language: Language,
  { americas }: Pick<PublicFacts, 'americas'>,
): string {
  return TAGS[language][americas ? 'americas' : 'elsewhere'];
}
