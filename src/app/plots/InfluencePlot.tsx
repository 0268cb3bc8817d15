/** How the total would change without each of the most influential transects. */

import { axisX, axisY, type PlotOptions, ruleX, ruleY } from '@observablehq/plot';
import { useCallback } from 'react';
import { label, term } from '../../../shared/glossary.ts';
import { visible } from '../../../shared/words.ts';
import { changeText, type Influence, type Influences } from '../../present/influence.ts';
import { DataTable, Figure } from '../shell/ui.tsx';
import { PlotImage } from './PlotImage.tsx';
import { labelMarginPx, rowLabel } from './row-labels.ts';
import { TransectControl } from './TransectControl.tsx';

/** So many transects have a row of their own. */
export const MOST_TRANSECTS = 8;
const ROW_PX = 22;
const MARGIN = { top: 2, right: 18, bottom: 26 };

export function InfluencePlot({
  influence,
  transect,
  onTransect,
}: {
  influence: Influences;
  /** the transect in focus */
  transect: string | null;
  onTransect(transect: string | null): void;
}) {
  const { shown, others, described } = influence;
  const draw = useCallback(() => plotOf(influence), [influence]);
  const marginLeft = labelMarginPx(shown.map((i) => i.transect));
  return (
    <Figure
      title={label('influence')}
      alt={visible(
        `Change of the lake's total without a transect, the largest first: ${described}`,
      )}
      note={`Without each ${term('transect')}.${others === null ? '' : ` ${others}`}`}
      interactive
      table={
        <DataTable
          caption="Change of the total without a transect"
          captionHidden
          columns={[
            { title: `Without ${term('transect')}`, cell: (i: Influence) => visible(i.transect) },
            { title: 'Total changes by', align: 'right', cell: (i) => i.text },
          ]}
          rows={shown}
          keyOf={(i) => i.transect}
          onRow={(i) => onTransect(i.transect)}
          isChosen={(i) => i.transect === transect}
        />
      }
    >
      <PlotImage
        draw={draw}
        name="Change of the total without each transect; the numbers are in the table below"
        over={({ x, y }) =>
          shown.map((i) => (
            <circle
              key={i.transect}
              cx={x.apply(i.change)}
              cy={y.apply(i.transect) + y.bandwidth / 2}
              r={i.transect === transect ? 6 : 4}
              className={i.transect === transect ? 'plot-lit' : 'plot-dot'}
            />
          ))
        }
        control={({ widthPx, heightPx, y }) => (
          <TransectControl
            label={`${label('transect')} left out`}
            transects={shown.map((i) => i.transect)}
            chosen={transect}
            onChoose={onTransect}
            words={(name) => {
              const own = shown.find((i) => i.transect === name);
              return own ? `without ${visible(name)} ${own.text}` : visible(name);
            }}
            nearest={(_x, yPx) =>
              shown.find((i) => {
                const top = y.apply(i.transect);
                return yPx >= top && yPx < top + y.bandwidth;
              })?.transect ?? null
            }
            box={{
              left: marginLeft,
              top: MARGIN.top,
              width: widthPx - marginLeft - MARGIN.right,
              height: heightPx - MARGIN.top - MARGIN.bottom,
            }}
          />
        )}
      />
    </Figure>
  );
}

function plotOf({ shown, reach: farthest }: Influences): PlotOptions {
  const reach = farthest * 1.1;
  return {
    height: shown.length * ROW_PX + 28,
    marginTop: MARGIN.top,
    marginBottom: MARGIN.bottom,
    marginRight: MARGIN.right,
    marginLeft: labelMarginPx(shown.map((i) => i.transect)),
    x: { domain: [-reach, reach], label: null },
    y: { type: 'band', domain: shown.map((i) => i.transect), label: null, padding: 0 },
    marks: [
      ruleY(shown, { y: 'transect', x1: 0, x2: 'change', stroke: 'var(--accent)', strokeWidth: 2 }),
      ruleX([0], { stroke: 'var(--quiet)' }),
      axisX({
        ticks: 5,
        tickSize: 0,
        label: null,
        tickFormat: (share: number) => changeText(share, 0),
      }),
      axisY({
        tickSize: 0,
        tickFormat: (s: string) => rowLabel(visible(s)),
        fill: 'var(--ink)',
        label: null,
      }),
    ],
  };
}
