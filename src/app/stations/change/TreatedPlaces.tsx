/** Which treatment areas of the surveys were treated between them. */

import { terms } from '../../../../shared/glossary.ts';
import { visible } from '../../../../shared/words.ts';
import { type ChangeState, change } from '../../state/change-desk.ts';

export function TreatedPlaces({ now: { areas, treated } }: { now: ChangeState }) {
  const names = [...new Set(areas.map(({ name }) => name))];
  if (names.length === 0)
    return (
      <p className="small quiet no-print">
        Places that were treated meanwhile can be held against the rest once they are{' '}
        {terms('treatmentArea')} of one of these {terms('survey')}.
      </p>
    );
  return (
    <fieldset className="treated-places no-print">
      <legend>Treated between the {terms('survey')}</legend>
      {names.map((name) => (
        <label key={name}>
          <input
            type="checkbox"
            checked={treated.has(name)}
            onChange={(event) => change.treat(name, event.target.checked)}
          />
          {visible(name)}
        </label>
      ))}
    </fieldset>
  );
}
