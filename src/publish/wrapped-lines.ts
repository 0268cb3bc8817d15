/** Text broken into lines for an SVG, which breaks none by itself. Letters are measured by kind, wide rather than narrow. */

/** Mean widths in ems of the letters of common sans and serif faces, the widest of them (DejaVu) counted. */
const WIDTHS: [RegExp, number][] = [
  [/[ijl.,;:'’|!()[\]]/, 0.34],
  [/[frt\s-]/, 0.4],
  [/[mwMW@%—]/, 0.95],
  [/\p{Lu}/u, 0.75],
  [/\d/, 0.64],
];
const OTHER = 0.62;

/** Roughly how wide a text is, ems. */
export function widthEm(text: string): number {
  let sum = 0;
  for (const letter of text) sum += WIDTHS.find(([kind]) => kind.test(letter))?.[1] ?? OTHER;
  return sum;
}

/** Broken at spaces that may be broken at; a word that is longer than a line has one of its own. */
export function wrappedLines(text: string, mostEm: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/[ \n]+/)) {
    const last = lines.at(-1);
    if (last !== undefined && widthEm(`${last} ${word}`) <= mostEm)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
