/** A shift across a category, −0.5 to 0.5, that tells its points apart and is the same on every drawing. */
export function shiftOf(k: number): number {
  // multiples of the golden ratio fill an interval evenly
  return ((k * 0.6180339887498949) % 1) - 0.5;
}
