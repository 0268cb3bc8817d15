/**
 * report.html, read from the top: the answer, the map, where they are, what the number leaves out or cannot know, and then
 * the details on which it rests. One file, no request, prints well.
 * Whatever comes from the survey's files is escaped by the `html` template.
 */

import { capital, term } from '../../shared/glossary.ts';
import { HEADINGS } from '../present/headings.ts';
import { type ResultInput, type ResultRead, readResult } from '../present/index.ts';
import type { LakeMap } from '../present/lake-map.ts';
import type { FindingKind, Notices } from '../present/notices.ts';
import { CAUTIONS } from './cautions.ts';
import { densityFigure } from './figures/density.ts';
import { captioned } from './figures/frame.ts';
import { furtherFigure, lakeMapFigure } from './figures/lake-map.ts';
import { type Html, html } from './html.ts';
import { htmlPage } from './html-page.ts';
import { checksSection, verdictOf, verdictWords } from './report-checks.ts';
import { densityTable } from './report-density.ts';
import { detectionSection, sizesOf } from './report-detection.ts';
import { exclusionTable, strataSection, treatmentTable, upperLimitTable } from './report-lake.ts';
import { modelTables } from './report-model.ts';
import { STYLE } from './report-style.ts';
import { variantsSection } from './report-variants.ts';
import { whatIfSection } from './report-what-if.ts';

/** A page has room for so much. */
const ROOM = { depths: 5, transects: 15 };

/** The report as a whole HTML document. */
export function reportHtml(result: ResultInput): string {
  const shown = readResult(result, ROOM);
  const { text, habitat, intervals } = shown.answer;
  const body = html`<main>
<p class="lake">${shown.lake}</p>
<h1>Mussels on the lake bed</h1>
<p class="answer">${text}</p>
${shown.areaAbove && html`<p>${shown.areaAbove.sentence}</p>`}
${sureness(shown)}
${shown.map && lakeMapFigure(shown.map)}
${shown.map && furtherFigures(shown.map)}
${[habitat, intervals].map((note) => (note === null ? null : html`<p class="band">${note}</p>`))}
${shown.treatments && section(HEADINGS.treatments, treatmentTable(shown.treatments, shown.ciName))}
${section(HEADINGS.strata, strataSection(shown.strata, shown.ciName))}
${section(HEADINGS.density, densitySection(shown))}
${section(HEADINGS.exclusions, html`${exclusionTable(shown.exclusions)}${upperLimitTable(shown.limits)}`)}
${shown.whatIf && section(HEADINGS.whatIf, whatIfSection(shown.whatIf))}
${section(HEADINGS.cautions, html`<ul>${CAUTIONS.map((c) => html`<li>${c}</li>`)}</ul>`)}
<div class="details">
${section(HEADINGS.searched, definitions(shown.searched))}
${section(HEADINGS.detection, html`${detectionSection(result, verdictOf(shown.checking, 'perpendicular-distance'))}${sizesOf(result)}`)}
${section(HEADINGS.checks, shown.checking === null ? html`<p>${shown.unchecked}</p>` : checksSection(shown.checking))}
${section(HEADINGS.models, modelTables(shown.model))}
${shown.variants && section(HEADINGS.variants, variantsSection(shown.variants))}
${section(HEADINGS.methods, methodsSection(shown.methods))}
${noticeSection(shown.notices)}
${section(HEADINGS.terms, definitions(shown.terms))}
</div>
</main>`;
  return htmlPage(`${shown.lake}: mussels on the lake bed`, STYLE, body);
}

function furtherFigures(map: LakeMap): Html | null {
  if (map.further.length === 0) return null;
  return html`<div class="figures">${map.further.map((m) => furtherFigure(map, m))}</div>`;
}

function definitions(list: readonly [name: string, value: string][]): Html {
  return html`<dl>${list.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>`;
}

function section(title: string, content: Html | null): Html {
  return html`<section><h2>${title}</h2>${content}</section>`;
}

/** Beside the answer: other ways to the number, and what the checks say; those that fail in full. */
function sureness({ bootstrap, designBased, checking }: ResultRead): Html {
  const { against = null } = designBased ?? {};
  const failing = (checking?.checks ?? []).filter(
    (c) => c.verdict === 'fails' && c.name !== against?.name,
  );
  const line = (text: string | Html | null) => (text === null ? null : html`<p>${text}</p>`);
  const design =
    designBased &&
    html`${against === null ? designBased.sentence : html`<b class="${against.verdict}">${designBased.sentence}</b>`} ${designBased.gloss}`;
  return html`<div class="sure">${line(bootstrap)}${line(design)}${line(checking?.sentence ?? null)}${failing.map((c) => html`<p>${c.title}: ${verdictWords(c)}</p>`)}</div>`;
}

function densitySection({ density, densities }: ResultRead): Html {
  return html`${
    density === null ? html`<p>There is no density curve to draw.</p>` : null
  }<div class="pair">${
    density &&
    captioned(
      capital(`${term('density')} against ${term('depth')}`),
      densityFigure(density),
      'Hatched: depths that nobody sampled. Bands: the confidence interval; thin lines: the other substrates. Plant cover: as recorded on each substrate.',
    )
  }<div>${densities && densityTable(densities)}</div></div>`;
}

function methodsSection({ paragraph, references }: ResultRead['methods']): Html {
  return html`<p>${paragraph}</p>${references.length === 0 ? null : html`<ul class="note">${references.map((r) => html`<li>${r}</li>`)}</ul>`}`;
}

function noticeSection({ title, kinds }: Notices): Html {
  const item = ({ place, message, more }: FindingKind) =>
    html`<li><b>${place}</b>: ${message}${more === null ? '' : ` ${more}`}</li>`;
  const list = html`<ul class="notices">${kinds.map(item)}</ul>`;
  return section(title, kinds.length === 0 ? html`<p>None.</p>` : list);
}
