/** Sheets for the dives, printed or saved from the page: for planned transects, and blank ones besides. Loaded when it is unfolded. */

import { useId, useState } from 'react';
import { term, terms } from '../../../shared/glossary.ts';
import type { SheetsWanted } from '../contract.ts';
import { useApp } from '../state/app-context.tsx';
import { download, fileName } from '../storage/download.ts';
import { printDocument } from './print-document.ts';
import { Switch } from './ui.tsx';

/** As the command line takes them (src/cli/sheets-command.ts). */
const MOST = { blank: 200, pages: 20 };

export function SheetsForm() {
  const { state, actions } = useApp();
  const id = useId();
  const planned = state.judged?.planned.length ?? 0;
  const [paper, setPaper] = useState<SheetsWanted['paper']>('a4');
  const [blank, setBlank] = useState('1');
  const [pages, setPages] = useState('1');
  const [problem, setProblem] = useState<string | null>(null);

  const make = async (then: (html: string) => void | Promise<void>): Promise<void> => {
    try {
      const wanted = {
        paper,
        blank: whole(blank, 0, MOST.blank, 'blank sheets'),
        detectionPages: whole(pages, 1, MOST.pages, `pages for ${terms('cluster')}`),
      };
      await then(await actions.fieldSheets(wanted));
      setProblem(null);
    } catch (error) {
      setProblem((error as Error).message);
    }
  };
  const save = (html: string): void => {
    const lake = state.judged?.analysis.lake ?? state.work?.name ?? 'survey';
    download(new TextEncoder().encode(html), fileName(lake, 'sheets', 'html'), 'text/html');
  };
  return (
    <>
      <p className="small quiet">
        For pencil on waterproof paper: a page for each {term('transect')} and its habitat, one or
        more for the {terms('cluster')}.{' '}
        {planned === 0
          ? `Rows of transects.csv without a date are ${terms('plannedTransect')}: their sheets are filled in.`
          : `${planned === 1 ? `1 ${term('plannedTransect')} has its sheet` : `${planned} ${terms('plannedTransect')} have their sheets`} filled in, the roles exchanged from one to the next.`}
      </p>
      <div className="print-sheets-fields">
        <Switch
          label="Paper"
          value={paper}
          options={[
            { value: 'a4', text: 'A4' },
            { value: 'letter', text: 'Letter' },
          ]}
          onChange={(next) => setPaper(next as SheetsWanted['paper'])}
        />
        <Count id={`${id}-blank`} words="Blank sheets" value={blank} onChange={setBlank} />
        <Count
          id={`${id}-pages`}
          words={`Pages for ${terms('cluster')}`}
          value={pages}
          onChange={setPages}
        />
      </div>
      <p className="print-sheets-buttons">
        <button type="button" className="button small" onClick={() => void make(printDocument)}>
          Print the sheets
        </button>
        <button type="button" className="button small" onClick={() => void make(save)}>
          Save them as a file
        </button>
      </p>
      {problem !== null && (
        <p className="small caution" role="alert">
          {problem}
        </p>
      )}
    </>
  );
}

function Count({
  id,
  words,
  value,
  onChange,
}: {
  id: string;
  words: string;
  value: string;
  onChange(value: string): void;
}) {
  return (
    <label htmlFor={id}>
      {words}
      <input
        id={id}
        className="field"
        inputMode="numeric"
        autoComplete="off"
        value={value}
        onChange={(event) => onChange(event.target.value)}
      />
    </label>
  );
}

function whole(typed: string, least: number, most: number, what: string): number {
  const value = /^\d+$/.test(typed.trim()) ? Number(typed) : Number.NaN;
  if (!(value >= least && value <= most))
    throw new Error(`Got "${typed}" ${what}; a whole number from ${least} to ${most} is expected.`);
  return value;
}
