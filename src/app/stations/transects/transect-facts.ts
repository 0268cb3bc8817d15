/** What the Transects station says: the survey in figures, each rope's row, and its residuals in words. */

import type { PlacedTransect, Residual, Segment, Survey } from '../../../../shared/survey.ts';
import { visible } from '../../../../shared/words.ts';
import type { SheetView, Units } from '../../contract.ts';
import { lengthText } from '../../plots/axis-ticks.ts';

export interface SurveyFacts {
  ropes: number;
  ropeM: number;
  areaM2: number;
  /** least and greatest recorded depth; null when none was recorded */
  fromM: number | null;
  toM: number | null;
  clusters: number;
  mussels: number;
  /** ropes on which nothing was found */
  emptyRopes: number;
}

export function surveyFacts(
  survey: Survey,
  segments: readonly Pick<Segment, 'areaM2'>[],
): SurveyFacts {
  const depths = survey.habitat.map((h) => h.depthM);
  const found = new Set(survey.detections.map((d) => d.transect));
  return {
    ropes: survey.transects.length,
    ropeM: sum(survey.transects.map((t) => t.lengthM)),
    areaM2: sum(segments.map((s) => s.areaM2)),
    fromM: depths.length === 0 ? null : depths.reduce((a, b) => Math.min(a, b)),
    toM: depths.length === 0 ? null : depths.reduce((a, b) => Math.max(a, b)),
    clusters: survey.detections.length,
    mussels: sum(survey.detections.map((d) => d.count)),
    emptyRopes: survey.transects.filter((t) => !found.has(t.transect)).length,
  };
}

/** Transects written down, those with faults among them: rows of transects.csv that are not blank. */
export function writtenRopes(sheets: readonly SheetView[]): number {
  const sheet = sheets.find((s) => s.file === 'transects.csv');
  return (sheet?.rows ?? []).filter((r) => r.cells.some((cell) => cell.trim() !== '')).length;
}

export interface RopeRow {
  transect: string;
  date: string;
  divers: string;
  fromM: number;
  toM: number;
  areaM2: number;
  clusters: number;
  mussels: number;
  /** some residual is beyond three of its standard errors */
  flagged: boolean;
}

/** One row a placed transect, in the order of the survey. */
export function ropeRows(
  placed: readonly PlacedTransect[],
  segments: readonly Pick<Segment, 'transect' | 'areaM2'>[],
  survey: Survey,
): RopeRow[] {
  return placed.map(({ transect: t, profile, residuals }) => {
    const own = survey.detections.filter((d) => d.transect === t.transect);
    return {
      transect: t.transect,
      date: t.date,
      divers: [t.primary, ...(t.secondary === null ? [] : [t.secondary])].map(visible).join(', '),
      fromM: profile.depthM.reduce((a, b) => Math.min(a, b)),
      toM: profile.depthM.reduce((a, b) => Math.max(a, b)),
      areaM2: sum(segments.filter((s) => s.transect === t.transect).map((s) => s.areaM2)),
      clusters: own.length,
      mussels: sum(own.map((d) => d.count)),
      flagged: residuals.some((r) => r.flagged),
    };
  });
}

/** Where the rope lies and how well waypoints, bearing and length agree, in sentences; never empty. */
export function placingWords(placed: PlacedTransect, units: Units): string[] {
  const { transect, residuals } = placed;
  if (placed.endInferred) {
    return [
      `No end waypoint was recorded: the end follows from the bearing and the rope, to about ${metres(placed.endSeM, units)} each way.`,
    ];
  }
  const flagged = residuals.filter((r) => r.flagged);
  const shift = residuals.find((r) => r.of === 'start');
  const turn = residuals.find((r) => r.of === 'bearing');
  const sentences: string[] = [];
  if (shift)
    sentences.push(
      turn
        ? `To agree with each other, each waypoint was moved ${metres(shift.value, units)} and the bearing was turned ${degrees(turn)}.`
        : `To agree with a rope of ${metres(transect.lengthM, units)}, each waypoint was moved ${metres(shift.value, units)}; no bearing was recorded.`,
    );
  sentences.push(
    flagged.length === 0
      ? 'That is within what the GPS and the compass are good for.'
      : `That is more than the GPS and the compass are good for (${worst(flagged)} standard errors, 3 at most expected): look at the sheet for exchanged waypoints or a bearing read the wrong way round.`,
  );
  if (flagged.length > 0) return sentences;
  const [start, end] = [metres(placed.startSeM, units), metres(placed.endSeM, units)];
  sentences.push(
    start === end
      ? `Both ends are then known to about ${start} each way.`
      : `The start is then known to about ${start} each way, the end to ${end}.`,
  );
  return sentences;
}

function worst(residuals: readonly Residual[]): string {
  const ratio = Math.max(...residuals.map((r) => Math.abs(r.value) / r.se));
  return ratio.toFixed(1);
}

function degrees(r: Residual): string {
  return `${Math.abs(r.value).toFixed(Math.abs(r.value) < 10 ? 1 : 0)}°`;
}

function metres(m: number, units: Units): string {
  return lengthText(m, units, Math.abs(m) < 1 ? 1 : 2);
}

/** The next or previous label in the list; stops at its ends. From none: the first or the last. */
export function neighbour(
  labels: readonly string[],
  from: string | null,
  step: 1 | -1,
): string | null {
  if (labels.length === 0) return null;
  const at = from === null ? -1 : labels.indexOf(from);
  if (at < 0) return step === 1 ? labels[0]! : labels.at(-1)!;
  return labels[Math.min(labels.length - 1, Math.max(0, at + step))]!;
}

function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
