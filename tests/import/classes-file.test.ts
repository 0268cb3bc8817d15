/** Classes that a sheet keeps under their own names reach the choices of the survey. Expected values by hand. */

import { describe, expect, it } from 'vitest';
import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import type { Answer, ImportedRow } from '../../shared/importing.ts';
import { classesFile } from '../../src/import/classes-file.ts';
import { importGiven, readGivenFiles } from '../../src/pipeline.ts';
import { baseSurvey } from '../helpers/base-survey.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const text = (kept: Uint8Array) => new TextDecoder().decode(kept);
const rows = (...classes: string[]): ImportedRow[] =>
  classes.map((substrate, i) => ({ cells: { substrate }, place: `bed.csv row ${i + 2}` }));

describe('the choices of a survey', () => {
  it('list classes that its sheets have and they lack, each once, behind their own', () => {
    const kept = bytes('{"lake": "Minnow Pond", "substrates": ["Mud", "sand"]}');
    const made = classesFile(rows('mud', 'tree bark+sand', 'tree bark', '', 'Sand'), kept);
    expect(JSON.parse(text(made!.file.bytes))).toEqual({
      lake: 'Minnow Pond',
      substrates: ['Mud', 'sand', 'tree bark'],
    });
    expect(made!.remark).toContain('"tree bark"');
  });

  it.each([
    ['lack no class', rows('mud', 'sand+gravel'), undefined],
    ['cannot be read', rows('tree bark'), '{"substrates": '],
    ['hold no list of classes', rows('tree bark'), '{"substrates": 3}'],
    ['are no object', rows('tree bark'), '[]'],
  ])('are left as they are where they %s', (_, habitat, kept) => {
    expect(classesFile(habitat, kept === undefined ? undefined : bytes(kept))).toBeNull();
  });
});

/** The tables of ours, with the habitat as another's sheet in which each sand is `tree bark`. */
async function broughtIn(more: Record<string, string> = {}) {
  const { 'habitat.csv': habitat, ...others } = baseSurvey();
  const sheet = habitat
    .replace(/^.*\n/, 'Transect,Mark (m),Bottom,Plants 0-4,Depth (m)\n')
    .replaceAll(',sand,', ',tree bark,');
  expect(sheet).toContain(',tree bark,');
  const files = { ...others, 'bed notes.csv': sheet, ...more };
  const given = await readGivenFiles(
    Object.entries(files).map(([name, content]) => ({ name, bytes: bytes(content) })),
  );
  const asked = { answers: new Map<string, Answer>(), acceptCertain: true };
  const first = await importGiven(given, { ...asked, accepted: new Set() }, 'pond');
  const accepted = new Set(first.questions.map(({ question }) => question.id));
  return importGiven(given, { ...asked, accepted }, 'pond');
}

describe('a sheet with a class of its own', () => {
  it('becomes a survey whose checks know it', async () => {
    const { files, judged } = await broughtIn();
    const { substrates } = JSON.parse(text(files!.get('analysis.json')!));
    expect(substrates).toEqual([...DEFAULT_ANALYSIS.substrates, 'tree bark']);
    expect(text(files!.get('habitat.csv')!)).toContain(',tree bark,');
    expect(judged!.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('keeps the other choices that came beside it', async () => {
    const { files } = await broughtIn({ 'analysis.json': '{"interval": 0.9}' });
    expect(JSON.parse(text(files!.get('analysis.json')!))).toMatchObject({ interval: 0.9 });
  });
});
