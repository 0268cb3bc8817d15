/** The languages that there are tables of strings for, and which of them a reader gets. */

/** Each by its own name, as the switch shows it; a language is added here first, and the compiler says what it still lacks. */
export const LANGUAGES = { en: 'English', es: 'Español', fr: 'Français' } as const;

export type Language = keyof typeof LANGUAGES;

export function isLanguage(text: string): text is Language {
  return Object.hasOwn(LANGUAGES, text);
}

/**
 * The first of the reader's own tags (`fr-CA`, as browsers list them) that there is a table for; English where there is none.
 * The tag stays whole: numbers and dates follow the region.
 */
export function languageFor(tags: readonly string[]): { language: Language; tag: string } {
  for (const tag of tags) {
    const language = tag.toLowerCase().split('-')[0] ?? '';
    if (isLanguage(language)) return { language, tag };
  }
  return { language: 'en', tag: 'en' };
}

/** The reader's own tag of a language, with its region; null where they name none. */
export function ownTag(language: Language, tags: readonly string[]): string | null {
  return tags.find((tag) => tag.toLowerCase().split('-')[0] === language) ?? null;
}
