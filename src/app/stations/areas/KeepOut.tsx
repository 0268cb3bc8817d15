/** Places where no area is proposed: intakes, beaches, beds of native mussels. */

import { useId } from 'react';
import { gloss, labels } from '../../../../shared/glossary.ts';
import { KEEP_OUT_FILE } from '../../../../shared/survey-files.ts';
import { chooseArea, useDesk } from '../../state/area-desk.ts';
import type { Areas } from '../../state/use-areas.ts';

export function KeepOut({ areas: { keptOut } }: { areas: Areas }) {
  const id = useId();
  const chosen = useDesk((d) => d.chosen);
  if (keptOut.length === 0) return null;
  return (
    <section aria-labelledby={id}>
      <h2 id={id}>{labels('keepOut')}</h2>
      <p className="small quiet">For {gloss('keepOut')}.</p>
      <ul className="plain-list area-kept-out">
        {keptOut.map(({ place, name }) => (
          <li key={place}>
            <button
              type="button"
              className="link"
              aria-pressed={chosen?.file === KEEP_OUT_FILE && chosen.place === place}
              onClick={() => chooseArea({ file: KEEP_OUT_FILE, place })}
            >
              {name}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
