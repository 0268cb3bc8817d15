/** The rope with its marks: the way through the survey, in the order in which data travel. */

import { useEffect, useRef } from 'react';
import { term, terms } from '../../../shared/glossary.ts';
import { STATIONS } from '../contract.ts';
import { useApp } from '../state/app-context.tsx';
import { useBringIn } from '../state/bring-in.ts';
import { Menu } from './Menu.tsx';
import { STATION_NAMES } from './words.ts';

export function Rope() {
  const { state, actions } = useApp();
  const open = state.work !== null;
  const { shown: bringsIn } = useBringIn();
  const errors = state.judged?.findings.filter((f) => f.severity === 'error').length ?? 0;
  const list = useRef<HTMLOListElement>(null);
  const shown = open && !bringsIn ? state.station : null;
  useEffect(() => {
    const marks = list.current;
    if (shown === null || marks === null) return;
    // also once the rope is laid another way: its first size is told when it is observed
    const sizes = new ResizeObserver(() =>
      marks.querySelector('[aria-current]')?.scrollIntoView({ block: 'nearest', inline: 'center' }),
    );
    sizes.observe(marks);
    return () => sizes.disconnect();
  }, [shown]);
  return (
    <nav className="rope" aria-label="Stations">
      <ol ref={list}>
        {STATIONS.map((station) => (
          <li key={station}>
            <button
              type="button"
              className="rope-mark"
              aria-current={station === shown ? 'page' : undefined}
              disabled={!open}
              onClick={() => actions.go(station)}
            >
              {STATION_NAMES[station]}
              {station === 'survey' && errors > 0 && (
                <span className="rope-errors">
                  {errors}
                  <span className="visually-hidden">
                    {errors === 1 ? ` ${term('error')} is open` : ` ${terms('error')} are open`}
                  </span>
                </span>
              )}
            </button>
          </li>
        ))}
      </ol>
      <div className="rope-foot">
        <Menu />
      </div>
    </nav>
  );
}
