/** Lengths in words of evidence and remarks. */

import { formatCount } from '../../../shared/units.ts';

/** `0.4 m`, `35 m`, `2.4 km`, `1,230 km` */
export function formatDistance(m: number): string {
  if (!Number.isFinite(m)) return 'no distance';
  if (m < 0.095) return `${Number(m.toPrecision(1))} m`;
  if (m < 9.95) return `${Number(m.toFixed(1))} m`;
  if (m < 995) return `${Math.round(m)} m`;
  return m < 99_500
    ? `${Number((m / 1000).toFixed(1))} km`
    : `${formatCount(Math.round(m / 1000))} km`;
}

/** `1 shape`, `1,200 shapes` */
export function counted(n: number, noun: string): string {
  return `${formatCount(n)} ${noun}${n === 1 ? '' : 's'}`;
}

/** With a capital and a full stop, as evidence and questions have it; names of files stay as they are. */
export function sentence(text: string): string {
  const begins = /^[a-z]+[ ,]/.test(text) ? text[0].toUpperCase() + text.slice(1) : text;
  return /[.?!]$/.test(begins) ? begins : `${begins}.`;
}
