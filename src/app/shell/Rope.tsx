/** The rope with its marks: the way through the survey, in the order in which data travel. */

import { STATIONS, type Station } from '../contract.ts';
import { useApp } from '../state/app-context.tsx';
import { Menu } from './Menu.tsx';

const NAMES: Record<Station, string> = {
  survey: 'Survey',
  transects: 'Transects',
  detection: 'Detection',
  density: 'Density',
  lake: 'Lake',
};

export function Rope() {
  const { state, actions } = useApp();
  const open = state.work !== null;
  const faults = state.judged?.findings.filter((f) => f.severity === 'error').length ?? 0;
  return (
    <nav className="rope" aria-label="Stations">
      <ol>
        {STATIONS.map((station) => (
          <li key={station}>
            <button
              type="button"
              className="rope-mark"
              aria-current={open && station === state.station ? 'page' : undefined}
              disabled={!open}
              onClick={() => actions.go(station)}
            >
              {NAMES[station]}
              {station === 'survey' && faults > 0 && (
                <span className="rope-faults">
                  {faults}
                  <span className="visually-hidden">
                    {faults === 1 ? ' fault is open' : ' faults are open'}
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
