/** Numbers that people find round: 1, 2 or 5 times a power of ten. */

const ROUND = [1, 2, 5, 10];

/** Values from 0 (or a multiple below `from`) by round steps, the last at or above `to`: at most `most` steps. */
export function roundSteps(from: number, to: number, most: number): number[] {
  const rough = (to - from) / most;
  const power = powerBelow(rough);
  const least = rough * (1 - 1e-9);
  const step = (ROUND.find((s) => s * power >= least) ?? 10) * power;
  const first = Math.floor(from / step + 1e-9);
  const last = Math.ceil(to / step - 1e-9);
  return Array.from({ length: last - first + 1 }, (_, i) =>
    Number(((first + i) * step).toPrecision(12)),
  );
}

/** The greatest round number that is not above `most`, which is above 0. */
export function roundBelow(most: number): number {
  const power = powerBelow(most);
  return ([5, 2].find((k) => k * power <= most) ?? 1) * power;
}

const powerBelow = (x: number): number => 10 ** Math.floor(Math.log10(x));
