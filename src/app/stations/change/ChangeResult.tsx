/** What came out: for each survey against the next the answer, how sure it is, pictures, tables, and what it rests on. */

import { useMemo } from 'react';
import type { ChangeFile, ChangePicture } from '../../../../shared/change.ts';
import { visible } from '../../../../shared/words.ts';
import { type PairRead, readChange } from '../../../present/change.ts';
import { ratioPicture, seriesPicture } from '../../../present/change-pictures.ts';
import { TREATMENT_CAUTION } from '../../../present/treatment-caution.ts';
import { ChangeRatios } from '../../plots/ChangeRatios.tsx';
import { SurveySeries } from '../../plots/SurveySeries.tsx';
import { Caution, DataTable, Lead, Sentence, unitSystem } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { ChangeMapFigure } from './ChangeMapFigure.tsx';
import { SaveChange } from './SaveChange.tsx';

interface Shown {
  file: ChangeFile;
  /** one a pair of the file */
  pictures: readonly (ChangePicture | null)[];
}

export function ChangeResult({ file, pictures }: Shown) {
  const { state } = useApp();
  const units = unitSystem(state.units);
  const read = useMemo(() => readChange(file, units), [file, units]);
  const series = useMemo(() => seriesPicture(read, file), [read, file]);
  // what was found last is what is asked for first
  const [latest, ...earlier] = read.pairs
    .map((pair, i) => ({ ...pair, map: pictures[i] ?? null }))
    .reverse();
  return (
    <>
      <Sentence>
        <Headline pair={latest} />
      </Sentence>
      <Lead>{keptTogether(visible(latest.opening))}</Lead>
      <Pair pair={latest} interval={file.interval} only={earlier.length === 0} />
      {earlier.map((pair) => (
        <section key={pair.title} className="change-pair" aria-label={visible(pair.title)}>
          <h2>{visible(pair.title)}</h2>
          <p>{keptTogether(visible(pair.opening))}</p>
          <Pair pair={pair} interval={file.interval} only={false} />
        </section>
      ))}
      {series !== null && <SurveySeries picture={series} table={read.surveys} />}
      <SaveChange file={file} lake={file.surveys[file.surveys.length - 1].lake} />
    </>
  );
}

/** The ratio, up to the names, in bold. */
function Headline({ pair: { headline } }: { pair: PairRead }) {
  const [, ratio = '', rest = headline] = /^((?:over |under )?[\d.,]+)(.*)$/s.exec(headline) ?? [];
  return (
    <>
      <b>{ratio}</b>
      {keptTogether(visible(rest))}
    </>
  );
}

type MappedPair = PairRead & { map: ChangePicture | null };

function Pair({ pair, interval, only }: { pair: MappedPair; interval: number; only: boolean }) {
  const picture = useMemo(() => ratioPicture(pair, interval), [pair, interval]);
  const { sure, treated, tables, basis } = pair;
  const [shown, ...others] = tables.map((table) => ({
    ...table,
    caption: only ? table.caption : `${table.caption}, ${visible(pair.title)}`,
  }));
  return (
    <>
      {sure.map((line) => (
        <p key={line}>{keptTogether(line)}</p>
      ))}
      {treated !== null && (
        <section className="treated-effect">
          <h2>Treated against untreated</h2>
          {treated
            .filter((line) => line !== TREATMENT_CAUTION)
            .map((line) => (
              <p key={line}>{keptTogether(visible(line))}</p>
            ))}
          <Caution>{TREATMENT_CAUTION}</Caution>
        </section>
      )}
      {picture !== null && <ChangeRatios picture={picture} />}
      {pair.map !== null && <ChangeMapFigure picture={pair.map} />}
      {shown !== undefined && <Rows {...shown} />}
      {others.length > 0 && (
        <details>
          <summary>By depth and in other parts</summary>
          {others.map((table) => (
            <Rows key={table.caption} {...table} />
          ))}
        </details>
      )}
      {basis.map((line) => (
        <p key={line} className="small quiet">
          {keptTogether(visible(line))}
        </p>
      ))}
    </>
  );
}

function Rows({ caption, rows: [head, ...rows] }: PairRead['tables'][number]) {
  return (
    <DataTable
      caption={caption}
      columns={head.map((title, i) => ({
        title: visible(title),
        ...(i === 0 ? {} : { align: 'right' as const }),
        cell: (row: string[]) => visible(row[i]),
      }))}
      rows={rows}
      keyOf={([name], i) => `${name} ${i}`}
    />
  );
}
