/** The first page of the report and of its short version: the answer, how sure it is, the map, the density by depth. */

import type { DensityPicture } from '../present/density-curve.ts';
import {
  densityWords,
  type FrontInput,
  type ReportWords,
  readFrontPage,
} from '../present/front-page.ts';
import type { LakeMap } from '../present/lake-map.ts';
import { densityFigure } from './figures/density.ts';
import { lakeMapDrawing } from './figures/lake-map.ts';
import { type Html, html } from './html.ts';
import { figure } from './plates.ts';
import { verdictWords } from './report-checks.ts';

export interface FrontParts {
  /** null where there is no map of the lake */
  map: LakeMap | null;
  /** null when no density is above 0, and where it is left out */
  density: DensityPicture | null;
  /** whether there is a place for signatures */
  signed: boolean;
}

export function frontPage(
  result: FrontInput,
  { map, density, signed }: FrontParts,
  words: ReportWords,
): Html {
  const { heading, surveyed, answer, sure, failing } = readFrontPage(result, words);
  const [first, ...others] = answer;
  const called = words.say('figure', { number: '{number}' });
  const said = density && densityWords(result, density, words);
  return html`<div class="front" lang="${words.tag}">
<header><p class="lake">${surveyed}</p><h1>${heading}</h1></header>
<p class="answer">${first}</p>
${others.length === 0 ? null : html`<p>${others.join(' ')}</p>`}
${sure.length === 0 ? null : html`<div class="sure"><h2>${words.say('howSure')}</h2><p>${sure.join(' ')}</p></div>`}
${failing.map((c) => html`<p class="failing" lang="en">${c.title}: ${verdictWords(c)}</p>`)}
${map && figure('map', lakeMapDrawing(map), map.title, map.note, { className: 'plate map', called })}
${density && said && figure('density', across(densityFigure(density, said), said.title), said.title, said.note, { called })}
${signed ? signatures(words) : null}
</div>`;
}

/** Wider than a phone: it scrolls in itself, also by keyboard. */
const across = (drawing: Html, name: string): Html =>
  html`<div class="scroll" tabindex="0" role="group" aria-label="${name}">${drawing}</div>`;

function signatures(words: ReportWords): Html {
  const fields = (['name', 'signature', 'date'] as const).map(
    (field) => html`<span>${words.say(field)}</span>`,
  );
  const line = (role: string) => html`<p><b>${role}</b>${fields}</p>`;
  return html`<div class="sign">${line(words.say('prepared'))}${line(words.say('reviewed'))}</div>`;
}
