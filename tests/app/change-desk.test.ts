/** The desk where surveys are held against each other: what is asked of the worker, and what is given up. By hand. */

import { describe, expect, it } from 'vitest';
import type { TreatmentArea } from '../../shared/survey.ts';
import type { ChangeAsked, ChangeView, NamedSurvey } from '../../src/app/change-contract.ts';
import { changeDesk } from '../../src/app/state/change-desk.ts';

const survey = (name: string, text = name): NamedSurvey => ({
  name,
  files: new Map([['transects.csv', new TextEncoder().encode(text)]]),
});
const area = (name: string): TreatmentArea => ({ name, polygons: [], feature: 1 });
const VIEW: ChangeView = {
  ok: true,
  file: null,
  pictures: [],
  places: [],
  questions: [],
  findings: [],
};

function desk(view: ChangeView = VIEW) {
  const asked: { names: string[]; asked: ChangeAsked; done(): void; fail(why: string): void }[] =
    [];
  const told = { ended: 0, started: 0 };
  const change = changeDesk(() => {
    told.started += 1;
    return {
      core: {
        compareSurveys: (surveys, what) =>
          new Promise((done, fail) => {
            asked.push({
              names: surveys.map(({ name }) => name),
              asked: what,
              done: () => done(view),
              fail: (why) => fail(new Error(why)),
            });
          }),
        changeFiles: async () => new Map(),
      },
      end: () => {
        told.ended += 1;
      },
      broken: new Promise<never>(() => {}),
    };
  });
  return { change, asked, told };
}
/** What was promised has been dealt with. */
const settled = () => new Promise((resolve) => setTimeout(resolve));

describe('surveys beside the open one', () => {
  it('are asked about once there is another, under names of their own', async () => {
    const { change, asked } = desk();
    change.hold(survey('pond'), []);
    expect(asked).toHaveLength(0);
    change.add(survey('pond', 'a year later'));
    expect(asked.map(({ names }) => names)).toEqual([['pond', 'pond (2)']]);
    asked[0].done();
    await settled();
    expect(change.get()).toMatchObject({ step: null, view: VIEW, trouble: null });
    change.remove('pond (2)');
    expect(change.get()).toMatchObject({ others: [], view: null });
    expect(asked).toHaveLength(1);
  });

  it('a later request takes the place of the one under way, in the same worker, which keeps what it knows', async () => {
    const { change, asked, told } = desk();
    change.hold(survey('a'), []);
    change.add(survey('b'));
    change.accept('observers.a.b');
    expect(told).toEqual({ started: 1, ended: 0 });
    asked[0].done();
    await settled();
    expect(change.get().view).toBeNull();
    asked[1].done();
    await settled();
    expect(change.get().view).toEqual(VIEW);
    expect([...asked[1].asked.accepted]).toEqual(['observers.a.b']);
    change.answer('observers.a.b', { Ann: 'none' });
    expect([...asked[2].asked.accepted]).toEqual([]);
    expect(asked[2].asked.answers.get('observers.a.b')).toEqual({ Ann: 'none' });
  });

  it('the open survey as it is now: asked again where its files changed, let go where it is another one', async () => {
    const { change, asked } = desk();
    change.hold(survey('a'), [area('dock'), area('ramp')]);
    change.add(survey('b'));
    change.treat('dock', true);
    expect(asked.at(-1)?.asked.treated.map(({ name }) => name)).toEqual(['dock']);
    change.hold(survey('a'), [area('dock')]); // the same files
    expect(asked).toHaveLength(2);
    change.hold(survey('a', 'corrected'), [area('ramp')]);
    expect(asked).toHaveLength(3);
    expect(asked[2].asked.treated).toEqual([]);
    change.hold(survey('c'), []);
    expect(change.get()).toMatchObject({ open: { name: 'c' }, others: [], step: null });
    expect(asked).toHaveLength(3);
  });

  it('can be cancelled, which ends the worker, and asked for once more', async () => {
    const { change, asked, told } = desk();
    change.cancel(); // nothing is under way
    change.hold(survey('a'), []);
    change.add(survey('b'));
    change.cancel();
    expect(told).toEqual({ started: 1, ended: 1 });
    expect(change.get()).toMatchObject({ step: null, cancelled: true, view: null, trouble: null });
    asked[0].fail('ended');
    await settled();
    expect(change.get().trouble).toBeNull();
    change.again();
    expect(change.get()).toMatchObject({ step: 'read', cancelled: false });
    asked[1].done();
    await settled();
    expect(change.get()).toMatchObject({ step: null, cancelled: false, view: VIEW });
  });

  it('places of all surveys can be ticked once they were read, and those of the open one that are no more are not', async () => {
    const places = [area('dock'), area('ramp (b)')];
    const { change, asked } = desk({ ...VIEW, places } as ChangeView);
    change.hold(survey('a'), [area('dock')]);
    change.add(survey('b'));
    asked[0].done();
    await settled();
    expect(change.get().areas.map(({ name }) => name)).toEqual(['dock', 'ramp (b)']);
    change.treat('dock', true);
    change.treat('ramp (b)', true);
    change.hold(survey('a', 'corrected'), []);
    expect(asked.at(-1)?.asked.treated.map(({ name }) => name)).toEqual(['ramp (b)']);
  });

  it('what failed is told, and the next request begins with a new worker', async () => {
    const { change, asked, told } = desk();
    change.hold(survey('a'), []);
    change.add(survey('b'));
    asked[0].fail('out of memory');
    await settled();
    expect(change.get()).toMatchObject({ step: null, trouble: 'out of memory.' });
    change.withdraw('x');
    expect(change.get().trouble).toBeNull();
    expect(told).toEqual({ started: 2, ended: 1 });
  });
});
