/** A drawing for the empty page: a leaded rope on the bed from the shore down, and clusters along it. */

/** The bed falls from the left as a bowl does; in drawing units. */
function bedAt(x: number): number {
  return 80 + 190 * (1 - Math.exp(-(((x - 30) / 260) ** 1.4)));
}

const STEPS = Array.from({ length: 61 }, (_, i) => 30 + i * 10);
const MARKS = Array.from({ length: 24 }, (_, i) => 84 + i * 20);
/** Where clusters lie and how large they are. */
const CLUSTERS: [x: number, r: number][] = [
  [168, 4],
  [214, 6],
  [232, 9],
  [262, 5],
  [301, 7],
  [322, 4],
  [398, 5],
  [452, 3.5],
];

export function RopeOnBed() {
  const line = (from: number, to: number) =>
    STEPS.filter((x) => x >= from && x <= to)
      .map((x, i) => `${i === 0 ? 'M' : 'L'}${x} ${bedAt(x).toFixed(1)}`)
      .join('');
  const bed = line(30, 630);
  return (
    <div className="rope-on-bed" aria-hidden="true">
      <svg viewBox="0 0 672 330" fill="none" aria-hidden="true">
        <path d={`${bed}L630 66L30 66Z`} fill="var(--water)" />
        <path d="M10 66H650" stroke="var(--quiet)" strokeWidth="1" />
        <path d={`M10 58L${bed.slice(1)}`} stroke="var(--ink)" strokeWidth="2" />
        <path d={line(80, 550)} stroke="var(--rope)" strokeWidth="4" transform="translate(0 -4)" />
        {MARKS.map((x) => (
          <path key={x} d={`M${x} ${bedAt(x) - 9}v9`} stroke="var(--rope)" strokeWidth="2" />
        ))}
        {CLUSTERS.map(([x, r]) => (
          <circle
            key={x}
            cx={x}
            cy={bedAt(x) - 5 - r}
            r={r}
            fill="var(--panel)"
            stroke="var(--ink)"
            strokeWidth="2"
          />
        ))}
        {[1, 2, 3, 4].map((metre) => (
          <g key={metre}>
            <path d={`M630 ${66 + metre * 50}h8`} stroke="var(--quiet)" />
            <text x="642" y={71 + metre * 50} fontSize="12" fill="var(--quiet)">
              {metre * 2} m
            </text>
          </g>
        ))}
      </svg>
    </div>
  );
}
