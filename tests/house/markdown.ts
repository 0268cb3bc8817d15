/** Reads of a Markdown page what the house tests follow: headings, links, tables. Code blocks are passed over. */

/** The page's lines outside of fenced code. */
function linesOf(page: string): string[] {
  let fenced = false;
  return page.split('\n').filter((line) => {
    if (line.startsWith('```')) {
      fenced = !fenced;
      return false;
    }
    return !fenced;
  });
}

/** Texts of all headings, in order. */
export function headingsOf(page: string): string[] {
  return linesOf(page).flatMap((line) => /^#+ (.+)$/.exec(line)?.[1]?.trim() ?? []);
}

/** The fragment under which a heading is reached: lower case, blanks to hyphens, other signs dropped. */
export function fragmentOf(heading: string): string {
  return heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N} _-]/gu, '')
    .replaceAll(' ', '-');
}

/** Targets of all links and pictures, in order. */
export function linksOf(page: string): string[] {
  return linesOf(page).flatMap((line) =>
    [...line.matchAll(/\]\(([^()\s]+)\)/g)].map((m) => m[1] ?? ''),
  );
}

/** Rows of every table whose first heading is `first`: their cells, trimmed. A `\|` in a cell is a `|`. */
export function tableRows(page: string, first: string): string[][] {
  const rows: string[][] = [];
  let inside = false;
  for (const line of linesOf(page)) {
    const cells = line.startsWith('|') ? cellsOf(line) : null;
    if (cells === null) inside = false;
    else if (cells[0] === first) inside = true;
    else if (inside && !/^-+$/.test(cells[0] ?? '')) rows.push(cells);
  }
  return rows;
}

function cellsOf(line: string): string[] {
  return line
    .replace(/^\||\|$/g, '')
    .split(/(?<!\\)\|/)
    .map((cell) => cell.trim().replaceAll('\\|', '|'));
}
