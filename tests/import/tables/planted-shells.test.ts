/** Numbers of planted shells come in under the headers that people give them; the expected cells are those that were typed. */

import { describe, expect, it } from 'vitest';
import type { Answered } from '../../../src/import/ask.ts';
import { importSurvey, readGiven } from '../../../src/import/index.ts';
import { comeIn, utf8 } from './disguised.ts';

const TRANSECTS =
  'Transect,Date,Primary,Secondary,Length (m),Start lat,Start lon\nT01,2026-06-02,A,B,20,44.41,-84.96\nT02,2026-06-02,B,A,20,44.42,-84.95\n';

const ANSWERED: Answered = { answers: new Map(), accepted: new Set(), acceptCertain: false };

describe('planted shells', () => {
  it.each([
    [
      'Transect,Shells planted,Found by primary,Found by secondary only,Remarks\nT01,20,13,3,\nT02,15,9,2,two under a stone\n',
    ],
    ['transect;Number planted;Found by diver 1;Found by diver 2\nT01;20;13;3\nT02;15;9;2\n'],
    [
      'Transekt;Ausgelegte Schalen;Gefunden vom ersten Taucher;Gefunden nur vom zweiten Taucher\nT01;20;13;3\nT02;15;9;2\n',
    ],
    [
      'Transecto;Conchas colocadas;Encontradas por el primer buzo;Encontradas solo por el segundo buzo\nT01;20;13;3\nT02;15;9;2\n',
    ],
    [
      'Transect;Coquilles posées;Trouvées par le premier plongeur;Trouvées seulement par le second plongeur\nT01;20;13;3\nT02;15;9;2\n',
    ],
  ])('by the names of their columns: %s', async (text) => {
    const { outcome } = await comeIn({ 'dives.csv': utf8(TRANSECTS), 'shells.csv': utf8(text) });
    expect(outcome.findings).toEqual([]);
    expect(
      outcome.tables.planted_shells.map(({ cells }) => [
        cells.transect,
        cells.planted,
        cells.found_first,
        cells.found_second_only,
      ]),
    ).toEqual([
      ['T01', '20', '13', '3'],
      ['T02', '15', '9', '2'],
    ]);
    expect(outcome.tables.transects).toHaveLength(2);
  });

  it('what is no number is refused with its cell; a table without what the secondary found is told', async () => {
    const { outcome } = await comeIn({
      'dives.csv': utf8(TRANSECTS),
      'shells.csv': utf8('Transect,Shells planted,Found by primary\nT01,20+,13\n'),
    });
    expect(outcome.findings.map(({ code, column }) => [code, column])).toEqual([
      ['no-column', 'found_second_only'],
      ['not-a-number', 'Shells planted'],
    ]);
  });

  it('are written as planted_shells.csv; one that is ours stays byte for byte', async () => {
    const ours = 'transect,planted,found_first,found_second_only\nT01,20,13,3\n';
    for (const [name, text] of [
      ['planted_shells.csv', ours],
      ['shells.csv', ours],
    ]) {
      const given = await readGiven([
        { name: 'dives.csv', bytes: utf8(TRANSECTS) },
        { name, bytes: utf8(text) },
      ]);
      const answers = new Map([['detections.none', 'nothing-detected']]);
      const first = await importSurvey(given, ANSWERED);
      const accepted = new Set(first.questions.map(({ question }) => question.id));
      const { files, questions } = await importSurvey(given, { ...ANSWERED, answers, accepted });
      expect(questions.filter(({ answer }) => answer === null)).toEqual([]);
      expect(new TextDecoder().decode(files?.get('planted_shells.csv')), name).toBe(ours);
    }
  });
});
