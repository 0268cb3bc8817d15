/**
 * Residuals of the segments: how many more or fewer clusters were found than expected, in standard units, against depth,
 * substrate or what was expected. A point lights its transect, and a transect its points.
 */

import { axisX, axisY, dot, type PlotOptions, ruleX } from '@observablehq/plot';
import { useCallback, useMemo, useState } from 'react';
import { extent } from '../../../shared/extent.ts';
import { label, term, terms } from '../../../shared/glossary.ts';
import { formatDepth, formatDigits } from '../../../shared/units.ts';
import { visible } from '../../../shared/words.ts';
import {
  largestResiduals,
  type ResidualPoint,
  type Residuals,
  residualGloss,
  residualsOfTransect,
  signedText,
} from '../../present/residuals.ts';
import type { Units } from '../contract.ts';
import { DataTable, Figure, Switch, unitSystem } from '../shell/ui.tsx';
import { lengthText, lengthTicks } from './axis-ticks.ts';
import { type PlotFrame, PlotImage } from './PlotImage.tsx';
import { labelMarginPx, rowLabel } from './row-labels.ts';
import { shiftOf } from './shift.ts';
import { TransectControl } from './TransectControl.tsx';

type Against = 'depth' | 'substrate' | 'expected';

const HEIGHT_PX = 280;
const MARGIN = { top: 6, right: 14, bottom: 26 };
/** A pointer this near to a point means it. */
const REACH_PX = 18;
/** Half of the band's height is left for the points' spread. */
const SPREAD = 0.7;
const LISTED = 10;

export function ResidualPlot({
  residuals,
  transect,
  onTransect,
  units,
}: {
  residuals: Residuals;
  /** the transect in focus */
  transect: string | null;
  onTransect(transect: string | null): void;
  units: Units;
}) {
  const [against, setAgainst] = useState<Against>('depth');
  const scene = useMemo(() => sceneOf(residuals, against), [residuals, against]);
  const draw = useCallback(() => plotOf(scene, units), [scene, units]);
  const wordsOf = (name: string) =>
    `${visible(name)}: ${residualsOfTransect(residuals, name) ?? 'no residuals'}`;
  return (
    <Figure
      title={`Residuals of the ${terms('segment')}`}
      alt={`Against ${WORDS[against]}: ${residuals.described}`}
      note={`To the right: more clusters than expected; to the left: fewer. ${residualGloss(residuals)}`}
      interactive
      table={
        <LargestTable
          points={largestResiduals(residuals, LISTED)}
          units={units}
          onTransect={onTransect}
          chosen={transect}
        />
      }
    >
      <div>
        <Switch<Against>
          label="Residuals against"
          value={against}
          options={[
            { value: 'depth', text: label('depth') },
            { value: 'substrate', text: label('substrate') },
            { value: 'expected', text: 'Expected' },
          ]}
          onChange={setAgainst}
        />
      </div>
      <PlotImage
        draw={draw}
        name={`Residuals of segments against ${WORDS[against]}; the largest are in the table below`}
        over={({ x, y }) =>
          scene.points
            .filter((p) => p.transect === transect)
            .map((p) => (
              <circle
                key={p.segment}
                cx={x.apply(p.residual)}
                cy={yOf(p, scene, y)}
                r={4.5}
                className="plot-lit"
              />
            ))
        }
        control={(frame) => (
          <TransectControl
            label={`${label('transect')} in the residuals`}
            transects={residuals.transects}
            chosen={transect}
            onChoose={onTransect}
            words={wordsOf}
            nearest={(xPx, yPx) => nearestPoint(scene, frame, xPx, yPx)}
            box={{
              left: scene.marginLeft,
              top: MARGIN.top,
              width: frame.widthPx - scene.marginLeft - MARGIN.right,
              height: HEIGHT_PX - MARGIN.top - MARGIN.bottom,
            }}
          />
        )}
      />
      <p className="plot-reading quiet">
        {transect !== null && residuals.transects.includes(transect) ? (
          wordsOf(transect)
        ) : (
          <span className="no-print">
            Point at a segment, or go through the transects with the arrow keys; the map and the
            table light the same one.
          </span>
        )}
      </p>
    </Figure>
  );
}

const WORDS: Record<Against, string> = {
  depth: term('depth'),
  substrate: term('substrate'),
  expected: `the ${terms('cluster')} expected`,
};

interface Scene {
  against: Against;
  points: (ResidualPoint & { shift: number })[];
  labels: string[];
  marginLeft: number;
  reach: number;
  limit: number;
}

