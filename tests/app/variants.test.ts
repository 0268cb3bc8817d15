/** Variants in the open survey: kept, renamed, removed and taken back without a run; adopted in one change. */

import { describe, expect, it } from 'vitest';
import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { parseVariants, VARIANTS_FILE } from '../../shared/variants.ts';
import type { Work } from '../../src/app/contract.ts';
import { ANALYSIS_FILE, WHOLE_FILE, withChoices } from '../../src/app/state/edits.ts';
import { initialState, type PageState, reduce } from '../../src/app/state/reducer.ts';
import {
  keepVariant,
  nameProblem,
  removeVariant,
  renameVariant,
  type VariantEdit,
} from '../../src/app/state/variant-edits.ts';
import type { KeptStudy } from '../../src/app/study-contract.ts';
import { fingerprint } from '../../src/read/fingerprint.ts';
import { readVariants } from '../../src/read/variants.ts';
import { handMadeResult } from '../helpers/result.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const textOf = ({ work }: PageState, file: string) =>
  new TextDecoder().decode(work?.files.get(file) ?? bytes(''));
const at = '2026-07-01T00:00:00Z';
const choices = { 'density.family': 'poisson' } as const;
const ANALYSIS =
  '{"lake": "Pond", "density": {"depth": "linear", "depth_df": 3}, "substrates": ["mud"]}';
const opened = (files: [string, string][] = []): PageState => {
  const work: Work = {
    name: 'pond',
    files: new Map([
      ['transects.csv', bytes('transect\nT1\n')],
      [ANALYSIS_FILE, bytes(ANALYSIS)],
      ...files.map(([name, text]): [string, Uint8Array] => [name, bytes(text)]),
    ]),
    edits: [],
  };
  const state = reduce(initialState('metric', 'light', false, 'density'), {
    type: 'open',
    work,
    id: 'pond',
  });
  return { ...state, run: { state: 'idle' } };
};
const listOf = (state: PageState) => parseVariants(textOf(state, VARIANTS_FILE)).variants;
const namesOf = (state: PageState) => listOf(state).map((v) => v.name);
const make = (state: PageState, edit: VariantEdit) =>
  reduce(state, { type: 'edit', edit: { ...edit, at } });
const keep = (state: PageState, name: string) =>
  make(
    state,
    keepVariant(listOf(state), textOf(state, VARIANTS_FILE), { name, choices, outcome: null }),
  );
const undo = (state: PageState) => reduce(state, { type: 'undo' });

describe('variants of the open survey', () => {
  it('are kept, renamed and removed, and each is taken back, without another estimate', () => {
    const start = opened();
    const two = keep(keep(start, 'A'), 'B');
    expect(namesOf(two)).toEqual(['A', 'B']);
    const renamed = make(two, renameVariant(listOf(two)[0], 'C'));
    expect(namesOf(renamed)).toEqual(['C', 'B']);
    const removed = make(renamed, removeVariant(listOf(renamed)[0]));
    expect(namesOf(removed)).toEqual(['B']);
    expect([removed.run.state, removed.asked]).toEqual(['idle', start.asked]);
    expect(namesOf(undo(removed))).toEqual(['C', 'B']);
    expect(namesOf(reduce(undo(removed), { type: 'redo' }))).toEqual(['B']);
    const back = undo(undo(undo(undo(removed))));
    expect(back.work?.files.has(VARIANTS_FILE)).toBe(false);
  });

  it('one of the same name is replaced, in its place', () => {
    const state = keep(keep(keep(opened(), 'A'), 'B'), 'A');
    expect(namesOf(state)).toEqual(['A', 'B']);
    expect(nameProblem('B', listOf(state), 'A')).toBe('"B" is kept already.');
    expect(nameProblem('A', listOf(state), 'A')).toBeNull();
  });

  it('entries that cannot be read stay as they are; into a file that is none nothing is written', () => {
    const odd = '{"schema": "shoalwise/variants/1", "variants": [{"mine": 1}]}';
    const kept = keep(opened([[VARIANTS_FILE, odd]]), 'A');
    expect(JSON.parse(textOf(kept, VARIANTS_FILE)).variants[0]).toEqual({ mine: 1 });
    expect(listOf(kept)).toMatchObject([{ name: 'A', place: 2 }]);
    expect(textOf(undo(kept), VARIANTS_FILE)).toBe(`${JSON.stringify(JSON.parse(odd), null, 2)}\n`);
    const broken = opened([[VARIANTS_FILE, '{']]);
    const edit = { ...removeVariant({ name: 'A', choices, outcome: null, place: 1 }), at };
    const refused = reduce(broken, { type: 'edit', edit });
    expect(refused.trouble).toContain('variants.json cannot be read');
    expect(refused.work).toBe(broken.work);
  });

  it('become the analysis in one change: what differs is set or taken out, all else stays', () => {
    const state = opened();
    const after = withChoices(state.work!, choices);
    expect(JSON.parse(after)).toEqual({
      lake: 'Pond',
      density: { depth_df: 3, family: 'poisson' }, // linear was no choice of the variant, 3 is the default
      substrates: ['mud'],
    });
    const edit = { file: ANALYSIS_FILE, row: null, column: WHOLE_FILE, after, reason: 'A', at };
    const adopted = reduce(state, { type: 'edit', edit });
    expect(adopted.run.state).toBe('working');
    expect(textOf(undo(adopted), ANALYSIS_FILE)).toBe(ANALYSIS);
  });
});

describe('a study that is cancelled', () => {
  it('leaves what came out before', () => {
    const { estimate, analysis } = handMadeResult();
    const study: KeptStudy = {
      kind: 'bootstrap',
      files: new Map(),
      result: { estimate, analysis },
    };
    const told = reduce(opened(), { type: 'studied', study });
    const running = { kind: 'bootstrap', step: 'bootstrap', share: 0.4 } as const;
    const working = reduce(told, { type: 'studying', running });
    expect(working.studies).toMatchObject({ running, bootstrap: study });
    const cancelled = reduce(working, { type: 'studying', running: null });
    expect(cancelled.studies).toEqual(told.studies);
  });
});

describe('reading variants.json', () => {
  it('tells what it cannot read as a notice', () => {
    const { variants, findings } = readVariants(bytes('{'));
    expect(variants).toEqual([]);
    expect(findings).toMatchObject([{ severity: 'notice', table: VARIANTS_FILE }]);
    expect(readVariants(undefined)).toEqual({ variants: [], findings: [] });
  });

  it('the fingerprint is of tables, maps and classes, not of choices, variants or candidate areas', () => {
    const classes = DEFAULT_ANALYSIS.substrates;
    const files: [string, Uint8Array][] = [
      ['transects.csv', bytes('transect\nT1\n')],
      ['habitat.csv', bytes('transect\nT1\n')],
    ];
    const own = fingerprint(new Map(files), classes);
    expect(own).toMatch(/^[0-9a-f]{16}$/);
    const beside = ['analysis.json', VARIANTS_FILE, 'treatments.geojson'].map(
      (name): [string, Uint8Array] => [name, bytes('{}')],
    );
    expect(fingerprint(new Map([...beside, ...files.reverse()]), classes)).toBe(own);
    const changed = new Map(files).set('habitat.csv', bytes('transect\nT2\n'));
    expect(fingerprint(changed, classes)).not.toBe(own);
    expect(fingerprint(new Map(files), [...classes].reverse())).not.toBe(own);
  });
});
