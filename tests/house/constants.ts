/** Finds in a source its named numbers, and what its comments say of the method. */

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
    .replace(/, \}/g, ' }')
    .trim();
}

/** Digits, signs and brackets; names only as keys of a record and in Math. */
function isNumeric(value: string): boolean {
  const bare = value.replace(/\bMath\.\w+/g, '').replace(/\b[a-zA-Z]\w*:/g, '');
  return /\d/.test(bare) && /^[\d\s.,eEn_+\-*/()[\]{}xa-f]*$/.test(bare);
}

/** Headings that a source's comments point to, and references of theirs that point nowhere. */
export function referencesOf(source: string): { headings: string[]; bare: string[] } {
  const text = commentsOf(source);
  const pointed = /METHOD\.md: ([^;)\n]+)[;)]/g;
  // Newton's method, the delta method and the like are no references
  const bare = /(?<!['’]s |\b(?:delta|polar|every) )\bmethod(?::|,? \d)[^.;)\n]*/gi;
  return {
    headings: [...text.matchAll(pointed)].map((m) => (m[1] ?? '').trim()),
    bare: [...text.matchAll(bare)].map((m) => m[0].trim()),
  };
}

/** First author and year of every paper that a source's comments cite. */
export function papersOf(source: string): { author: string; year: string }[] {
  const name = "\\p{Lu}[\\p{L}’'-]+";
  const cited = new RegExp(
    `(${name})(?:, ${name})*(?: & ${name})?(?: et al\\.)?,? \\(?((?:19|20)\\d\\d)\\b`,
    'gu',
  );
  return [...commentsOf(source).matchAll(cited)]
    .map(([, author = '', year = '']) => ({ author, year }))
    .filter(({ author }) => !MONTHS.has(author));
}

const MONTHS = new Set([
  ...['January', 'February', 'March', 'April', 'May', 'June', 'July'],
  ...['August', 'September', 'October', 'November', 'December'],
]);

/** A comment a line. */
function commentsOf(source: string): string {
  return [...source.matchAll(/\/\*[\s\S]*?\*\/|(?:^\s*|\s)\/\/.*$/gm)]
    .map(([comment]) => comment.replace(/\n\s*\*? ?/g, ' '))
    .join('\n')
    .replace(/[ \t]+/g, ' ');
}