function sceneOf({ points, substrates, reach, limit }: Residuals, against: Against): Scene {
  const labels = against === 'substrate' ? substrates : [];
  return {
    against,
    // an expectation of 0 has no place on a log axis
    points: points
      .filter((p) => against !== 'expected' || p.expected > 0)
      .map((p, k) => ({ ...p, shift: shiftOf(k) })),
    labels,
    marginLeft: against === 'substrate' ? labelMarginPx(labels) : 48,
    reach: reach * 1.05,
    limit,
  };
}

function plotOf(scene: Scene, units: Units): PlotOptions {
  const { against, points, labels, reach, limit } = scene;
  const deepestM = extent([1, ...points.map((p) => p.depthM)])[1];
  const ticks = lengthTicks(deepestM * 1.05, 7, units);
  const text = new Map(ticks.map((t) => [t.m, t.label]));
  const y: PlotOptions['y'] =
    against === 'depth'
      ? { domain: [0, deepestM * 1.05], reverse: true, label: null }
      : against === 'substrate'
        ? { type: 'band', domain: labels, label: null, padding: 0 }
        : { type: 'log', label: null, nice: true };
  const axis =
    against === 'depth'
      ? axisY(
          ticks.map((t) => t.m),
          { tickFormat: (m: number) => text.get(m) ?? '', tickSize: 0, label: null },
        )
      : against === 'substrate'
        ? axisY({ tickFormat: (s: string) => rowLabel(s), tickSize: 0, label: null })
        : axisY({
            ticks: 4,
            tickSize: 0,
            label: null,
            tickFormat: (d: number) => formatDigits(d, 1),
          });
  return {
    height: HEIGHT_PX,
    marginTop: MARGIN.top,
    marginRight: MARGIN.right,
    marginBottom: MARGIN.bottom,
    marginLeft: scene.marginLeft,
    x: { domain: [-reach, reach], label: null },
    y,
    marks: [
      ruleX([-limit, limit], { stroke: 'var(--quiet)', strokeDasharray: '3 4' }),
      ruleX([0], { stroke: 'var(--quiet)' }),
      against === 'substrate'
        ? points.map((p) => dotOf([p], 'substrate', p.shift))
        : dotOf(points, against === 'depth' ? 'depthM' : 'expected', 0),
      axisX({ ticks: 7, tickSize: 0, label: null, tickFormat: signedText }),
      axis,
    ].flat(),
  };

  function dotOf(rows: typeof points, channel: string, shift: number) {
    const bandPx = labels.length > 0 ? (HEIGHT_PX - MARGIN.top - MARGIN.bottom) / labels.length : 0;
    return dot(rows, {
      x: 'residual',
      y: channel,
      r: 2.5,
      stroke: 'var(--quiet)',
      strokeWidth: 1.2,
      dy: shift * bandPx * SPREAD,
    });
  }
}

function yOf(p: ResidualPoint & { shift: number }, scene: Scene, y: PlotFrame['y']): number {
  if (scene.against === 'depth') return y.apply(p.depthM);
  if (scene.against === 'expected') return y.apply(p.expected);
  const bandPx = (HEIGHT_PX - MARGIN.top - MARGIN.bottom) / Math.max(1, scene.labels.length);
  return y.apply(p.substrate) + y.bandwidth / 2 + p.shift * bandPx * SPREAD;
}

function nearestPoint(scene: Scene, frame: PlotFrame, xPx: number, yPx: number): string | null {
  let best: string | null = null;
  let reach = REACH_PX;
  for (const p of scene.points) {
    const distance = Math.hypot(frame.x.apply(p.residual) - xPx, yOf(p, scene, frame.y) - yPx);
    if (distance < reach) {
      reach = distance;
      best = p.transect;
    }
  }
  return best;
}

function LargestTable({
  points,
  units,
  chosen,
  onTransect,
}: {
  points: ResidualPoint[];
  units: Units;
  chosen: string | null;
  onTransect(transect: string): void;
}) {
  return (
    <DataTable
      caption={`The ${points.length} segments farthest from what the model expects`}
      columns={[
        { title: label('transect'), cell: (p: ResidualPoint) => visible(p.transect) },
        {
          title: `Along the ${term('transect')}`,
          cell: (p) => `${lengthText(p.fromM, units, 4)} to ${lengthText(p.toM, units, 4)}`,
        },
        { title: label('substrate'), cell: (p) => visible(p.substrate) },
        {
          title: label('depth'),
          align: 'right',
          cell: (p) => formatDepth(p.depthM, unitSystem(units)),
        },
        { title: 'Expected', align: 'right', cell: (p) => p.expectedText },
        { title: 'Residual', align: 'right', cell: (p) => p.residualText },
      ]}
      rows={points}
      keyOf={(p) => String(p.segment)}
      onRow={(p) => onTransect(p.transect)}
      isChosen={(p) => p.transect === chosen}
    />
  );
}
