/** Which rope carries the answer: how the total would change without each of the most influential transects. */

import { axisX, axisY, type PlotOptions, ruleX, ruleY } from '@observablehq/plot';
import { useCallback, useMemo } from 'react';
import type { ModelChecks } from '../../../shared/result.ts';
import type { Transect } from '../../../shared/survey.ts';
import { visible } from '../../../shared/words.ts';
import { DataTable, Figure } from '../shell/ui.tsx';
import { PlotImage } from './PlotImage.tsx';
import { RopeControl } from './RopeControl.tsx';
import { type Influence, influences } from './residual-data.ts';
import { labelMarginPx, rowLabel } from './row-labels.ts';

const SHOWN = 8;
const ROW_PX = 22;
const MARGIN = { top: 2, right: 18, bottom: 26 };
/** The axis reaches this far at least, so that small changes look small. */
const LEAST_REACH = 0.1;

export function InfluencePlot({
  transects,
  checks,
  transect,
  onTransect,
}: {
  transects: readonly Transect[];
  checks: ModelChecks | null;
  transect: string | null;
  onTransect(transect: string | null): void;
}) {
  const seen = useMemo(() => influences(transects, checks, SHOWN), [transects, checks]);
  const draw = useCallback(() => plotOf(seen?.shown ?? []), [seen]);
  if (seen === null) return null;
  const { shown, others, othersWithin } = seen;
  const marginLeft = labelMarginPx(shown.map((i) => i.transect));
  return (
    <Figure
      title="Which rope carries the answer"
      alt={`Change of the lake's total without a transect, the largest first: ${shown
        .map((i) => `${visible(i.transect)} ${percent(i.change)}`)
        .join(', ')}.`}
      note={
        others === 0
          ? "Change of the lake's total if the rope had not been dived."
          : `Change of the lake's total if the rope had not been dived; the other ${others} change it by ${percent(othersWithin).replace('+', '')} at most.`
      }
      interactive
      table={
        <DataTable
          caption="Change of the total without a transect"
          captionHidden
          columns={[
            { title: 'Without', cell: (i: Influence) => visible(i.transect) },
            { title: 'Total changes by', align: 'right', cell: (i) => percent(i.change) },
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
          <RopeControl
            label="Transect left out"
            ropes={shown.map((i) => i.transect)}
            chosen={transect}
            onChoose={onTransect}
            words={(rope) => {
              const own = shown.find((i) => i.transect === rope);
              return own ? `without ${visible(rope)} ${percent(own.change)}` : visible(rope);
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

function plotOf(shown: Influence[]): PlotOptions {
  const reach = Math.max(LEAST_REACH, ...shown.map((i) => Math.abs(i.change))) * 1.1;
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
      axisX({ ticks: 5, tickSize: 0, label: null, tickFormat: percent }),
      axisY({
        tickSize: 0,
        tickFormat: (s: string) => rowLabel(visible(s)),
        fill: 'var(--ink)',
        label: null,
      }),
    ],
  };
}

/** `−6 %`, `+0.4 %` */
function percent(share: number): string {
  const x = Math.abs(share * 100);
  const text = x < 1 && x > 0 ? x.toFixed(1) : x.toFixed(0);
  return `${Number(text) === 0 ? '' : share < 0 ? '−' : '+'}${Number(text)} %`;
}
