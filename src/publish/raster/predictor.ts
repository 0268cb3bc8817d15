/** Floating-point cells rearranged so that they can be made small. */

const BYTES_A_CELL = 4;

/**
 * The bytes of each row by their weight, the heaviest of all cells first, and each as its difference from the one before:
 * neighbouring cells have like signs and exponents, which then are runs of zeros. (Adobe Photoshop TIFF technical note 3.)
 * @param width cells of a row
 */
export function predicted(cells: Float32Array, width: number): Uint8Array<ArrayBuffer> {
  const bits = new Uint32Array(cells.buffer, cells.byteOffset, cells.length);
  const bytes = new Uint8Array(cells.length * BYTES_A_CELL);
  for (let first = 0; first < cells.length; first += width) {
    let at = first * BYTES_A_CELL;
    let before = 0;
    for (let shift = 24; shift >= 0; shift -= 8)
      for (let i = first; i < first + width; i++) {
        const byte = (bits[i] >>> shift) & 255;
        bytes[at++] = byte - before;
        before = byte;
      }
  }
  return bytes;
}
