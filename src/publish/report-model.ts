/** The report's tables of the model: models compared, coefficients. */

import { capital, gloss, label, term } from '../../shared/glossary.ts';
import {
  type FittedResult,
  logScoreSentence,
  type ModelComparison,
  modelSentence,
  readCoefficients,
  readModels,
} from '../present/models.ts';
import { type Html, html } from './html.ts';
import { table } from './report-table.ts';

const NO_BREAK_HYPHEN = '\u2011';

/** The model used in words, those it was compared with, and its coefficients. */
export function modelTables(result: FittedResult): Html {
  const compared = readModels(result);
  const coefficients = table(
    'Coefficients (log scale for density and size, logit for detection)',
    [
      { name: 'Part' },
      { name: 'Term' },
      { name: 'Estimate', number: true },
      { name: label('standardError'), number: true },
    ],
    readCoefficients(result).map((c) => ({ cells: [c.part, c.term, c.estimate, c.se] })),
  );
  const score = logScoreSentence(result);
  return html`<p>${modelSentence(result)}</p>${compared && comparison(compared)}${coefficients}${score === null ? null : html`<p>${score}</p>`}`;
}

function comparison({ lines, withShapes, kept, notes }: ModelComparison): Html {
  const models = table(
    'Models compared, the lowest AICc first; in bold the one used',
    [
      { name: label('countDistribution') },
      { name: label('transectEffect') },
      ...(withShapes ? [{ name: label('detectionFunction') }] : []),
      { name: label('logLikelihood'), number: true },
      { name: 'Parameters', number: true },
      { name: label('deltaAicc'), number: true },
      { name: label('akaikeWeight'), number: true },
    ],
    lines.map((m) => ({
      sum: m.used,
      cells: [
        m.countDistribution,
        m.transectEffect,
        ...(withShapes ? [m.detectionFunction.replace('-', NO_BREAK_HYPHEN)] : []),
        m.logLikelihood,
        m.parameters,
        m.delta,
        m.weight,
      ],
    })),
  );
  return html`${models}<p class="note">${capital(term('deltaAicc'))}: ${gloss('deltaAicc')}. ${label('akaikeWeight')}: ${gloss('akaikeWeight')}.</p>${notes.length === 0 ? null : html`<ul>${notes.map((note) => html`<li>${note}.</li>`)}</ul>`}${kept === null ? null : html`<p>${kept}</p>`}`;
}
