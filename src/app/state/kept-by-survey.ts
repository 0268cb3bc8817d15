/** Something small about each survey that is kept in this browser, beside what its files hold. */

/** Surveys that something is kept of, the latest last. */
const MOST = 50;

export interface KeptBySurvey<T> {
  /** null where none is kept, or where nothing can be */
  of(survey: string): T | null;
  keep(survey: string, value: T): void;
}

/** @param isSound whether what was stored is such a thing: storage may be forbidden or hold anything */
export function keptBySurvey<T>(
  key: string,
  isSound: (value: unknown) => value is T,
): KeptBySurvey<T> {
  function all(): Map<string, T> {
    try {
      const kept: unknown = JSON.parse(localStorage.getItem(key) ?? '[]');
      return new Map(Array.isArray(kept) ? kept.filter(isEntry) : []);
    } catch {
      return new Map();
    }
  }
  const isEntry = (entry: unknown): entry is [string, T] =>
    Array.isArray(entry) && typeof entry[0] === 'string' && isSound(entry[1]);
  return {
    of: (survey) => all().get(survey) ?? null,
    keep(survey, value) {
      const kept = all();
      kept.delete(survey);
      kept.set(survey, value);
      try {
        localStorage.setItem(key, JSON.stringify([...kept].slice(-MOST)));
      } catch {
        // without storage it holds for this visit
      }
    },
  };
}
