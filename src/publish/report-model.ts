/** The report's tables of the model: models compared, coefficients. */

import { capital, gloss, label, shortTerm, term } from '../../shared/glossary.ts';
import { linesShown, type ModelComparison, type ModelRead } from '../present/models.ts';
import { type Html, html } from './html.ts';
import { table } from './report-table.ts';

const NO_BREAK_HYPHEN = '\u2011';

/** The model used in words, those it was compared with, and its coefficients. */
export function modelTables({ sentence, compared, coefficients, logScore }: ModelRead): Html {
  const terms = table(
    'Coefficients (log scale for density and size, logit for detection)',
    [
      { name: 'Part' },
      { name: 'Term' },
      { name: 'Estimate', number: true },
      { name: label('standardError'), number: true },
    ],
    coefficients.map((c) => ({ cells: [c.part, c.term, c.estimate, c.se] })),
  );
  return html`<p>${sentence}</p>${compared && comparison(compared)}${terms}${logScore === null ? null : html`<p>${logScore}</p>`}`;
}

/** More models stand in models.csv. */
const MOST_MODELS = 8;

function comparison(compared: ModelComparison): Html {
  const { withShapes, withDepths, withShores, averaged, kept, forced, notes } = compared;
  const { shown, more } = linesShown(compared, MOST_MODELS);
  const models = table(
    'Models compared, the best first; in bold the one used',
    [
      { name: label('countDistribution') },
      { name: capital(shortTerm('transectEffect')) },
      ...(withShapes ? [{ name: label('detectionFunction') }] : []),
      ...(withDepths ? [{ name: label('depth') }] : []),
      ...(withShores ? [{ name: capital(shortTerm('alongShore')) }] : []),
      { name: label('logLikelihood'), number: true },
      { name: 'Parameters', number: true },
      { name: label('deltaAicc'), number: true },
      { name: label('akaikeWeight'), number: true },
    ],
    shown.map((m) => ({
      sum: m.used,
      cells: [
        m.outside ? `${m.family} · ${m.mark}` : m.family,
        m.transectEffect,
        ...(withShapes ? [m.detectionFunction.replace('-', NO_BREAK_HYPHEN)] : []),
        ...(withDepths ? [m.depth] : []),
        ...(withShores ? [m.shore] : []),
        m.logLikelihood,
        m.parameters,
        m.delta,
        m.weight,
      ],
    })),
  );
  return html`${forced === null ? null : html`<p><b>${forced}</b></p>`}${models}<p class="note">${more === null ? null : `${capital(more)}. `}${capital(term('deltaAicc'))}: ${gloss('deltaAicc')}. ${label('akaikeWeight')}: ${gloss('akaikeWeight')}.</p>${notes.length === 0 ? null : html`<ul>${notes.map((note) => html`<li>${note}.</li>`)}</ul>`}${averaged === null ? null : html`<p>${averaged}</p>`}${kept === null ? null : html`<p>${kept}</p>`}`;
}
