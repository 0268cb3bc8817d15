/**
 * report.html, to be signed. The first page is the answer, how sure it is, the map and the density by depth; behind it
 * contents, methods, and section by section everything that the number rests on, down to the files it was made from.
 * One file, no request, prints well. Whatever comes from the survey's files is escaped by the `html` template.
 */

import type { AreasHeld } from '../../shared/areas.ts';
import type { PrecisionAhead } from '../../shared/planning.ts';
import type { Language } from '../../shared/strings/languages.ts';
import { type AheadRead, readAhead } from '../present/ahead.ts';
import { readDistances } from '../present/detection-function.ts';
import { type ReportWords, reportWords } from '../present/front-page.ts';
import { HEADINGS, REPORT_HEADINGS } from '../present/headings.ts';
import { type ResultInput, type ResultRead, readResult } from '../present/index.ts';
import type { FindingKind, Notices } from '../present/notices.ts';
import type { Source } from '../present/source.ts';
import { TREATMENT_CAUTION } from '../present/treatment-caution.ts';
import { areasTogether } from '../present/treatments.ts';
import { CAUTIONS } from './cautions.ts';
import { type Html, html } from './html.ts';
import { htmlPage } from './html-page.ts';
import {
  numbered,
  numberedTable,
  numberOfSection,
  type PlateWords,
  section,
  seeTable,
} from './plates.ts';
import { aheadSection } from './report-ahead.ts';
import { checksSection, verdictOf } from './report-checks.ts';
import { densitySection } from './report-density.ts';
import { detectionSection } from './report-detection.ts';
import { frontPage } from './report-front.ts';
import { habitatSection, treatmentSection } from './report-lake.ts';
import { methodsSection } from './report-methods.ts';
import { modelSection } from './report-model.ts';
import { pageStyle, STYLE } from './report-style.ts';
import { variantsSection } from './report-variants.ts';
import { whatIfSection } from './report-what-if.ts';

export interface ReportOptions {
  /** English if left out */
  language?: Language;
  held?: AreasHeld | null;
  /** what more dives would bring; left out or null where that is not known */
  ahead?: PrecisionAhead | null;
}

/** A page has room for so much. */
const ROOM = { depths: 5, transects: 15 };

/** The report as a whole HTML document. @param language of its first page; held: what treatment areas hold together */
export function reportHtml(result: ResultInput, options: ReportOptions = {}): string {
  const { language = 'en', held = null, ahead = null } = options;
  const words = reportWords(language);
  const shown = readResult(result, ROOM, 'metric', words);
  const parts = partsOf(result, shown, held, readAhead(ahead));
  const body = html`<main>
${frontPage(result, { map: shown.map, density: shown.density, signed: true }, words)}
<nav aria-labelledby="contents"><h2 id="contents">${REPORT_HEADINGS.contents}</h2><ol class="contents">${parts.map(
    ({ name, title }) =>
      html`<li><a href="#section-${name}">${numberOfSection(name)} ${title}</a></li>`,
  )}</ol></nav>
${before(shown)}
<div class="details">
${parts.map(({ name, title, content }) => section(name, title, content))}
</div>
</main>`;
  const title = `${shown.lake}: mussels on the lake bed`;
  return htmlPage(
    title,
    STYLE + pageStyle(shown.where),
    numbered(body, plateWords(reportWords('en'))),
  );
}

/** How figures and tables are called in the language of a document. */
export function plateWords(words: ReportWords): PlateWords {
  return {
    figure: (number) => words.say('figure', { number }),
    table: (number) => words.say('table', { number }),
  };
}

interface Part {
  name: string;
  title: string;
  content: Html;
}

/** The numbered sections that this result has, in their order. */
function partsOf(
  result: ResultInput,
  shown: ResultRead,
  held: AreasHeld | null,
  ahead: AheadRead | null,
): Part[] {
  const { where, treatments, checking, whatIf, variants, notices } = shown;
  const parts: [name: string, title: string, content: Html | null][] = [
    ['methods', REPORT_HEADINGS.methods, methodsSection(shown.methods, shown.chosen, where)],
    ['searched', HEADINGS.searched, definitions(shown.searched)],
    [
      'detection',
      HEADINGS.detection,
      detectionSection(result, verdictOf(checking, 'perpendicular-distance'), where),
    ],
    ['density', REPORT_HEADINGS.density, densitySection(shown, where)],
    [
      'habitat',
      REPORT_HEADINGS.habitat,
      habitatSection(shown.exclusions, shown.answer.habitat, where),
    ],
    [
      'treatments',
      HEADINGS.treatments,
      treatments &&
        treatmentSection(
          {
            areas: treatments,
            together: areasTogether(held, treatments),
            caution: TREATMENT_CAUTION,
            ciName: shown.ciName,
            hasMap: shown.map !== null,
          },
          where,
        ),
    ],
    [
      'checks',
      HEADINGS.checks,
      checking === null
        ? html`<p>${shown.unchecked}</p>`
        : checksSection(checking, readDistances(result) !== null, where),
    ],
    ['models', HEADINGS.models, modelSection(shown.model, where)],
    ['variants', HEADINGS.variants, variants && variantsSection(variants, where)],
    ['what-if', HEADINGS.whatIf, whatIf && whatIfSection(whatIf, where)],
    ['ahead', HEADINGS.ahead, ahead && aheadSection(ahead, where)],
    ['notices', notices.title, noticeList(notices)],
    ['terms', HEADINGS.terms, definitions(shown.terms)],
    ['source', REPORT_HEADINGS.source, sourceSection(shown.source, where)],
  ];
  return parts.flatMap(([name, title, content]) =>
    content === null ? [] : [{ name, title, content }],
  );
}

/** What anyone should know before the number leaves this report. */
function before({ answer, designBased, bootstrap }: ResultRead): Html {
  const notes = [
    answer.intervals,
    bootstrap,
    designBased?.sentence ?? null,
    designBased?.gloss ?? null,
  ];
  const told = notes.filter((note) => note !== null).join(' ');
  return html`<section id="before"><h2>${REPORT_HEADINGS.before}</h2>${told === '' ? null : html`<p>${told}</p>`}<ul>${CAUTIONS.map((c) => html`<li>${c}</li>`)}</ul></section>`;
}

function definitions(list: readonly [name: string, value: string][]): Html {
  return html`<dl>${list.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>`;
}

function noticeList({ kinds }: Notices): Html {
  const item = ({ place, message, more }: FindingKind) =>
    html`<li><b>${place}</b>: ${message}${more === null ? '' : ` ${more}`}</li>`;
  return kinds.length === 0
    ? html`<p>None.</p>`
    : html`<ul class="notices">${kinds.map(item)}</ul>`;
}

function sourceSection({ rebuild, files }: Source, where: string): Html {
  const list = numberedTable(
    'files',
    `Files of the survey, ${where}.`,
    [{ name: 'File' }, { name: 'Bytes', number: true }, { name: 'SHA-256' }],
    files.map((f) => ({ cells: [f.file, f.bytes, html`<code>${f.sha256}</code>`] })),
  );
  return html`<p>${list && html`${seeTable('files')} has the files that everything here was made from. `}${rebuild}</p>${list}`;
}
