/** The models that were compared, made ready to be shown: differences of AICc, weights, which one was used, which are one and the same. */

import type { Estimate, ModelRow } from '../../shared/estimate.ts';
import { listed } from '../../shared/words.ts';

export interface ComparedModel {
  row: ModelRow;
  used: boolean;
  /** AICc above the lowest; null when the model was not fitted or has no AICc */
  delta: number | null;
  /** Akaike weight exp(−Δ/2)/Σ over the models that differ (Burnham & Anderson 2002, ch. 2); null where it counts already */
  weight: number | null;
  /** the model that this one became on its boundary, if that was fitted too */
  sameAs: ModelRow | null;
}

/** Fits whose log-likelihood and AICc agree to this are one model: that is the tie of the choice itself. */
const SAME = 1e-6;

/** Lowest AICc first, those without one last, otherwise in the order tried. */
export function compareModels({ model, models }: Estimate): ComparedModel[] {
  const twin = (row: ModelRow, i: number): ModelRow | null =>
    row.boundary === null || row.log_likelihood === null
      ? null
      : (models.find(
          (other, j) => same(other, row) && (other.boundary === null ? j !== i : j < i),
        ) ?? null);
  const twins = models.map(twin);
  const apart = models.filter((row, i) => twins[i] === null && row.aicc !== null);
  const lowest = Math.min(...apart.map((row) => row.aicc!));
  const sum = apart.reduce((total, row) => total + Math.exp((lowest - row.aicc!) / 2), 0);
  const used = usedRow(
    model,
    models.filter((_, i) => twins[i] === null),
  );
  return models
    .map((row, i) => ({
      row,
      used: row === used,
      delta: row.aicc === null ? null : Math.max(0, row.aicc - lowest),
      weight:
        row.aicc === null || twins[i] !== null ? null : Math.exp((lowest - row.aicc) / 2) / sum,
      sameAs: twins[i]!,
    }))
    .sort((a, b) => rank(a) - rank(b));
}

/** Finite, so that models without an AICc stay in their order. */
function rank({ delta }: ComparedModel): number {
  return delta ?? Number.MAX_VALUE;
}

function same(a: ModelRow, b: ModelRow): boolean {
  const close = (x: number | null, y: number | null) =>
    x === null || y === null ? x === y : Math.abs(x - y) <= SAME;
  return (
    close(a.log_likelihood, b.log_likelihood) &&
    close(a.aicc, b.aicc) &&
    a.parameters === b.parameters
  );
}

/** The row of the model in use: by its likelihood, and by name where two have the same. */
function usedRow(model: Estimate['model'], rows: ModelRow[]): ModelRow | undefined {
  const fitting = rows.filter(
    (row) =>
      row.log_likelihood !== null &&
      Math.abs(row.log_likelihood - model.log_likelihood) <= SAME &&
      row.parameters === model.parameters,
  );
  return (
    fitting.find(
      (row) => row.family === model.family && row.transect_effect === model.transect_effect,
    ) ?? fitting[0]
  );
}

/** `nb1 with transect effect, half-normal` */
export function modelName({ family, transect_effect, shape }: ModelRow): string {
  return `${family === 'poisson' ? 'Poisson' : family}${transect_effect ? ' with transect effect' : ''}${shape === null ? '' : `, ${shape}`}`;
}

/** `0.74`; a weight that rounds to nothing is not 0. */
export function weightWords(weight: number | null): string {
  if (weight === null) return '–';
  return weight < 0.005 ? '< 0.01' : weight.toFixed(2);
}

/** Why the model used need not be the one with the lowest AICc; null when it is. */
export function keptEffectSentence(compared: ComparedModel[]): string | null {
  const delta = compared.find((c) => c.used)?.delta ?? 0;
  return delta <= SAME
    ? null
    : 'The transect effect is kept unless leaving it out lowers AICc by more than 2: dropping it makes intervals too narrow.';
}

/** Sentences on what ended on a boundary or was not fitted, models of the same fate together. */
export function boundaryNotes(compared: ComparedModel[]): string[] {
  const fates = new Map<string, ComparedModel[]>();
  for (const c of compared) {
    if (c.row.boundary === null) continue;
    const fate = `${c.sameAs === null ? '' : 'same'}|${c.row.boundary}`;
    fates.set(fate, [...(fates.get(fate) ?? []), c]);
  }
  return [...fates.values()].map((some) => {
    const who = some.length === compared.length && some.length > 1 ? 'all models' : namesOf(some);
    const once =
      some[0]!.sameAs === null
        ? ''
        : `; counted once, as the simpler ${some.length === 1 ? 'model that it' : 'models that they'} became`;
    return `${who}: ${some[0]!.row.boundary}${once}`;
  });
}

/** Families and shapes listed side by side where all their combinations are meant, else name by name. */
function namesOf(some: ComparedModel[]): string {
  const rows = some.map((c) => c.row);
  const families = [...new Set(rows.map((r) => r.family))];
  const shapes = [...new Set(rows.map((r) => r.shape))].filter((s) => s !== null);
  const alike = new Set(rows.map((r) => r.transect_effect)).size === 1;
  if (!alike || rows.length !== families.length * Math.max(1, shapes.length))
    return rows.map(modelName).join('; ');
  const all = families.map((f) => (f === 'poisson' ? 'Poisson' : f));
  return `${listed(all, 'and')}${rows[0]!.transect_effect ? ' with transect effect' : ''}${shapes.length === 0 ? '' : `, ${listed(shapes, 'and')}`}`;
}
