/** What the number would be if an assumption did not hold: a bar an assumption, the interval beside them for scale. */

import './what-if.css';
import { useId, useMemo, useState } from 'react';
import { capital } from '../../../../shared/glossary.ts';
import { formatPercent, type UnitSystem } from '../../../../shared/units.ts';
import { HEADINGS } from '../../../present/headings.ts';
import {
  readWhatIf,
  UNDETECTED,
  type WhatIfLine,
  type WhatIfRead,
  type WhatIfResult,
} from '../../../present/what-if.ts';
import { keptTogether } from '../../shell/words.ts';

export function WhatIf({ result, units }: { result: WhatIfResult; units: UnitSystem }) {
  const id = useId();
  const [undetected, setUndetected] = useState<number>(UNDETECTED.usual);
  const read = useMemo(() => readWhatIf(result, units, undetected), [result, units, undetected]);
  // the axis stays while the dial is turned
  const reach = useMemo(
    () => readWhatIf(result, units, UNDETECTED.most)?.reach ?? null,
    [result, units],
  );
  if (read === null || reach === null) return null;
  return (
    <section className="what-if" aria-labelledby={id}>
      <h2 id={id}>{HEADINGS.whatIf}</h2>
      <p className="small">{keptTogether(read.opening)}</p>
      <ul className="plain-list">
        {read.interval !== null && (
          <li className="what-if-scale">
            <p>
              For scale: the number and its {read.interval.name}, {read.interval.text}
            </p>
            <Bar
              from={read.interval.from}
              to={read.interval.to}
              change={read.interval.change}
              reach={reach}
            />
          </li>
        )}
        {read.lines.map((line) => (
          <li key={line.key}>
            <p>
              {keptTogether(capital(line.otherwise))}: <b>{keptTogether(line.total)}</b>
            </p>
            {line.of === 'undetected' && (
              <Dial share={undetected} onShare={setUndetected} words={line.otherwise} />
            )}
            <Bar from={line.from} to={line.to} change={line.change} reach={reach} />
          </li>
        ))}
      </ul>
      {read.missing.map((m) => (
        <p key={m} className="small quiet">
          {m}
        </p>
      ))}
      <details>
        <summary>What is assumed, and how each line is computed</summary>
        <dl className="what-if-how small">
          {read.lines.map((line) => (
            <How key={line.key} line={line} />
          ))}
        </dl>
      </details>
    </section>
  );
}

function How({ line }: { line: WhatIfLine }) {
  return (
    <div>
      <dt>
        {line.assumed}; {line.otherwise}
      </dt>
      <dd className="quiet">{line.how}</dd>
    </div>
  );
}

function Dial({
  share,
  onShare,
  words,
}: {
  share: number;
  onShare(share: number): void;
  words: string;
}) {
  return (
    <label className="what-if-dial small no-print">
      <span className="quiet">0 %</span>
      <input
        type="range"
        min={0}
        max={UNDETECTED.most}
        step={UNDETECTED.step}
        value={share}
        aria-label="Share that neither observer can detect"
        aria-valuetext={words}
        onChange={(event) => onShare(Number(event.target.value))}
      />
      <span className="quiet">{formatPercent(UNDETECTED.most)}</span>
    </label>
  );
}

/** From no change at the upright line: a bar for a range, a bar to a point for one change. */
function Bar({
  from,
  to,
  change,
  reach,
}: Pick<WhatIfLine, 'from' | 'to' | 'change'> & { reach: WhatIfRead['reach'] }) {
  const span = reach.to - reach.from || 1;
  const at = (x: number): number => (100 * (x - reach.from)) / span;
  const [left, right] = [Math.min(0, from), Math.max(0, to)];
  return (
    <div className="what-if-bar">
      <svg aria-hidden="true" focusable="false" height="14">
        <rect
          x={`${at(left)}%`}
          width={`${Math.max(0.6, at(right) - at(left))}%`}
          y="3"
          height="8"
          className="what-if-range"
        />
        <line x1={`${at(0)}%`} x2={`${at(0)}%`} y1="0" y2="14" className="what-if-zero" />
      </svg>
      <span className="what-if-change">{change}</span>
    </div>
  );
}
