/** The public map's style sheet: light and dark, phone and desk, paper; system fonts, no rule that fetches anything. */

import { mix, RAMP, rgbOf, toHex } from '../present/ramp.ts';

interface Theme {
  paper: string;
  panel: string;
  ink: string;
  quiet: string;
  line: string;
  accent: string;
  land: string;
  /** water at the shore and at its deepest */
  shallow: string;
  deep: string;
  detected: string;
  /** around marks, so that they stand out from any water */
  halo: string;
}

export const LIGHT = {
  paper: '#f7f5ef',
  panel: '#fffdf8',
  ink: '#1c2733',
  quiet: '#55616e',
  line: '#d9d4c7',
  accent: '#0f5f6b',
  land: '#f3f1ea',
  shallow: '#e9f1f2',
  deep: '#7aa3b3',
  detected: RAMP.light[4],
  halo: '#fffdf8',
} satisfies Theme;

const DARK: Theme = {
  paper: '#12181f',
  panel: '#19212a',
  ink: '#eef1f0',
  quiet: '#a9b4bd',
  line: '#33404c',
  accent: '#6cc5cf',
  land: '#191f24',
  shallow: '#40606d',
  deep: '#152833',
  detected: RAMP.dark[4],
  halo: '#12181f',
};

/** Of `shades` shades of depth, the shallowest first. */
function depthColours(shades: number, { shallow, deep }: Theme): string[] {
  return Array.from({ length: shades }, (_, i) =>
    toHex(mix(rgbOf(deep), rgbOf(shallow), shades === 1 ? 0 : i / (shades - 1))),
  );
}

function variables(theme: Theme, shades: number): string {
  const own = Object.entries(theme).map(([name, value]) => `--${name}: ${value};`);
  const depths = depthColours(shades, theme).map((colour, i) => `--depth-${i}: ${colour};`);
  return [...own, ...depths].join(' ');
}

/** The light theme's colours as variables of a style sheet. */
export const lightVariables = (shades: number): string => variables(LIGHT, shades);

/** Rules with the light theme's colours in place of its variables, for pictures that other programs open. */
export function withLightColours(rules: string, shades: number): string {
  const colours = new Map<string, string>([
    ...Object.entries(LIGHT),
    ...depthColours(shades, LIGHT).map((colour, i): [string, string] => [`depth-${i}`, colour]),
  ]);
  return rules.replace(
    /var\(--([a-z0-9-]+)\)/g,
    (whole, name: string) => colours.get(name) ?? whole,
  );
}

/** What the drawing and the signs of its key look like, by the variables of a theme. */
export function drawingStyle(shades: number): string {
  const depths = Array.from(
    { length: shades },
    (_, i) => `.depth-${i} { fill: var(--depth-${i}); }`,
  );
  return `${depths.join('\n')}
.shore { fill: none; stroke: var(--ink); stroke-width: 1.6; stroke-linejoin: round; vector-effect: non-scaling-stroke; }
.hatch-lines { fill: none; stroke: var(--ink); stroke-width: 0.8; stroke-opacity: 0.42; }
.edge { fill: none; stroke: var(--ink); stroke-width: 1.4; stroke-dasharray: 6 4; vector-effect: non-scaling-stroke; }
.edge-band { fill: none; stroke: var(--accent); stroke-width: 13; stroke-opacity: 0.24; vector-effect: non-scaling-stroke; }
.sign .edge-band { stroke-width: 9; }
.line { fill: none; stroke: var(--ink); stroke-width: 2; stroke-linecap: round; vector-effect: non-scaling-stroke; }
.square { fill: var(--halo); fill-opacity: 0.3; stroke: var(--ink); stroke-width: 1; vector-effect: non-scaling-stroke; }
.mark { vector-effect: non-scaling-stroke; }
.mark.detected { fill: var(--detected); stroke: var(--halo); stroke-width: 1.8; }
.mark.not-detected { fill: var(--halo); stroke: var(--ink); stroke-width: 2.2; }`;
}

