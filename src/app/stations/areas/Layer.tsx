/** The thickness of a layer whose volume is asked for, at the surface or over the bed; kept in metres. */

import { M_PER_FOOT } from '../../../../shared/units.ts';
import { useApp } from '../../state/app-context.tsx';
import { setDesk, useDesk } from '../../state/area-desk.ts';
import { NumberField } from './NumberField.tsx';

export function Layer() {
  const imperial = useApp().state.units === 'us';
  const layerM = useDesk((d) => d.layerM);
  const perUnit = imperial ? M_PER_FOOT : 1;
  return (
    <NumberField
      label="Volume of a layer at the surface, or over the bed, as thick as"
      unit={imperial ? 'ft' : 'm'}
      value={layerM === null ? null : Number((layerM / perUnit).toPrecision(4))}
      least={{ above: 0 }}
      blank="none"
      onChange={(thick) => setDesk({ layerM: thick === null ? null : thick * perUnit })}
    />
  );
}
