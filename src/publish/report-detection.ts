/** The report's part on detection: each observer, each pair of them, what was detected at which distance, cluster sizes. */

import { term, terms } from '../../shared/glossary.ts';
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
import { sizeFigure } from './figures/sizes.ts';
import { type Html, html } from './html.ts';
import { figure, numberedTable, seeFigure, seeTable } from './plates.ts';

/**
 * Figures and tables of detection; or why nothing is known of it.
 * @param verdict what the check on perpendicular distances comes to
 * @param where the lake and the year, for captions
 */
export function detectionSection(
  result: DetectionInput & DistanceInput & AgainstInput & SizeInput,
  verdict: Html | null,
  where: string,
): Html {
  const reading = readDetection(result);
  if (reading === null) return html`<p>${NOTHING_DETECTED}</p>`;
  const distances = readDistances(result);
  const sizes = readSizes(result);
  const against = readDetectionAgainst(result);
  const observers = figure(
    'detection',
    detectionFigure(reading),
    `${reading.title}, ${where}.`,
    reading.note,
  );
  const figures = [
    observers,
    distances &&
      figure(
        'distances',
        distanceFigure(distances),
        `${distances.title}, ${where}.`,
        html`${verdict}${distances.note}`,
      ),
    sizes && figure('sizes', sizeFigure(sizes), `${sizes.title}, ${where}.`, sizes.note),
    ...against.map((a) =>
      figure(`against-${a.covariate}`, againstFigure(a), `${a.title}, ${where}.`, a.note),
    ),
  ];
  const curves = against.map(
    (a) =>
      html` ${seeFigure(`against-${a.covariate}`)} and ${seeTable(`against-${a.covariate}`)}: ${lowered(a.title)}.`,
  );
  return html`<p>${reading.meaning} ${observers && html`${seeFigure('detection')} and `}${pointers(reading)}${distances && html` ${seeFigure('distances')} shows the detections by ${term('perpendicularDistance')}.`}${sizes && html` ${seeFigure('sizes')} shows ${terms('clusterSize')}.`}${curves}</p>
<p>${[reading.fixed, reading.mean, reading.why, reading.added, reading.planted, sizeSentence(result)].filter((said) => said !== null).join(' ')}</p>
${figures.every((f) => f === null) ? null : html`<div class="figures">${figures}</div>`}
<div class="pair even">${tables(reading, where)}</div>${against.map((a) =>
    numberedTable(
      `against-${a.covariate}`,
      `${a.title}, ${where}.`,
      a.byObserver.columns.map((name, i) => ({ name, number: i > 0 })),
      a.byObserver.rows.map((cells) => ({ cells })),
    ),
  )}`;
}

const hasPairs = ({ groups }: DetectionReading): boolean => groups.some((g) => g.pairs.length > 0);

function pointers(reading: DetectionReading): Html {
  const one = html`${seeTable('observers')} give it for each ${term('observer')}`;
  return hasPairs(reading) ? html`${one}, ${seeTable('pairs')} for two together.` : html`${one}.`;
}

function tables({ columns, captions, groups }: DetectionReading, where: string): Html {
  const numbers = [
    { name: columns.p, number: true },
    { name: columns.interval, number: true },
  ];
  const cells = (r: DetectionRow) => [r.label, r.design, r.share, r.interval ?? NONE];
  const observers = numberedTable(
    'observers',
    `${captions.observers}, ${where}.`,
    [{ name: columns.observer }, { name: columns.design }, ...numbers],
    groups.flatMap((g) => g.observers.map((o) => ({ cells: cells(o) }))),
  );
  const pairs = numberedTable(
    'pairs',
    `${captions.pairs}, ${where}.`,
    [{ name: columns.pair }, { name: columns.design }, ...numbers],
    groups.flatMap((g) => g.pairs.map((p) => ({ cells: cells(p) }))),
  );
  return html`${observers}${pairs}`;
}

const lowered = (title: string): string => title.charAt(0).toLowerCase() + title.slice(1);
