/** shoalwise sheets DIR --out sheets.html: sheets to print and take under water, for planned transects and blank. */

import { TRANSECTS } from '../../shared/tables.ts';
import { formatCount } from '../../shared/units.ts';
import { fieldSheets, type SheetsAsked } from '../present/field-sheets.ts';
import { fieldSheetsHtml, type Paper, SHEETS_MARK } from '../publish/field-sheets.ts';
import { type Core, EXIT, type Terminal, UsageError, worst } from './core.ts';
import { eachFolder } from './each-folder.ts';
import { printFindings } from './finding-lines.ts';
import { refuseOthers, writeFiles } from './write-files.ts';

export interface SheetsCommand {
  folder: string;
  out: string;
  paper: Paper;
  /** `blank` null: one where nothing is planned, else none */
  sheets: Omit<SheetsAsked, 'blank'> & { blank: number | null };
}

/** Throws UsageError before anything is read when a file of somebody else lies where the sheets would be written. */
export async function sheets(
  core: Core,
  terminal: Terminal,
  { folder: path, out, paper, sheets: asked }: SheetsCommand,
): Promise<number> {
  await refuseOthers([out], SHEETS_MARK);
  const visits = await eachFolder([path], terminal, async ({ files, name }, { prefix }) => {
    const { survey, findings } = core.readPlanned(files, name);
    printFindings(findings, terminal, prefix, true);
    if (findings.length > 0) return { code: EXIT.data, value: null };
    const planned = survey.planned.length;
    const blank = asked.blank ?? (planned === 0 ? 1 : 0);
    if (planned + blank === 0)
      throw new UsageError(
        `${prefix}${TRANSECTS.file}: no row is planned (a row without a date) and --blank is 0: there is no sheet to print`,
      );
    const read = fieldSheets(survey, { ...asked, blank });
    await writeFiles(new Map([[out, fieldSheetsHtml(read, paper)]]));
    terminal.out(
      `Sheets of ${formatCount(planned)} planned and ${formatCount(blank)} blank transects written to ${out}\n`,
    );
    return { code: EXIT.done, value: null };
  });
  return worst(visits.map((v) => v.code));
}
