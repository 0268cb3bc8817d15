/** Contours and the pattern of the bed lie over the density: a pixel may be a mixture, but never another class's. */
export function nearColour(wanted: string, got: string): boolean {
  const parts = (hex: string) => [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16));
  const [a, b] = [parts(wanted), parts(got)];
  return Math.hypot(...a.map((x, i) => x - b[i])) < 40;
}
