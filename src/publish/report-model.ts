/** The report's tables of the model: models compared, coefficients. */

import { capital, gloss, label, shortTerm, term } from '../../shared/glossary.ts';
import { linesShown, type ModelComparison, type ModelRead } from '../present/models.ts';
import { type Html, html } from './html.ts';
import { numberedTable, seeTable } from './plates.ts';

const NO_BREAK_HYPHEN = '\u2011';

/** The model used in words, those it was compared with, and its coefficients. */
export function modelSection(
  { sentence, compared, coefficients, logScore }: ModelRead,
  where: string,
): Html {
  const terms = numberedTable(
    'coefficients',
    `Coefficients of the model used (log scale for density and size, logit for detection), ${where}.`,
    [
      { name: 'Part' },
      { name: 'Term' },
      { name: 'Estimate', number: true },
      { name: label('standardError'), number: true },
    ],
    coefficients.map((c) => ({ cells: [c.part, c.term, c.estimate, c.se] })),
  );
  return html`<p>${sentence}${compared && html` ${seeTable('models')} has the models compared.`}${terms && html` ${seeTable('coefficients')} has the coefficients.`}</p>${compared && comparison(compared, where)}${terms}${logScore === null ? null : html`<p>${logScore}</p>`}`;
}

/** More models stand in models.csv. */
const MOST_MODELS = 8;

function comparison(compared: ModelComparison, where: string): Html {
  const { withShapes, withDepths, withShores, averaged, kept, forced, notes } = compared;
  const { shown, more } = linesShown(compared, MOST_MODELS);
  const models = numberedTable(
    'models',
    `Models compared, the best first; in bold the one used, ${where}.`,
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
