/** Directories of a TIFF file: tags with their values. (TIFF 6.0, Adobe 1992.) */

/** TIFF field types and their sizes in bytes. */
const TYPES = { ascii: 2, short: 3, long: 4, double: 12 } as const;
const SIZES = { 2: 1, 3: 2, 4: 4, 12: 8 } as const;

export interface Field {
  tag: number;
  type: (typeof TYPES)[keyof typeof TYPES];
  values: number[];
}

export const short = (tag: number, values: number[]): Field => ({ tag, type: TYPES.short, values });
export const long = (tag: number, values: number[]): Field => ({ tag, type: TYPES.long, values });
export const double = (tag: number, values: number[]): Field => ({
  tag,
  type: TYPES.double,
  values,
});
export const ascii = (tag: number, text: string): Field => ({
  tag,
  type: TYPES.ascii,
  values: [...new TextEncoder().encode(text), 0],
});

/** Bytes of a directory together with the values that do not fit into it. */
export function directoryBytes(fields: readonly Field[]): number {
  return 2 + fields.length * 12 + 4 + fields.reduce((sum, field) => sum + outOfLine(field), 0);
}

/**
 * Writes a directory, and right behind it the values that do not fit into it.
 * @param at where it begins, an even number
 * @param next where the next directory begins; 0 after the last one
 * @param little little-endian bytes
 */
export function writeDirectory(
  view: DataView,
  at: number,
  fields: readonly Field[],
  { next, little }: { next: number; little: boolean },
): void {
  const sorted = [...fields].sort((a, b) => a.tag - b.tag);
  view.setUint16(at, sorted.length, little);
  let free = at + 2 + sorted.length * 12 + 4;
  sorted.forEach((field, i) => {
    const entry = at + 2 + i * 12;
    view.setUint16(entry, field.tag, little);
    view.setUint16(entry + 2, field.type, little);
    view.setUint32(entry + 4, field.values.length, little);
    const extra = outOfLine(field);
    if (extra > 0) view.setUint32(entry + 8, free, little);
    writeValues(view, extra > 0 ? free : entry + 8, field, little);
    free += extra;
  });
  view.setUint32(at + 2 + sorted.length * 12, next, little);
}

function writeValues(view: DataView, at: number, { type, values }: Field, little: boolean): void {
  const size = SIZES[type];
  values.forEach((value, i) => {
    const offset = at + i * size;
    if (type === TYPES.ascii) view.setUint8(offset, value);
    else if (type === TYPES.short) view.setUint16(offset, value, little);
    else if (type === TYPES.long) view.setUint32(offset, value, little);
    else view.setFloat64(offset, value, little);
  });
}

/** Bytes outside of the directory: none when the values fit into 4, else a multiple of 8. */
function outOfLine({ type, values }: Field): number {
  const bytes = values.length * SIZES[type];
  return bytes <= 4 ? 0 : Math.ceil(bytes / 8) * 8;
}
