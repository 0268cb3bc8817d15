/** `publish`: the map in one file beside whatever else lies there; what cannot be published is refused before it is computed. */

import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { main } from '../../src/cli/main.ts';
import { beltSurvey } from '../helpers/base-survey.ts';
import { testFolder } from '../helpers/folder.ts';
import { publicLake } from '../helpers/public-lake.ts';
import { keepingTerminal, namedCore } from './terminal.ts';

const room = testFolder();
const folder = join(room, 'good');
mkdirSync(folder);
for (const [file, text] of Object.entries(beltSurvey())) writeFileSync(join(folder, file), text);

async function run(...argv: string[]) {
  const terminal = keepingTerminal();
  const code = await main(['publish', ...argv], terminal, namedCore(publicLake));
  return { code, stdout: terminal.stdout, stderr: terminal.stderr };
}

describe('publish', () => {
  it('writes one file with its script, which runs by its hash, and replaces its own earlier one', async () => {
    const out = join(room, 'made', 'map.html');
    const done = await run(folder, '--out', out, '--contact', 'Lake office');
    expect(done).toMatchObject({ code: 0, stdout: `Written to ${out}\n` });
    const file = readFileSync(out, 'utf8');
    expect(file).toMatch(/script-src 'sha256-[A-Za-z0-9+/]{43}='/);
    expect(file).toContain('Lake office');
    const again = await run(folder, '--out', out, '--language', 'fr');
    expect(again.code).toBe(0);
    expect(again.stderr).toContain('No --contact was given');
    expect(readFileSync(out, 'utf8')).toContain('<html lang="fr-CA">');
    expect(readdirSync(join(room, 'made'))).toEqual(['map.html']);
  });

  it('leaves the file of somebody else alone, and says so before the estimate', async () => {
    const out = join(room, 'mine.html');
    writeFileSync(out, '<p>mine</p>');
    const done = await run(folder, '--out', out);
    expect(done.code).toBe(64);
    expect(done.stderr).toContain('none of ours');
    expect(readFileSync(out, 'utf8')).toBe('<p>mine</p>');
  });

  it.each([
    [['--out', 'map.pdf'], 'no name of an HTML file'],
    [['--out', 'map.html', '--coarsen', '5'], 'not a number from 10 to 10000'],
    [['--out', 'map.html', '--language', 'de'], 'none of en, es or fr'],
    [['--out', 'map.html', '--next-update', '2027-02-29'], 'is no day of the calendar'],
    [[], '--out FILE, --posters OUTDIR or --pictures OUTDIR is expected'],
  ])('refuses %j', async (argv, said) => {
    const done = await run(folder, ...argv);
    expect(done.code).toBe(64);
    expect(done.stderr).toContain(said);
  });

  it('needs an outline, and sound data', async () => {
    const out = join(room, 'none.html');
    const terminal = keepingTerminal();
    const bare = () => {
      const result = publicLake();
      result.lake.outline = null;
      return result;
    };
    expect(await main(['publish', folder, '--out', out], terminal, namedCore(bare))).toBe(2);
    expect(terminal.stderr).toContain("needs the lake's outline");
    const bad = join(room, 'bad');
    mkdirSync(bad);
    writeFileSync(join(bad, 'transects.csv'), '');
    expect((await run(bad, '--out', out)).code).toBe(2);
    expect(existsSync(out)).toBe(false);
  });
});
