/** Finds in a source its named numbers. */

export interface Constant {
  name: string;
  /** from the root of the repository */
  file: string;
  /** as written, on one line */
  value: string;
}

/** Constants of the top level in capitals whose value is a number, or a list or record of numbers. */
export function constantsOf(file: string, source: string): Constant[] {
  const statement = /^(?:export )?const ([A-Z][A-Z0-9_]*)(?:: [^=]+)? = ([^;]+);/gm;
  return [...source.matchAll(statement)].flatMap(([, name = '', written = '']) => {
    const value = onOneLine(written.replace(/ as const$/, ''));
    return isNumeric(value) ? [{ name, file, value }] : [];
  });
}

function onOneLine(text: string): string {
  return text
    .replace(/\s*\/\/.*$/gm, '')
    .replace(/\s+/g, ' ')
    .replace(/\[ /g, '[')
    .replace(/,? \]/g, ']')
    .trim();
}

/** Digits, signs and brackets; names only as keys of a record and in Math. */
function isNumeric(value: string): boolean {
  const bare = value.replace(/\bMath\.\w+/g, '').replace(/\b[a-zA-Z]\w*:/g, '');
  return /\d/.test(bare) && /^[\d\s.,eEn_+\-*/()[\]{}xa-f]*$/.test(bare);
}
