/** Saving, printing, opening another survey, units and theme: behind one button at the rope's foot. */

import { useEffect, useId, useRef, useState } from 'react';
import { useApp } from '../state/app-context.tsx';
import { BringInButton } from './BringInButton.tsx';
import { Switch } from './ui.tsx';

export function Menu() {
  const { state, actions } = useApp();
  const [shown, setShown] = useState(false);
  const id = useId();
  const box = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);

  useEffect(() => {
    if (!shown) return;
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== 'Escape') return;
      setShown(false);
      button.current?.focus();
    };
    const onPress = (event: PointerEvent) => {
      if (!box.current?.contains(event.target as Node)) setShown(false);
    };
    addEventListener('keydown', onKey);
    addEventListener('pointerdown', onPress);
    return () => {
      removeEventListener('keydown', onKey);
      removeEventListener('pointerdown', onPress);
    };
  }, [shown]);

  const doing = (what: () => void) => () => {
    setShown(false);
    what();
  };
  return (
    <div ref={box}>
      <button
        ref={button}
        type="button"
        className="button small"
        aria-expanded={shown}
        aria-controls={id}
        onClick={() => setShown(!shown)}
      >
        More
      </button>
      {shown && (
        <div id={id} className="menu-panel">
          <div className="menu-setting">
            <span id={`${id}-units`}>Units</span>
            <Switch
              label="Units"
              value={state.units}
              options={[
                { value: 'metric', text: 'm, ha' },
                { value: 'us', text: 'ft, acres' },
              ]}
              onChange={actions.setUnits}
            />
          </div>
          <div className="menu-setting">
            <span>Light</span>
            <Switch
              label="Light or dark"
              value={state.theme}
              options={[
                { value: 'light', text: 'day' },
                { value: 'dark', text: 'night' },
                { value: 'system', text: 'system' },
              ]}
              onChange={actions.setTheme}
            />
          </div>
          {state.work !== null && (
            <ul className="plain-list">
              <li>
                <BringInButton className="link">Bring in files</BringInButton>
              </li>
              <li>
                <button type="button" className="link" onClick={doing(actions.saveZip)}>
                  Save the survey (zip)
                </button>
              </li>
              {state.result !== null && (
                <li>
                  <button type="button" className="link" onClick={doing(actions.saveResult)}>
                    Save the results (zip)
                  </button>
                </li>
              )}
              {state.result !== null && (
                <li>
                  <button type="button" className="link" onClick={doing(actions.saveOpenFiles)}>
                    Save open files: GIS, Darwin Core (zip)
                  </button>
                </li>
              )}
              <li>
                <button type="button" className="link" onClick={doing(actions.print)}>
                  Print this station
                </button>
              </li>
              <li>
                <button type="button" className="link" onClick={doing(actions.close)}>
                  Open another survey
                </button>
              </li>
            </ul>
          )}
          <p className="small quiet">
            Everything is computed in this browser; nothing is sent anywhere. An open survey and its
            changes are kept here until you forget them.
          </p>
        </div>
      )}
    </div>
  );
}
