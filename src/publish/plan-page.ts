/** map.html of a plan: the sentence, the map, the curve, the dives with their places. One file, no request, prints well. */

import { label, labels } from '../../shared/glossary.ts';
import type { PlanFile } from '../../shared/planning.ts';
import { HEADINGS } from '../present/headings.ts';
import { keptTogether } from '../present/kept-together.ts';
import { type PlanRead, readPlan } from '../present/plan.ts';
import { type PlanLake, type PlanPicture, planPicture } from '../present/plan-picture.ts';
import { precisionPicture } from '../present/precision-curve.ts';
import { planMap } from './figures/plan-map.ts';
import { precisionFigure } from './figures/precision.ts';
import { type Html, html } from './html.ts';
import { htmlPage } from './html-page.ts';
import { STYLE } from './report-style.ts';
import { table } from './report-table.ts';

const OWN_STYLE = `
figure > svg { display: block; width: 100%; height: auto; font-family: inherit; }
.key svg { width: 28px; height: 16px; }
.curve { max-width: 520px; }
.mind { padding: 8px 12px; border: 2px solid #8a4b00; }
.mind p { margin: 4px 0; }
`;

/** A whole HTML document. */
export function planPageHtml(plan: PlanFile, lake: PlanLake): string {
  const read = readPlan(plan);
  const picture = planPicture(plan, lake);
  const curve = precisionPicture(plan);
  const [before, strong, after] = read.sentence;
  const body = html`<main>
<p class="lake">${read.lake}</p>
<h1>Next dives</h1>
<p class="answer">${before}<strong>${keptTogether(strong)}</strong>${keptTogether(after)}</p>
${read.lead.map((line) => html`<p>${keptTogether(line)}</p>`)}
<div class="mind">${read.cautions.map((c) => html`<p>${c}</p>`)}</div>
${mapOf(picture)}
<section><h2>${HEADINGS.ahead}</h2>
${curve && html`<figure class="curve">${precisionFigure(curve)}<figcaption>${curve.band}</figcaption></figure>`}
${read.curve.map((line) => html`<p>${keptTogether(line)}</p>`)}
${read.check && html`<p>${keptTogether(read.check)}</p>`}</section>
${tables(read)}
${dives(plan)}
</main>`;
  return htmlPage(`${read.lake}: next dives`, STYLE + OWN_STYLE, body);
}

const mapOf = (picture: PlanPicture): Html =>
  html`<section><h2>${picture.title}</h2><figure>${planMap(picture)}</figure></section>`;

function tables({ zones, alternatives }: PlanRead): Html {
  const columns = (head: readonly string[], words: number) =>
    head.map((name, i) => ({ name, number: i >= words }));
  return html`<section><h2>Where</h2>${table(
    'Dives a zone: a stretch of the shore and the contour from which they begin',
    columns(zones.head, 2),
    zones.rows.map((cells) => ({ cells })),
  )}${zones.notes.map((n) => html`<p class="note">${keptTogether(n)}</p>`)}</section>
${
  alternatives.rows.length === 0
    ? null
    : html`<section><h2>Other ways to spend the same time</h2>${table(
        'The same dive minutes searched in other ways, the most precise first',
        columns(alternatives.head, 2),
        alternatives.rows.map((cells) => ({ cells })),
      )}${alternatives.notes.map((n) => html`<p class="note">${keptTogether(n)}</p>`)}</section>`
}`;
}

function dives({ transects }: PlanFile): Html {
  const columns = [
    { name: label('transect') },
    { name: 'Start, latitude', number: true },
    { name: 'longitude', number: true },
    { name: 'Bearing', number: true },
    { name: `${label('depth')}, m`, number: true },
    { name: labels('observer') },
  ];
  const rows = transects.map((t) => ({
    cells: [
      t.transect,
      t.start[1].toFixed(6),
      t.start[0].toFixed(6),
      `${t.bearingDeg}° ${t.bearingRef}`,
      `${t.startDepthM.toFixed(1)} to ${t.endDepthM.toFixed(1)}`,
      t.secondary === null ? t.primary : `${t.primary}, then ${t.secondary}`,
    ],
  }));
  return html`<section><h2>The dives</h2>${table('Places (WGS 84) and depths by the maps', columns, rows)}</section>`;
}
