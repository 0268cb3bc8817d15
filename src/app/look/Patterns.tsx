/** The map's patterns as SVG fills, so that a substrate looks alike on the map, in sections and in legends. */

import { HATCH, type Mark, type Pattern, patternFor } from './patterns.ts';

/** `<pattern>` of a substrate label; use inside <defs>, fill with url(#id). */
export function SubstratePattern({
  id,
  substrate,
  classes,
}: {
  id: string;
  substrate: readonly string[];
  classes: readonly string[];
}) {
  return <PatternFill id={id} pattern={patternFor(substrate, classes)} className="plot-mark" />;
}

/** What nobody searched. */
export function HatchPattern({ id }: { id: string }) {
  return <PatternFill id={id} pattern={HATCH} className="plot-hatch" />;
}

function PatternFill({
  id,
  pattern,
  className,
}: {
  id: string;
  pattern: Pattern;
  className: string;
}) {
  return (
    <pattern id={id} width={pattern.size} height={pattern.size} patternUnits="userSpaceOnUse">
      <g className={className} strokeWidth={pattern.strokeWidth}>
        {wrapped(pattern).map(({ mark, key }) => (
          <MarkShape key={key} mark={mark} />
        ))}
      </g>
    </pattern>
  );
}

/** Marks that cross the tile's edge come again on the other side. */
function wrapped({ marks, size }: Pattern): { mark: Mark; key: string }[] {
  return marks.flatMap((mark, i) =>
    [-size, 0, size].flatMap((dx) =>
      [-size, 0, size].map((dy) => ({ mark: moved(mark, dx, dy), key: `${i},${dx},${dy}` })),
    ),
  );
}

function moved(mark: Mark, dx: number, dy: number): Mark {
  if (mark.kind === 'line')
    return {
      ...mark,
      x1: mark.x1 + dx,
      y1: mark.y1 + dy,
      x2: mark.x2 + dx,
      y2: mark.y2 + dy,
    };
  return { ...mark, x: mark.x + dx, y: mark.y + dy };
}

function MarkShape({ mark }: { mark: Mark }) {
  if (mark.kind === 'line')
    return <line x1={mark.x1} y1={mark.y1} x2={mark.x2} y2={mark.y2} className="stroke" />;
  return (
    <circle
      cx={mark.x}
      cy={mark.y}
      r={mark.r}
      className={mark.kind === 'ring' ? 'stroke' : 'fill'}
    />
  );
}
