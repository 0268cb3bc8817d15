/** The name of a panel, in as many lines as it needs. */

import { PANEL_PX, type PanelBox } from './panel-grid.ts';

const ABOVE_PX = 8;

export function PanelTitle({ box: { left, top, title } }: { box: PanelBox }) {
  return title.map((line, i) => (
    <text
      // biome-ignore lint/suspicious/noArrayIndexKey: the lines of one fixed name
      key={i}
      x={left}
      y={top - ABOVE_PX - (title.length - 1 - i) * PANEL_PX.titleLine}
      className="plot-name panel-name"
    >
      {line}
    </text>
  ));
}
