/**
 * The density threshold that was set on the map of a survey, kept in this browser: looking at another one is no change of the
 * analysis, and nothing is estimated anew for it.
 */

const KEY = 'shoalwise-thresholds';
/** Surveys whose thresholds are kept, the latest last. */
const MOST = 50;

/** What was looked at, and what the analysis said at that time: a change of the analysis counts more. */
export interface KeptThreshold {
  perM2: number;
  inAnalysis: number | null;
}

/** Null where none was set, where the analysis has another threshold since, or where nothing can be kept. */
export function keptThreshold(survey: string, inAnalysis: number | null): number | null {
  const found = all().get(survey);
  return found !== undefined && found.inAnalysis === inAnalysis ? found.perM2 : null;
}

export function keepThreshold(survey: string, threshold: KeptThreshold): void {
  const kept = all();
  kept.delete(survey);
  kept.set(survey, threshold);
  try {
    localStorage.setItem(KEY, JSON.stringify([...kept].slice(-MOST)));
  } catch {
    // without storage it holds for this visit
  }
}

/** Storage may be forbidden or hold anything. */
function all(): Map<string, KeptThreshold> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    return new Map(Array.isArray(kept) ? kept.filter(isEntry) : []);
  } catch {
    return new Map();
  }
}

function isEntry(entry: unknown): entry is [string, KeptThreshold] {
  if (!Array.isArray(entry) || typeof entry[0] !== 'string') return false;
  const perM2: unknown = entry[1]?.perM2;
  return typeof perM2 === 'number' && perM2 >= 0 && Number.isFinite(perM2);
}
