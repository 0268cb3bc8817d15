/** The report's part on detection: each observer, each pair of them, what was detected at which distance, cluster sizes. */

import { readSizes, type SizeInput, sizeSentence } from '../present/cluster-sizes.ts';
import {
  type DetectionInput,
  type DetectionReading,
  type DetectionRow,
  NOTHING_DETECTED,
  readDetection,
} from '../present/detection.ts';
import { type AgainstInput, readDetectionAgainst } from '../present/detection-against.ts';
import { type DistanceInput, readDistances } from '../present/detection-function.ts';
import { NONE } from '../present/quantity.ts';
import { detectionFigure } from './figures/detection.ts';
import { againstFigure } from './figures/detection-against.ts';
import { distanceFigure } from './figures/distances.ts';
import { captioned } from './figures/frame.ts';
import { sizeFigure } from './figures/sizes.ts';
import { type Html, html } from './html.ts';
import { table } from './report-table.ts';

/**
 * Figures and tables of detection; or why nothing is known of it.
 * @param verdict what the check on perpendicular distances comes to
 */
export function detectionSection(
  result: DetectionInput & DistanceInput & AgainstInput,
  verdict: Html | null,
): Html {
  const reading = readDetection(result);
  if (reading === null) return html`<p>${NOTHING_DETECTED}</p>`;
  const distances = readDistances(result);
  const against = readDetectionAgainst(result);
  return html`<p>${reading.meaning}</p><div class="figures">${captioned(
    reading.title,
    detectionFigure(reading),
    reading.note,
  )}${captioned(
    distances?.title ?? '',
    distanceFigure(distances),
    html`${verdict}${distances?.note ?? ''}`,
  )}${against.map((a) => captioned(a.title, againstFigure(a), a.note))}</div>${tables(reading)}${against.map(
    (a) =>
      table(
        a.title,
        a.byObserver.columns.map((name, i) => ({ name, number: i > 0 })),
        a.byObserver.rows.map((cells) => ({ cells })),
      ),
  )}`;
}

/** Cluster sizes with what is said of them; null when nothing is. */
export function sizesOf(result: SizeInput): Html | null {
  const sizes = readSizes(result);
  const sentence = sizeSentence(result);
  const figure = captioned(sizes?.title ?? '', sizeFigure(sizes), sizes?.note ?? '');
  return html`${figure && html`<div class="figures">${figure}</div>`}${sentence && html`<p>${sentence}</p>`}`;
}

function tables({ columns, captions, groups, fixed, mean, why, added }: DetectionReading): Html {
  const numbers = [
    { name: columns.p, number: true },
    { name: columns.interval, number: true },
  ];
  const cells = (r: DetectionRow) => [r.label, r.design, r.share, r.interval ?? NONE];
  const observers = table(
    captions.observers,
    [{ name: columns.observer }, { name: columns.design }, ...numbers],
    groups.flatMap((g) => g.observers.map((o) => ({ cells: cells(o) }))),
  );
  const pairs = table(
    captions.pairs,
    [{ name: columns.pair }, { name: columns.design }, ...numbers],
    groups.flatMap((g) => g.pairs.map((p) => ({ cells: cells(p) }))),
  );
  return html`${fixed === null ? null : html`<p>${fixed}</p>`}${observers}${pairs}<p>${[mean, why, added].filter((words) => words !== null).join(' ')}</p>`;
}