/** @param shades of depth */
export function publicStyle(shades: number): string {
  return `:root { color-scheme: light dark; ${variables(LIGHT, shades)} }
@media screen and (prefers-color-scheme: dark) { :root { ${variables(DARK, shades)} } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 17px/1.5 system-ui, "Segoe UI", "Helvetica Neue", Arial, sans-serif; font-variant-numeric: tabular-nums; overflow-wrap: break-word; }
main { display: grid; background: var(--panel); grid-template-columns: minmax(380px, 480px) minmax(0, 1fr); grid-template-rows: auto 1fr; }
#head, #side { padding: 0 28px; }
#head { padding-top: 20px; }
#side { padding-bottom: 48px; }
#map-place { grid-column: 2; grid-row: 1 / span 2; position: sticky; top: 0; height: 100vh; border-left: 1px solid var(--line); }
h1 { margin: 0 0 12px; font: 400 18px/1.35 Georgia, "Times New Roman", serif; color: var(--quiet); }
.lead { margin: 0 0 12px; font: 400 27px/1.3 Georgia, "Times New Roman", serif; }
.holds { margin: 0 0 8px; }
h2 { margin: 28px 0 8px; padding-top: 12px; border-top: 1px solid var(--line); font-size: 18px; font-weight: 600; }
h3 { margin: 14px 0 4px; font-size: 15px; font-weight: 600; }
.note { margin: 8px 0; color: var(--quiet); font-size: 15px; }
.key { display: grid; gap: 6px 16px; margin: 0; padding: 0; list-style: none; }
.key.depths { grid-template-columns: repeat(auto-fill, minmax(220px, 1fr)); font-size: 15px; }
.key li { display: flex; align-items: center; gap: 10px; }
.sign { flex: none; overflow: hidden; border-radius: 2px; }
.sign rect { stroke: var(--quiet); stroke-width: 0.6; }
.todo { margin: 8px 0; padding-left: 20px; }
.todo li { margin: 6px 0; }
dl { margin: 0; }
dl div { margin: 0 0 8px; }
dt { color: var(--quiet); font-size: 15px; }
dd { margin: 0; white-space: pre-line; }
.scroll { overflow-x: auto; margin: 8px 0 20px; }
table { min-width: 100%; border-collapse: collapse; font-size: 15px; }
caption { padding-bottom: 4px; text-align: left; color: var(--quiet); }
th, td { padding: 5px 14px 5px 0; white-space: nowrap; border-bottom: 1px solid var(--line); text-align: left; vertical-align: top; font-weight: 400; }
thead th { color: var(--quiet); white-space: normal; vertical-align: bottom; }
#languages { display: flex; gap: 4px; padding: 0 0 14px; }
button { min-height: 40px; padding: 6px 12px; border: 1px solid var(--line); border-radius: 4px; background: var(--panel); color: var(--ink); font: inherit; font-size: 15px; cursor: pointer; }
button[aria-pressed="true"] { border-color: var(--accent); color: var(--accent); font-weight: 600; }
:focus-visible { outline: 3px solid var(--accent); outline-offset: 2px; }
#map { position: absolute; inset: 0; overflow: hidden; background: var(--land); cursor: grab; touch-action: pan-y; user-select: none; }
#map:focus-visible { outline-offset: -3px; }
#lake { display: block; width: 100%; height: 100%; }
${drawingStyle(shades)}
#places .mark { r: calc(var(--unit) * var(--mark) * 1px); }
#cross { position: absolute; left: 50%; top: 50%; width: 26px; height: 26px; margin: -13px 0 0 -13px; pointer-events: none; visibility: hidden; }
#map:focus-visible #cross { visibility: visible; }
#cross path, #pin { fill: none; stroke: var(--ink); stroke-width: 2; vector-effect: non-scaling-stroke; }
#pin { visibility: hidden; stroke-width: 3; r: calc(var(--unit) * (var(--mark) + 5) * 1px); }
#tools { position: absolute; top: 12px; right: 12px; display: grid; gap: 6px; }
#tools button { min-width: 44px; min-height: 44px; padding: 0 10px; font-size: 20px; line-height: 1; }
#tools svg { display: block; margin: auto; }
summary { padding: 8px 0; cursor: pointer; }
#foot { position: absolute; left: 12px; bottom: 10px; display: flex; align-items: end; gap: 16px; padding: 3px 8px; border-radius: 4px; background: color-mix(in srgb, var(--panel) 85%, transparent); font-size: 14px; pointer-events: none; }
#bar { height: 7px; border: solid var(--ink); border-width: 0 1.5px 1.5px; }
#hint { position: absolute; left: 12px; top: 12px; max-width: calc(100% - 140px); padding: 4px 10px; border-radius: 4px; background: color-mix(in srgb, var(--panel) 85%, transparent); font-size: 14px; color: var(--quiet); pointer-events: none; }
#card { position: absolute; left: 12px; right: 12px; bottom: 48px; max-width: 420px; padding: 12px 52px 12px 16px; border: 1px solid var(--line); border-radius: 4px; background: var(--panel); }
#card p { margin: 0 0 6px; }
#card button { position: absolute; top: 4px; right: 4px; min-width: 40px; border-color: transparent; background: none; font-size: 20px; line-height: 1; }
html:not(.scripted) .script-only, [hidden] { display: none !important; }
@media screen and (max-width: 899px) {
  main { display: block; }
  #head, #side { padding-left: 18px; padding-right: 18px; }
  #head { padding-bottom: 12px; }
  .lead { font-size: 23px; }
  #map-place { position: relative; height: 66vh; min-height: 320px; border: solid var(--line); border-width: 1px 0; }
  #side > :first-child h2:first-child { border: 0; margin-top: 10px; }
}
@media screen and (max-width: 560px) {
  th, td { padding-right: 8px; white-space: normal; }
  td:last-child { padding-right: 0; }
}
@media print {
  @page { margin: 14mm; }
  body, #head, #side { background: #fff; font-size: 10pt; }
  main { display: block; }
  #head, #side { padding: 0; }
  #map-place { position: relative; height: 110mm; border: 1px solid var(--line); break-inside: avoid; }
  .lead { font-size: 17pt; }
  .note, table, dt, .key.depths { font-size: 9pt; }
  .key { grid-template-columns: 1fr 1fr; }
  body { print-color-adjust: exact; }
  #languages, #tools, #hint, #cross, #card { display: none !important; }
  h2 { break-after: avoid; }
  tr, li { break-inside: avoid; }
}`;
}
