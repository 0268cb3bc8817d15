/** shoalwise differences: what is printed, written and returned. Expected lines by hand. */

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { main } from '../../src/cli/main.ts';
import { baseSurvey, type Texts } from '../helpers/base-survey.ts';
import { setCell } from '../helpers/bend.ts';
import { testFolder } from '../helpers/folder.ts';
import { keepingTerminal } from './terminal.ts';

function folders() {
  const root = testFolder();
  const put = (name: string, texts: Texts): string => {
    const path = join(root, name);
    mkdirSync(path);
    for (const [file, text] of Object.entries(texts)) writeFileSync(join(path, file), text);
    return path;
  };
  const other = baseSurvey();
  setCell('transects.csv', 4, 'length_m', '31')(other);
  setCell('transects.csv', 3, 'notes', '=1+1')(other);
  return {
    ann: put('ann', baseSurvey()),
    ben: put('ben', other),
    again: put('again', baseSurvey()),
    root,
  };
}

describe('differences', () => {
  it('prints each on a line, writes them as a table, and returns 2', async () => {
    const { ann, ben, root } = folders();
    const terminal = keepingTerminal();
    const out = join(root, 'differences.csv');
    expect(await main(['differences', ann, ben, '--out', out], terminal)).toBe(2);
    expect(terminal.stdout.split('\n')).toEqual([
      'transects.csv row 3, notes (T2): blank | "=1+1"',
      'transects.csv row 4, length_m (T3): "30" | "31"',
      '2 differences in the tables.',
      '',
    ]);
    expect(readFileSync(out, 'utf8').split('\r\n')).toEqual([
      'table,row_1,row_2,about,column,value_1,value_2,changed_by',
      "transects.csv,3,3,T2,notes,,'=1+1,",
      'transects.csv,4,4,T3,length_m,30,31,',
      '',
    ]);
  });

  it('of the same are none, and it returns 0', async () => {
    const { ann, again } = folders();
    const terminal = keepingTerminal();
    expect(await main(['differences', ann, again], terminal)).toBe(0);
    expect(terminal.stdout).toBe('The two copies say the same.\n');
  });

  it('are of two folders, and a list of somebody else is not overwritten', async () => {
    const { ann, ben, root } = folders();
    const own = join(root, 'mine.csv');
    writeFileSync(own, 'a,b\n');
    for (const argv of [
      ['differences', ann],
      ['differences', ann, ben, '--out', own],
      ['differences', ann, ben, '--out', 'x.txt'],
    ]) {
      const terminal = keepingTerminal();
      expect(await main(argv, terminal)).toBe(64);
      expect(terminal.stdout).toBe('');
    }
  });
});
