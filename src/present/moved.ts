/** What a change of the survey or of the analysis did to the lake's number. */

import type { Estimate } from '../../shared/estimate.ts';
import { term } from '../../shared/glossary.ts';
import type { Segment } from '../../shared/survey.ts';
import { listed } from '../../shared/words.ts';
import type { Before, FittedTo, Limits, Movable } from './before.ts';
import { checkTerm } from './checks.ts';
import { forcedSentence } from './models.ts';

/** What a change did, a sentence each: the number, how far the data speak for the new model, and what the checks say. */
export function movedSentences(before: Before, result: Movable): string[] {
  const same = sameData(before.data, result);
  const narrower = same && isNarrower(before, result);
  return [
    movedSentence(before, result),
    narrower
      ? 'A narrower interval is no merit by itself: a model that leaves variation out has one too.'
      : null,
    ...(same ? modelSentences(before, result) : []),
    checksMoved(before, result),
  ].filter((sentence) => sentence !== null);
}

/** The new model against the automatic choice and against the one before. */
function modelSentences({ aicc: was }: Before, result: Movable): string[] {
  const forced = forcedSentence(result);
  const is = result.estimate.model.aicc;
  const by = was === null || is === null ? null : is - was;
  const against =
    by === null || Math.abs(by) < SAME_AICC
      ? null
      : `${term('aicc')} is ${Math.abs(by).toFixed(1)} ${by > 0 ? 'higher' : 'lower'} than before the change (lower is better).`;
  return [forced, against].filter((sentence) => sentence !== null);
}

/** `Overdispersion was judged "holds" and is now "doubtful".` Null where nothing was checked before or now. */
function checksMoved({ checks: were }: Before, { checks: are }: Movable): string | null {
  if (were === null || are === null) return null;
  const moved = are.checks.flatMap(({ name, verdict }) => {
    const was = were.find((c) => c.name === name)?.verdict;
    return was === undefined || was === verdict
      ? []
      : [`${checkTerm(name)} from ${was} to ${verdict}`];
  });
  return moved.length === 0
    ? 'No check on the model changed its verdict.'
    : `${moved.length === 1 ? 'A check' : `${moved.length} checks`} on the model changed: ${listed(moved, 'and')}.`;
}

/** Segment by segment and detection by detection. */
function sameData(a: FittedTo, b: FittedTo): boolean {
  if (a.segments === b.segments && a.survey === b.survey) return true;
  const [found, now] = [a.survey.detections, b.survey.detections];
  return (
    a.segments.length === b.segments.length &&
    found.length === now.length &&
    a.segments.every((s, i) => isSame(s, b.segments[i])) &&
    found.every(({ role, offsetM, count }, i) => {
      const d = now[i];
      return d?.role === role && d.offsetM === offsetM && d.count === count;
    })
  );
}

function isSame(a: Segment, b: Segment | undefined): boolean {
  return (
    b !== undefined &&
    a.transectIndex === b.transectIndex &&
    a.areaM2 === b.areaM2 &&
    a.widthM === b.widthM &&
    a.depthM === b.depthM &&
    a.plantCover === b.plantCover &&
    a.clarityM === b.clarityM &&
    a.primary === b.primary &&
    a.secondary === b.secondary &&
    a.substrate.join('+') === b.substrate.join('+') &&
    a.detections.join() === b.detections.join()
  );
}

function isNarrower(before: Before, { estimate }: Movable): boolean {
  const now = estimate.abundance?.mussels ?? null;
  const was = ratio(before.lower, before.upper);
  const is = now && ratio(now.lower, now.upper);
  return was !== null && is !== null && Math.log(is) / Math.log(was) - 1 < -AS_WIDE;
}

/** AICc to the tenth. */
const SAME_AICC = 0.05;
/** Changes below this share are called none. */
const NOTHING = 0.0005;
const AS_WIDE = 0.005;

/** `3 % more, the confidence interval 12 % narrower.`; null when there is nothing to compare. */
export function movedSentence(
  before: Limits,
  { estimate }: { estimate: Pick<Estimate, 'abundance'> },
): string | null {
  const now = estimate.abundance?.mussels ?? null;
  if (before.mussels === null || now === null || !(before.mussels > 0)) return null;
  const change = now.estimate / before.mussels - 1;
  const number =
    Math.abs(change) < NOTHING
      ? 'The number has not moved'
      : `${percent(change)} ${change > 0 ? 'more' : 'fewer'}`;
  const [was, is] = [ratio(before.lower, before.upper), ratio(now.lower, now.upper)];
  if (was === null || is === null) return `${number}.`;
  const wider = Math.log(is) / Math.log(was) - 1;
  const interval =
    Math.abs(wider) < AS_WIDE
      ? 'as wide as before'
      : `${percent(wider)} ${wider > 0 ? 'wider' : 'narrower'}`;
  return `${number}, the ${term('confidenceInterval')} is ${interval}.`;
}

/** Upper over lower limit: the width of an interval that is even on a log scale. */
function ratio(lower: number | null, upper: number | null): number | null {
  return lower !== null && upper !== null && lower > 0 && upper > lower ? upper / lower : null;
}

function percent(share: number): string {
  const x = Math.abs(share) * 100;
  return `${x < 1 ? x.toFixed(1) : x.toFixed(0)} %`;
}
