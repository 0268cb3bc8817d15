/** Small panels side by side in rows, all with the same two axes: where each stands in a column of some width. */

export interface PanelBox {
  left: number;
  right: number;
  top: number;
  bottom: number;
  /** stands at the left edge, where the vertical axis has its labels */
  first: boolean;
  /** its name in lines that fit above it, the last one next to the panel */
  title: string[];
}

export interface PanelGrid {
  panels: PanelBox[];
  heightPx: number;
}

/** Room left of the first panel of a row, and right of the last one. */
export const SIDE_PX = { left: 40, right: 10 };
/** Above a panel its title, of one line or more; below it the axis. */
export const PANEL_PX = { title: 24, titleLine: 16, height: 150, axis: 40 };
const GAP_PX = 16;
const LEAST_WIDTH_PX = 104;
const MOST_WIDTH_PX = 220;
/** Width of a letter of a title, rounded up. */
const LETTER_PX = 7.4;

/** A panel for each name, as many a row as there is room for. */
export function panelGrid(names: readonly string[], widthPx: number): PanelGrid {
  const count = names.length;
  const room = Math.max(LEAST_WIDTH_PX, widthPx - SIDE_PX.left - SIDE_PX.right);
  const fitting = Math.max(1, Math.floor((room + GAP_PX) / (LEAST_WIDTH_PX + GAP_PX)));
  // rows of about equal length: four panels stand as two and two where three would fit
  const rows = Math.ceil(count / fitting);
  const perRow = Math.ceil(count / rows);
  const width = Math.min(MOST_WIDTH_PX, (room - GAP_PX * (perRow - 1)) / perRow);
  const titles = names.map((name) => wrapped(name, Math.floor(width / LETTER_PX)));
  const lines = titles.reduce((most, title) => Math.max(most, title.length), 1);
  const titlePx = PANEL_PX.title + (lines - 1) * PANEL_PX.titleLine;
  const rowPx = titlePx + PANEL_PX.height + PANEL_PX.axis;
  return {
    heightPx: rows * rowPx,
    panels: titles.map((title, i) => {
      const left = SIDE_PX.left + (i % perRow) * (width + GAP_PX);
      const top = Math.floor(i / perRow) * rowPx + titlePx;
      return {
        left,
        right: left + width,
        top,
        bottom: top + PANEL_PX.height,
        first: i % perRow === 0,
        title,
      };
    }),
  };
}

/** At spaces, in lines of so many letters; a word that is longer than a line is cut. */
function wrapped(name: string, letters: number): string[] {
  const lines: string[] = [];
  for (const word of name.split(' ')) {
    const shown = word.length <= letters ? word : `${word.slice(0, letters - 1)}…`;
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + shown.length <= letters)
      lines[lines.length - 1] = `${last} ${shown}`;
    else lines.push(shown);
  }
  return lines;
}

/** How far down its panel a height lies, as a share; null between the rows of panels. */
export function downPanel({ panels }: PanelGrid, px: number): number | null {
  const within = panels.find((p) => px >= p.top && px <= p.bottom);
  return within === undefined ? null : (px - within.top) / (within.bottom - within.top);
}
